using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>A member of a run at which two straights meet.</summary>
/// <param name="Before">Metres, the straight that ends here.</param>
/// <param name="After">Metres, the straight that begins here.</param>
/// <param name="Turn">Radians, left positive.</param>
/// <param name="UTurn">Radians, its standard uncertainty.</param>
/// <param name="Ordinate">Metres off the chord from the member before to the one after, positive where the run turns left.</param>
/// <param name="UOrdinate">Metres, its standard uncertainty.</param>
internal readonly record struct Corner(double Before, double After, double Turn, double UTurn, double Ordinate, double UOrdinate)
{
    /// <summary>1/m, of the circle through the three members, left positive (Menger): 2 × ordinate over the product of the legs.</summary>
    public double Curvature => 2 * Ordinate / (Before * After);

    /// <summary>1/m, its standard uncertainty.</summary>
    public double UCurvature => 2 * UOrdinate / (Before * After);

    /// <summary>The corner at a member that is neither first nor last; all zero where two of the three lie in one place.</summary>
    /// <remarks>Independent shots. Accuracy that nobody stated is that by which arcs are told from straights.</remarks>
    public static Corner At(Site site, Run run, int member)
    {
        var shots = site.Shots;
        var members = run.Members;
        var (p, q, r) = (shots.At(members[member - 1]), shots.At(members[member]), shots.At(members[member + 1]));
        Step before = q - p, after = r - q, chord = r - p;
        var (a, b, c) = (before.Size, after.Size, chord.Size);
        if (!(a > 0 && b > 0 && c > 0)) return default;
        var (cross, dot) = (before.Cross(after), before.Dot(after));
        var (sp, sq, sr) = (Sigma(0), Sigma(1), Sigma(2));
        var t = Math.Clamp(before.Dot(chord) / (c * c), 0, 1);
        var own = 1 / (a * a) + 1 / (b * b) + 2 * dot / (a * a * b * b);
        var uTurn = Math.Sqrt(sp * sp / (a * a) + sr * sr / (b * b) + sq * sq * own);
        var uOrdinate = Math.Sqrt(sq * sq + (1 - t) * (1 - t) * sp * sp + t * t * sr * sr);
        return new(a, b, Math.Atan2(cross, dot), uTurn, cross / c, uOrdinate);

        double Sigma(int place) => RunEnds.Sigma(shots, site.Settings, run.Members[member - 1 + place]);
    }
}
