namespace Aslaid.Record;

/// <summary>Between which values a measured one should lie, in its own unit. Either limit may be absent; both belong to what is allowed.</summary>
public readonly record struct Limits(double? Lower, double? Upper)
{
    /// <summary>Metres: a value this near to a limit equals it.</summary>
    public const double Same = 1e-6;

    /// <summary>A least value only.</summary>
    public static Limits AtLeast(double lower) => new(lower, null);

    /// <summary>A largest value only.</summary>
    public static Limits AtMost(double upper) => new(null, upper);

    /// <summary>
    /// What a code allows a height to deviate from its design, metres, up positive: <c>tol_height_m</c> both ways, except where
    /// <c>tol_high_m</c> or <c>tol_low_m</c> says otherwise. A tolerance of 0 is a limit at the design.
    /// </summary>
    public static Limits OfHeight(CodeEntry entry) => new(-(entry.ToleranceLow ?? entry.ToleranceHeight), entry.ToleranceHigh ?? entry.ToleranceHeight);

    /// <summary>Whether there is no limit.</summary>
    public bool IsNone => !(Lower.HasValue || Upper.HasValue);

    /// <summary>From lower to upper; null unless both are there.</summary>
    public double? Width => Upper - Lower;

    /// <summary>How far inside the nearer limit a value lies; negative beyond it, infinite without limits.</summary>
    public double Room(double value) => Math.Min(value - Lower ?? double.PositiveInfinity, Upper - value ?? double.PositiveInfinity);

    /// <summary>Whether a value lies within them.</summary>
    public bool Hold(double value) => Room(value) >= -Same;

    /// <summary>Whether no value whatever could be proven inside: twice the uncertainty is more than the width. Never so with one limit.</summary>
    /// <param name="u95">Expanded uncertainty, in the unit of the limits.</param>
    public bool AllowNothing(double u95) => 2 * u95 > Width + Same;

    /// <summary>The limits drawn in by a guard band on each side (JCGM 106, 8.3); the lower above the upper where nothing is left.</summary>
    public Limits DrawnIn(double band) => new(Lower + band, Upper - band);

    /// <summary>As <c>at most 0.050</c> or <c>2.000 to 150.000</c>, invariant.</summary>
    public override string ToString() => this switch
    {
        { Lower: { } lower, Upper: { } upper } => FormattableString.Invariant($"{lower:0.000} to {upper:0.000}"),
        { Lower: { } lower } => FormattableString.Invariant($"at least {lower:0.000}"),
        { Upper: { } upper } => FormattableString.Invariant($"at most {upper:0.000}"),
        _ => "no limit",
    };
}
