using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>How a measure answers to one shot: its derivatives by the shot's coordinates, in the measure's unit per metre.</summary>
public readonly record struct ShotTerm(int Shot, double East, double North, double Height);

/// <summary>
/// A value and its gradient by shot. Differences and sums combine gradients before anything is squared, so that a shot in both
/// counts once and what a session has in common cancels where it should.
/// </summary>
public sealed class ShotMeasure
{
    private ShotMeasure(double value, ImmutableArray<ShotTerm> gradient) => (Value, Gradient) = (value, gradient);

    /// <summary>Metres or square metres.</summary>
    public double Value { get; }

    /// <summary>One term a shot, by rising row.</summary>
    public ImmutableArray<ShotTerm> Gradient { get; }

    /// <summary>A measure of a run, or null where it has none: no pieces, a height missing, a ring open.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A count is no measure.</exception>
    public static ShotMeasure? Of(Run run, QuantityKind kind)
    {
        if (run.PieceCount == 0) return null;
        var path = run.Path.Span;
        var count = run.MemberCount;
        var (east, north, height) = (new double[count], new double[count], new double[count]);
        double? value = kind switch
        {
            QuantityKind.PlanLength => PathMeasures.PlanLength(path, east, north),
            QuantityKind.SlopeLength => PathMeasures.SlopeLength(path, east, north, height),
            QuantityKind.Area => run.Area is null ? null : PathMeasures.Area(path, east, north),
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "A count has no gradient."),
        };
        if (value is not { } known) return null;
        var sense = kind == QuantityKind.Area ? Math.Sign(known) : 1; // an area is taken without its sense
        var terms = new SortedDictionary<int, ShotTerm>();
        for (var member = 0; member < count; member++) Add(terms, new(run.Members[member], sense * east[member], sense * north[member], sense * height[member]));
        return new(sense * known, [.. terms.Values]);
    }

    /// <summary>This plus <paramref name="factor"/> times another measure.</summary>
    public ShotMeasure Plus(ShotMeasure other, double factor = 1)
    {
        var terms = new SortedDictionary<int, ShotTerm>();
        foreach (var term in Gradient) Add(terms, term);
        foreach (var term in other.Gradient) Add(terms, new(term.Shot, factor * term.East, factor * term.North, factor * term.Height));
        return new(Value + factor * other.Value, [.. terms.Values]);
    }

    /// <summary>Its standard uncertainty; null where a shot with weight states no accuracy.</summary>
    public double? U(CurrentShots shots)
    {
        var propagation = new Propagation(shots);
        propagation.Add(Gradient.AsSpan());
        var u = propagation.Take();
        return double.IsNaN(u) ? null : u;
    }

    /// <summary>The gradient by session: what each session's common shift would do to the measure.</summary>
    public ImmutableSortedDictionary<int, ShotTerm> BySession(CurrentShots shots)
    {
        var terms = new SortedDictionary<int, ShotTerm>();
        foreach (var term in Gradient) Add(terms, term with { Shot = shots.Session[term.Shot] });
        return terms.ToImmutableSortedDictionary();
    }

    private static void Add(SortedDictionary<int, ShotTerm> terms, ShotTerm term)
    {
        var before = terms.GetValueOrDefault(term.Shot);
        terms[term.Shot] = new(term.Shot, before.East + term.East, before.North + term.North, before.Height + term.Height);
    }
}
