using Aslaid.Geometry;

namespace Aslaid.Record;

public static partial class Measures
{
    /// <summary>
    /// Clear distance of two runs in plan at their closest approach, metres; null where they meet in plan, since then only
    /// <see cref="Gap"/> says how far apart they are, and for runs without pieces.
    /// </summary>
    /// <param name="sizes">What both take of the distance, metres, exact: half the width of each.</param>
    /// <remarks>
    /// dd = n·(dF₂ − dF₁), n from the one foot to the other: both keep their shares, since sliding changes nothing of first order. Runs
    /// that are parallel where they are nearest have many closest places; the first found stands for them. What a session has in
    /// common cancels where both are of it, and a shot of both counts once.
    /// </remarks>
    public static ShotMeasure? Separation(Run one, Run other, double sizes)
    {
        if (one.PieceCount == 0 || other.PieceCount == 0) return null;
        var nearest = one.Path.Nearest(other.Path);
        if (nearest.Distance == 0) return null;
        var (here, there) = (RunPlace.AtChainage(one, nearest.Here), RunPlace.AtChainage(other, nearest.There));
        var way = 1 / nearest.Distance * (nearest.AtThere - nearest.AtHere);
        var sum = new GradientSum();
        there.Add(sum, way);
        here.Add(sum, -1 * way);
        return sum.Of(nearest.Distance - sizes);
    }

    /// <summary>
    /// Clear gap of two runs in height where they cross in plan, metres: bottom of the upper less top of the lower. Null where a height
    /// is missing and where they touch without crossing.
    /// </summary>
    /// <param name="at">One of the crossings of the upper's path with the lower's.</param>
    /// <param name="sizes">From the measured heights to bottom and top, metres, exact; taken off the difference of the heights.</param>
    /// <remarks>The crossing slides on both: with D the move of the lower's place less that of the upper's, ds = D × ahead(other)/(ahead(upper) × ahead(lower)).</remarks>
    public static ShotMeasure? Gap(Run upper, Run lower, PathMeeting at, double sizes)
    {
        var (over, under) = (RunPlace.AtChainage(upper, at.Here), RunPlace.AtChainage(lower, at.There));
        var across = over.Ahead.Cross(under.Ahead);
        if (!over.HasHeight || !under.HasHeight || Math.Abs(across) < Parallel) return null;
        var sum = new GradientSum();
        over.AddHeight(sum, 1);
        under.AddHeight(sum, -1);
        var onD = over.Slope / across * (-1 * under.Ahead.Left) - under.Slope / across * (-1 * over.Ahead.Left); // D × a = D·(a turned right)
        under.Add(sum, onD);
        over.Add(sum, -1 * onD);
        return sum.Of(over.Height - under.Height - sizes);
    }

    private const double Parallel = 1e-6; // radians
}
