namespace Aslaid.Geometry;

public static partial class Meet
{
    private const double GridRounding = 1e-8; // m: ten steps of a double at 6 000 000 m; nearer than this is touching

    /// <summary>The nearest places of two straights.</summary>
    public static Nearness Nearest(in Straight a, in Straight b)
    {
        Span<Point2> at = stackalloc Point2[Most];
        if (Intersect(a, b, GridRounding, at) > 0) return new(0, at[0], at[0]);
        var best = Ends(a.From, a.To, b.Locate(a.From), b.Locate(a.To));
        var other = Ends(b.From, b.To, a.Locate(b.From), a.Locate(b.To));
        return other.Distance < best.Distance ? other.Swap() : best;
    }

    /// <summary>The nearest places of a straight and an arc.</summary>
    /// <remarks>Where they do not meet, an end of either is nearest, or the line from the centre square to the straight joins them.</remarks>
    public static Nearness Nearest(in Straight a, in Arc b)
    {
        Span<Point2> at = stackalloc Point2[Most];
        if (Intersect(a, b, GridRounding, at) > 0) return new(0, at[0], at[0]);
        var best = Ends(a.From, a.To, b.Locate(a.From), b.Locate(a.To));
        var other = Ends(b.From, b.To, a.Locate(b.From), a.Locate(b.To));
        if (other.Distance < best.Distance) best = other.Swap();
        var foot = a.Locate(b.Centre).Foot;
        var beside = b.Locate(foot);
        return beside.Distance < best.Distance ? new(beside.Distance, foot, beside.Foot) : best;
    }

    /// <summary>The nearest places of an arc and a straight.</summary>
    public static Nearness Nearest(in Arc a, in Straight b) => Nearest(b, a).Swap();

    /// <summary>The nearest places of two arcs.</summary>
    /// <remarks>Where they do not meet, an end of either is nearest, or the line through both centres joins them. Of arcs about one
    /// centre, an end of one lies beside the other.</remarks>
    public static Nearness Nearest(in Arc a, in Arc b)
    {
        Span<Point2> at = stackalloc Point2[Most];
        if (Intersect(a, b, GridRounding, at) > 0) return new(0, at[0], at[0]);
        var best = Ends(a.From, a.To, b.Locate(a.From), b.Locate(a.To));
        var other = Ends(b.From, b.To, a.Locate(b.From), a.Locate(b.To));
        if (other.Distance < best.Distance) best = other.Swap();
        var apart = b.Centre - a.Centre;
        var distance = apart.Size;
        if (distance == 0) return best;
        foreach (var side in (ReadOnlySpan<double>)[1, -1])
        {
            var place = a.Centre + side * a.Radius / distance * apart;
            var onA = a.Locate(place);
            if (onA.Along <= 0 || onA.Along >= a.PlanLength) continue; // an end, already asked
            var onB = b.Locate(onA.Foot);
            if (onB.Distance < best.Distance) best = new(onB.Distance, onA.Foot, onB.Foot);
        }
        return best;
    }

    private static Nearness Ends(Point2 from, Point2 to, Locus atFrom, Locus atTo) =>
        atFrom.Distance <= atTo.Distance ? new(atFrom.Distance, from, atFrom.Foot) : new(atTo.Distance, to, atTo.Foot);
}
