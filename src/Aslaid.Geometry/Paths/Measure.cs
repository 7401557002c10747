using System.Collections.Immutable;

namespace Aslaid.Geometry;

/// <summary>How a measure answers to a move of one vertex: its derivative by each coordinate, in the measure's unit per metre.</summary>
/// <param name="Vertex">Position in the path.</param>
/// <param name="East">By its east.</param>
/// <param name="North">By its north.</param>
/// <param name="Height">By its height.</param>
public readonly record struct MeasureTerm(int Vertex, double East, double North, double Height)
{
    /// <summary>Vertex and derivatives, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"vertex {Vertex}: {East:G6} {North:G6} {Height:G6}");
}

/// <summary>A number measured on a path, with its gradient: one term per vertex, in order, zero terms left out.</summary>
/// <remarks>Uncertainties follow by u² = gᵀΣg (JCGM 100:2008, 5.2.2). A path closed on its first place lists that place twice:
/// add both terms to the one shot before squaring.</remarks>
public sealed class Measure
{
    internal Measure(double value, ImmutableArray<MeasureTerm> gradient)
    {
        Value = value;
        Gradient = gradient;
    }

    /// <summary>Metres, or square metres for an area.</summary>
    public double Value { get; }

    /// <summary>Terms by rising vertex.</summary>
    public ImmutableArray<MeasureTerm> Gradient { get; }
}
