using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>A line of a design: where something is to be built, or an alignment to measure from.</summary>
/// <param name="Name">What the file calls it; lines of one name are told apart by a number.</param>
/// <param name="Words">What may say its code, in the order asked: a property code, a description, a layer, a style, its name.</param>
/// <param name="Path">Straights and true arcs, site grid, metres.</param>
public sealed record DesignLine(string Name, ImmutableArray<string> Words, Path Path)
{
    /// <summary>Heights by chainage; null where those of the path's vertices count.</summary>
    public Profile? Profile { get; init; }

    /// <summary>Whether it lies there already: nothing to be built, something to be met.</summary>
    public bool IsExisting { get; init; }

    /// <summary>Chainages at which one element ends and the next begins, where that is not at every piece: a spiral is many arcs. Empty for every piece.</summary>
    public ImmutableArray<double> Joints { get; init; } = [];

    /// <summary>Stations as the design counts them.</summary>
    public Stationing Stationing { get; init; }

    /// <summary>The height at a chainage, metres; null where the design has none.</summary>
    /// <remarks>A profile that ends a rounding before its path, or begins one behind it, holds on to the path's end.</remarks>
    public double? HeightAt(double chainage)
    {
        if (Profile is not { } profile) return Path.HeightAt(chainage);
        if (chainage < profile.Start && profile.Start - chainage <= Rounding) chainage = profile.Start;
        if (chainage > profile.End && chainage - profile.End <= Rounding) chainage = profile.End;
        return profile.HeightAt(chainage);
    }

    private const double Rounding = 0.01; // m, of stations
}

/// <summary>A point of a design.</summary>
/// <param name="Words">What may say its code, in the order asked.</param>
/// <param name="Height">Metres; null where the design has none.</param>
public sealed record DesignPoint(string Name, ImmutableArray<string> Words, Point2 At, double? Height);

/// <summary>A surface of a design file.</summary>
public sealed record DesignSurface(string Name, Tin Tin);

/// <summary>What a design file holds, in metres on the site grid.</summary>
/// <param name="Skipped">What was passed over and why, a sentence each; the same once, with its number.</param>
public sealed record DesignFile(ImmutableArray<DesignLine> Lines, ImmutableArray<DesignPoint> Points, ImmutableArray<DesignSurface> Surfaces, ImmutableArray<string> Skipped);
