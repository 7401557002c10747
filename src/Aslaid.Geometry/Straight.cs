namespace Aslaid.Geometry;

/// <summary>Where a place lies beside a line.</summary>
/// <param name="Along">Chainage of the foot, metres from the line's start, within its length.</param>
/// <param name="Offset">Metres square to the line at the foot, right positive. Beside the line its size is <paramref name="Distance"/>;
/// beyond an open end it is the part square to the end's tangent.</param>
/// <param name="Distance">Metres from the place to the foot, never negative.</param>
/// <param name="Foot">The point of the line nearest to the place.</param>
public readonly record struct Locus(double Along, double Offset, double Distance, Point2 Foot)
{
    /// <summary>Chainage, offset and foot, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"{Along:0.0000} m along, {Offset:0.0000} m right, foot {Foot}");
}

/// <summary>A straight from one place to another. <c>default</c> is a dot at the origin.</summary>
/// <param name="From">Its start.</param>
/// <param name="To">Its end; may be its start.</param>
public readonly record struct Straight(Point2 From, Point2 To)
{
    /// <summary>Metres in plan, grid.</summary>
    public double PlanLength => From.DistanceTo(To);

    /// <summary>The way from start to end; north for a dot.</summary>
    public Bearing Bearing => Bearing.Of(From, To);

    /// <summary>The smallest box over it.</summary>
    public Box2 Box => Box2.Of(From, To);

    /// <summary>The place at a chainage.</summary>
    /// <param name="along">Metres from the start; beyond either end the straight is continued. The ends come back bit for bit.</param>
    public Point2 PointAt(double along)
    {
        var length = PlanLength;
        if (along == 0 || length == 0) return From;
        if (along == length) return To;
        return along + along <= length ? From + along / length * (To - From) : To + (along - length) / length * (To - From);
    }

    /// <summary>Both ends, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"{From} to {To}");

    /// <summary>The nearest point of the straight, its chainage, and the offset. For a dot the offset is the distance.</summary>
    public Locus Locate(Point2 place)
    {
        var whole = To - From;
        var length = whole.Size;
        var from = place - From;
        if (length == 0) return new(0, from.Size, from.Size, From);
        var along = from.Dot(whole) / length;
        var offset = from.Cross(whole) / length;
        if (along <= 0) return new(0, offset, from.Size, From);
        if (along >= length) return new(length, offset, place.DistanceTo(To), To);
        return new(along, offset, Math.Abs(offset), PointAt(along));
    }
}
