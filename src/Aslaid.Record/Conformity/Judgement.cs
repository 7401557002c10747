namespace Aslaid.Record;

/// <summary>
/// Two answers about a limit, side by side: whether the measured value lies within it, which is usually the contract's test, and what
/// is proven (JCGM 106:2012). Made in one of three ways, never mixed: <see cref="OfTolerance"/> and <see cref="OfPlace"/> ask
/// whether a thing is where or as it should be; <see cref="OfAccuracy"/> asks how well the record says where it is.
/// </summary>
public readonly record struct Judgement
{
    /// <summary>What was measured, in its unit; null where nothing was.</summary>
    public double? Value { get; private init; }

    /// <summary>Its standard uncertainty, of a place in plan radial; null where not known, or where the value is itself an uncertainty.</summary>
    public double? U { get; private init; }

    /// <summary>Its uncertainty at 95 %, or with the coverage stated; null with <see cref="U"/>.</summary>
    public double? U95 { get; private init; }

    /// <summary>Between which values it should lie.</summary>
    public Limits Limits { get; private init; }

    /// <summary>Between which values it is accepted: the limits drawn in by the guard band. Null where the uncertainty is not known.</summary>
    public Limits? Acceptance { get; private init; }

    /// <summary>Whether the measured value lies within the limits, its uncertainty left aside; null where nothing was measured.</summary>
    public bool? Within { get; private init; }

    /// <summary>What is proven.</summary>
    public Verdict Verdict { get; private init; }

    /// <summary>
    /// Probability that the true value lies within the limits (JCGM 106, 7); null where value or uncertainty is not known. Who accepts
    /// runs the risk that it does not, who rejects the risk that it does (specific consumer's and producer's risk, JCGM 106, 9.3.2).
    /// </summary>
    public double? PConforms { get; private init; }

    /// <summary>A value against its limits: an offset, a height difference, a radius, a fall.</summary>
    /// <param name="value">In the unit of the limits; null where nothing was measured.</param>
    /// <param name="u">Standard uncertainty in the same unit; null is not known and proves nothing, 0 is exact.</param>
    /// <param name="guardShare">Guard band as a share of the expanded uncertainty, <see cref="Settings.GuardBand"/>.</param>
    /// <param name="coverage">Expanded by standard uncertainty; 1.960 is 95 % of a normal distribution.</param>
    public static Judgement OfTolerance(double? value, double? u, Limits limits, double guardShare, double coverage = Normal.Within95) => Of(
        value, u, coverage * u, limits, guardShare, u is { } known && limits.AllowNothing(coverage * known),
        value is { } measured && u is { } sigma ? Inside(measured, sigma, limits) : null);

    /// <summary>
    /// A radius against its limits, judged by its curvature 1/R with u/R²: the shots of an arc tell its curvature evenly, its radius
    /// not (decision 0012). A flat arc that may as well be straight proves no radius.
    /// </summary>
    /// <param name="radius">Metres.</param>
    /// <param name="u">Its standard uncertainty by linear propagation, metres; null is not known.</param>
    public static Judgement OfRadius(double radius, double? u, Limits limits, double guardShare)
    {
        var curvature = new Limits(1 / limits.Upper, limits.Lower > 0 ? 1 / limits.Lower : null);
        var (own, sigma) = (1 / radius, u / (radius * radius));
        var judged = OfTolerance(own, sigma, curvature, guardShare);
        return judged with
        {
            Value = radius, U = u, U95 = Normal.Within95 * u, Limits = limits, Within = limits.Hold(radius),
            Acceptance = judged.Acceptance is { } drawn ? new Limits(1 / drawn.Upper, drawn.Lower > 0 ? 1 / drawn.Lower : null) : null,
        };
    }

    /// <summary>A distance in plan from where a thing should be, against the largest allowed: radial, hence 2.448 standard uncertainties per axis.</summary>
    /// <param name="distance">Metres, not negative; null where nothing was measured.</param>
    /// <param name="sigma">Standard uncertainty per axis, metres; null is not known.</param>
    /// <param name="most">Largest distance allowed, metres.</param>
    /// <param name="guardShare">Guard band as a share of the expanded uncertainty.</param>
    public static Judgement OfPlace(double? distance, double? sigma, double most, double guardShare)
    {
        double? p = distance is { } d && sigma is { } known ? known > 0 ? CircularNormal.Within(most, d, known) : Limits.AtMost(most).Hold(d) ? 1 : 0 : null;
        return Of(distance, Math.Sqrt(2) * sigma, Normal.Circle95 * sigma, Limits.AtMost(most), guardShare, Normal.Circle95 * sigma > most + Limits.Same, p);
    }

    /// <summary>
    /// Location accuracy: the 95 % uncertainty of a recorded place against the largest that its code allows. It says nothing about
    /// where the thing should be.
    /// </summary>
    /// <param name="u95">2.448 standard uncertainties per axis in plan, 1.960 of a height, metres; null where not known.</param>
    /// <param name="most">Largest 95 % uncertainty allowed, metres.</param>
    /// <param name="stated">The same were the stated accuracy proven; where that is within and <paramref name="u95"/> is not, nothing is proven yet.</param>
    public static Judgement OfAccuracy(double? u95, double most, double? stated = null)
    {
        if (u95 is double.NaN) u95 = null;
        bool? within = u95 is { } known ? Limits.AtMost(most).Hold(known) : null;
        if (within == false && stated is { } hoped && Limits.AtMost(most).Hold(hoped)) within = null;
        return new()
        {
            Value = u95,
            Limits = Limits.AtMost(most),
            Within = within,
            Verdict = within switch { true => Verdict.Conforms, false => Verdict.DoesNotConform, null => Verdict.NotProven },
        };
    }

    private static Judgement Of(double? value, double? u, double? u95, Limits limits, double guardShare, bool unfit, double? p) => new()
    {
        Value = value,
        U = u,
        U95 = u95,
        Limits = limits,
        Acceptance = u95 is { } known ? limits.DrawnIn(guardShare * known) : null,
        Within = value is { } measured ? limits.Hold(measured) : null,
        Verdict = VerdictOf(value, u95, limits, guardShare, unfit),
        PConforms = p,
    };

    /// <summary>Where the method is unfit, beyond doubt is by the whole uncertainty, whatever the guard band.</summary>
    private static Verdict VerdictOf(double? value, double? u95, Limits limits, double guardShare, bool unfit)
    {
        if (u95 is not { } expanded) return Verdict.NotProven;
        if (value is not { } measured) return unfit ? Verdict.MethodUnfit : Verdict.NotProven;
        var (room, band) = (limits.Room(measured), (unfit ? 1 : guardShare) * expanded);
        if (room < -band - Limits.Same) return Verdict.DoesNotConform;
        if (unfit) return Verdict.MethodUnfit;
        return room >= band - Limits.Same ? Verdict.Conforms : Verdict.NotProven;
    }

    private static double Inside(double value, double u, Limits limits)
    {
        if (u == 0) return limits.Hold(value) ? 1 : 0;
        var below = limits.Lower is { } lower ? Normal.Below((lower - value) / u) : 0;
        var above = limits.Upper is { } upper ? Normal.Above((upper - value) / u) : 0;
        return Math.Max(0, 1 - below - above);
    }
}
