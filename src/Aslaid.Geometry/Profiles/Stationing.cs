using System.Collections.Immutable;

namespace Aslaid.Geometry;

/// <summary>A place from which an alignment is stationed anew.</summary>
/// <param name="Chainage">Metres along the path.</param>
/// <param name="Back">Station that it ends with there.</param>
/// <param name="Ahead">Station that it goes on with.</param>
public readonly record struct StationEquation(double Chainage, double Back, double Ahead)
{
    /// <summary>Both stations, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"{Back:0.000} = {Ahead:0.000} at {Chainage:0.000} m");
}

/// <summary>Stations of a path: its chainages as the design counts them, metres. <c>default</c> counts from 0.</summary>
/// <param name="Start">Station of its start.</param>
/// <param name="Equations">By rising chainage.</param>
public readonly record struct Stationing(double Start, ImmutableArray<StationEquation> Equations)
{
    /// <summary>The station at a chainage, metres; at an equation that ahead.</summary>
    public double StationAt(double chainage)
    {
        var (from, station) = (0.0, Start);
        if (!Equations.IsDefaultOrEmpty)
            foreach (var equation in Equations)
                if (chainage >= equation.Chainage) (from, station) = (equation.Chainage, equation.Ahead);
        return station + (chainage - from);
    }

    /// <summary>Chainages of a station, rising: none, one, or several where an equation repeats it.</summary>
    /// <param name="station">Metres.</param>
    /// <param name="length">Metres of the path.</param>
    public ImmutableArray<double> ChainagesOf(double station, double length)
    {
        var found = ImmutableArray.CreateBuilder<double>();
        var (from, first) = (0.0, Start);
        foreach (var equation in Equations.IsDefault ? [] : Equations)
        {
            Take(station, equation.Chainage);
            (from, first) = (equation.Chainage, equation.Ahead);
        }

        Take(station, length);
        return found.ToImmutable();

        void Take(double wanted, double until)
        {
            var chainage = from + (wanted - first);
            if (chainage >= from - Same && chainage <= until + Same && (found.Count == 0 || chainage > found[^1] + Same)) found.Add(Math.Clamp(chainage, 0, length));
        }
    }

    /// <summary>First station and equations, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"from {Start:0.000} m, {(Equations.IsDefault ? 0 : Equations.Length)} equations");

    private const double Same = 1e-9; // m
}
