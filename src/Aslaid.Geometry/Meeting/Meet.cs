namespace Aslaid.Geometry;

/// <summary>The nearest places of two pieces.</summary>
/// <param name="Distance">Metres, 0 where they meet.</param>
/// <param name="First">On the first piece.</param>
/// <param name="Second">On the second.</param>
public readonly record struct Nearness(double Distance, Point2 First, Point2 Second)
{
    /// <summary>The same, the pieces exchanged.</summary>
    public Nearness Swap() => new(Distance, Second, First);

    /// <summary>Distance and both places, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"{Distance:0.0000} m from {First} to {Second}");
}

/// <summary>Where straights and arcs meet, and where they come nearest.</summary>
/// <remarks>Up to four places are written, in order along the first piece, and counted. The tolerance, metres, is how far from a
/// piece a place may lie and still be on it: it closes the gap at ends that should touch and at lines that should be tangent.
/// Pieces that share a stretch meet at its ends. Two crossings of one curve are two places however near each other, unless
/// nearer than the tolerance.</remarks>
public static partial class Meet
{
    /// <summary>The most places two pieces can meet in, shared stretches included.</summary>
    public const int Most = 4;

    /// <summary>Straight with straight.</summary>
    public static int Intersect(in Straight a, in Straight b, double tolerance, Span<Point2> at)
    {
        var found = new Found(at, tolerance);
        Step u = a.To - a.From, v = b.To - b.From, apart = b.From - a.From;
        double uu = u.Size, vv = v.Size, cross = u.Cross(v);
        var parallel = Math.Abs(cross) <= 1e-12 * uu * vv;
        if (!parallel)
        {
            double s = apart.Cross(v) / cross, t = apart.Cross(u) / cross;
            if (s * uu >= -tolerance && (s - 1) * uu <= tolerance && t * vv >= -tolerance && (t - 1) * vv <= tolerance)
                found.Add(Snap(s <= 0.5 ? a.From + s * u : a.To + (s - 1) * u, a.From, a.To, tolerance));
        }
        // Parallel or nearly: the ends that lie on the other.
        if (found.Count == 0)
        {
            found.AddIf(a.From, b.Locate(a.From).Distance);
            found.AddIf(a.To, b.Locate(a.To).Distance);
            found.AddIf(b.From, a.Locate(b.From).Distance);
            found.AddIf(b.To, a.Locate(b.To).Distance);
        }
        return found.InOrder(a);
    }

    /// <summary>Straight with arc.</summary>
    public static int Intersect(in Straight a, in Arc b, double tolerance, Span<Point2> at)
    {
        var found = new Found(at, tolerance);
        Cross(a, b, tolerance, ref found);
        return found.InOrder(a);
    }

    /// <summary>Arc with straight.</summary>
    public static int Intersect(in Arc a, in Straight b, double tolerance, Span<Point2> at)
    {
        var found = new Found(at, tolerance);
        Cross(b, a, tolerance, ref found);
        return found.InOrder(a);
    }

    /// <summary>Arc with arc.</summary>
    public static int Intersect(in Arc a, in Arc b, double tolerance, Span<Point2> at)
    {
        var found = new Found(at, tolerance);
        var apart = b.Centre - a.Centre;
        var distance = apart.Size;
        if (distance <= tolerance && Math.Abs(a.Radius - b.Radius) <= tolerance)
        {
            found.AddIf(a.From, b.Locate(a.From).Distance);
            found.AddIf(a.To, b.Locate(a.To).Distance);
            found.AddIf(b.From, a.Locate(b.From).Distance);
            found.AddIf(b.To, a.Locate(b.To).Distance);
        }
        else if (distance > 0 && distance <= a.Radius + b.Radius + tolerance && distance >= Math.Abs(a.Radius - b.Radius) - tolerance)
        {
            // The common chord stands square to the line of centres, "along" from a's centre; (a+b)(a−b) saves digits.
            var along = (distance + (a.Radius + b.Radius) * ((a.Radius - b.Radius) / distance)) / 2;
            along = Math.Clamp(along, -a.Radius, a.Radius); // at or just beyond a touch
            var half = Math.Sqrt(Math.Max(0, (a.Radius - along) * (a.Radius + along)));
            var unit = 1 / distance * apart;
            foreach (var side in (ReadOnlySpan<double>)[1, -1])
                found.AddIfOnBoth(a.Centre + (along * unit + side * half * unit.Left), a, b);
        }
        return found.InOrder(a);
    }

    private static void Cross(in Straight line, in Arc arc, double tolerance, ref Found found)
    {
        var whole = line.To - line.From;
        var length = whole.Size;
        if (length == 0)
        {
            found.AddIf(line.From, arc.Locate(line.From).Distance);
            return;
        }
        var unit = 1 / length * whole;
        var toCentre = arc.Centre - line.From;
        var beside = unit.Cross(toCentre); // the centre's distance from the line, left positive
        if (Math.Abs(beside) > arc.Radius + tolerance) return;
        var foot = unit.Dot(toCentre);
        var half = Math.Sqrt(Math.Max(0, (arc.Radius - beside) * (arc.Radius + beside)));
        foreach (var side in (ReadOnlySpan<double>)[-1, 1])
        {
            var along = foot + side * half;
            if (along < -tolerance || along > length + tolerance) continue;
            var place = Snap(along <= length / 2 ? line.From + along * unit : line.To + (along - length) * unit, line.From, line.To, tolerance);
            found.AddIf(place, arc.Locate(place).Distance);
        }
    }

    private static Point2 Snap(Point2 place, Point2 from, Point2 to, double tolerance) =>
        place.DistanceTo(from) <= tolerance ? from : place.DistanceTo(to) <= tolerance ? to : place;

    private ref struct Found(Span<Point2> at, double tolerance)
    {
        private readonly Span<Point2> at = at;
        private readonly double tolerance = tolerance;

        internal int Count { get; private set; }

        internal void Add(Point2 place)
        {
            for (var i = 0; i < Count; i++)
                if (at[i].DistanceTo(place) <= tolerance) return;
            at[Count++] = place;
        }

        internal void AddIf(Point2 place, double distance)
        {
            if (distance <= tolerance) Add(place);
        }

        internal void AddIfOnBoth(Point2 place, in Arc a, in Arc b)
        {
            if (a.Locate(place).Distance > tolerance || b.Locate(place).Distance > tolerance) return;
            Add(Snap(place, a.From, a.To, tolerance));
        }

        internal readonly int InOrder(in Straight along)
        {
            Span<double> keys = stackalloc double[Most];
            for (var i = 0; i < Count; i++) keys[i] = along.Locate(at[i]).Along;
            MemoryExtensions.Sort(keys[..Count], at[..Count]);
            return Count;
        }

        internal readonly int InOrder(in Arc along)
        {
            Span<double> keys = stackalloc double[Most];
            for (var i = 0; i < Count; i++) keys[i] = along.FootAngle(at[i]);
            MemoryExtensions.Sort(keys[..Count], at[..Count]);
            return Count;
        }
    }
}
