using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>How a constructed point answers to a shot: its move in plan and height, metres per metre.</summary>
public readonly record struct ConstructedTerm(int Shot, PlaceAnswer Answer);

/// <summary>How a constructed point answers to a reading of tape or bearing.</summary>
/// <param name="Number">The reading, over all constructed points: points made from one another share it.</param>
public readonly record struct ConstructedReading(int Number, ReadingAnswer Answer);

/// <summary>One constructed point: what it was made from.</summary>
/// <param name="Row">Its row, after all shots.</param>
/// <param name="Entry">Journal position that made it.</param>
/// <param name="How">As it was said.</param>
/// <param name="ByShot">By measured shots only: what lies between is carried through.</param>
/// <param name="ByReading">By readings, its own and those of points it was made from.</param>
/// <param name="Fit">For a tangential fit, the fit.</param>
public sealed record ConstructedPoint(
    int Row, int Entry, Construction How, ImmutableArray<ConstructedTerm> ByShot, ImmutableArray<ConstructedReading> ByReading, TangentFit? Fit);

/// <summary>Points that were computed from shots, by row.</summary>
public sealed class ConstructedPoints
{
    private readonly Dictionary<int, ConstructedPoint> points = [];
    private readonly List<double> readings = [];

    /// <summary>The point of a row, or null.</summary>
    public ConstructedPoint? Find(int row) => points.GetValueOrDefault(row);

    /// <summary>All of them, by row.</summary>
    public IEnumerable<ConstructedPoint> All => points.Values;

    /// <summary>Standard uncertainty of a reading, metres or radians.</summary>
    public double U(int reading) => readings[reading];

    /// <summary>In words, as <c>tape from 1:5</c>, for any output that names it.</summary>
    public static string Words(Construction how) => $"{EnumWords.Of(how.Kind)} from {string.Join(' ', how.Parents)}";

    internal int Keep(double u)
    {
        readings.Add(u);
        return readings.Count - 1;
    }

    internal void Add(ConstructedPoint point) => points.Add(point.Row, point);
}
