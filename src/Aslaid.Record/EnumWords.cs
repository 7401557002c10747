using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>The words by which states appear in files, on the command line and in JSON. Stable.</summary>
public static class EnumWords
{
    /// <summary>What a surface is.</summary>
    public static string Of(SurfaceKind kind) => kind switch { SurfaceKind.Designed => "designed", SurfaceKind.AsBuilt => "as-built", SurfaceKind.Existing => "existing", _ => "temporary" };

    /// <summary>How two runs come near each other.</summary>
    public static string Of(ClearanceKind kind) => kind switch { ClearanceKind.Crossing => "crossing", ClearanceKind.Alongside => "alongside", _ => "approach" };

    /// <summary><c>stop</c>, <c>look</c> or <c>note</c>.</summary>
    public static string Of(Severity severity) => severity switch { Severity.Stop => "stop", Severity.Look => "look", _ => "note" };

    /// <summary><c>standing</c>, <c>accepted</c> or <c>lapsed</c>.</summary>
    public static string Of(FindingState state) => state switch { FindingState.Accepted => "accepted", FindingState.Lapsed => "lapsed", _ => "standing" };

    /// <summary><c>code-book</c>, <c>control</c>, <c>settings</c>, <c>delivery</c>, <c>sections</c>, <c>design-map</c> or <c>separation</c>.</summary>
    public static string Of(Adoptable table) => table switch
    {
        Adoptable.CodeBook => "code-book", Adoptable.Control => "control", Adoptable.Delivery => "delivery", Adoptable.Sections => "sections", Adoptable.DesignMap => "design-map", Adoptable.Separation => "separation", _ => "settings",
    };

    /// <summary><c>start</c> or <c>end</c>.</summary>
    public static string Of(RunEnd end) => end == RunEnd.Start ? "start" : "end";

    /// <summary><c>continues</c>, <c>supersedes</c>, <c>replaces</c> or <c>checks</c>.</summary>
    public static string Of(LabelAgain again) => again switch
    {
        LabelAgain.Supersedes => "supersedes", LabelAgain.Replaces => "replaces", LabelAgain.Checks => "checks", _ => "continues",
    };

    /// <summary><c>in</c> or <c>bank</c>.</summary>
    public static string Of(RunRelation relation) => relation == RunRelation.In ? "in" : "bank";

    /// <summary><c>tape</c>, <c>offset</c>, <c>two-distances</c>, <c>line-with-line</c>, <c>bearing-and-distance</c>, <c>tangent-start</c>, <c>tangent-middle</c> or <c>tangent-end</c>.</summary>
    public static string Of(ConstructionKind kind) => Constructions[(int)kind];

    /// <summary>The kind of construction that a word names, or null.</summary>
    public static ConstructionKind? ConstructionOf(string word) => Constructions.IndexOf(word) is >= 0 and var at ? (ConstructionKind)at : null;

    private static readonly System.Collections.Immutable.ImmutableArray<string> Constructions =
        ["tape", "offset", "two-distances", "line-with-line", "bearing-and-distance", "tangent-start", "tangent-middle", "tangent-end"];

    /// <summary><c>open</c>, <c>any</c>, <c>too-late</c> or <c>none</c>.</summary>
    public static string Of(Reshoot reshoot) => reshoot switch { Reshoot.Open => "open", Reshoot.Any => "any", Reshoot.TooLate => "too-late", _ => "none" };

    /// <summary><c>open</c>, <c>held</c>, <c>complete</c> or <c>covered</c>.</summary>
    public static string Of(HoldState state) => state switch { HoldState.Held => "held", HoldState.Complete => "complete", HoldState.Covered => "covered", _ => "open" };

    /// <summary><c>straight</c>, <c>through</c>, <c>first</c>, <c>last</c>, <c>home</c> or <c>alone</c>.</summary>
    public static string Of(Leg leg) => leg switch
    {
        Leg.Through => "through", Leg.First => "first", Leg.Last => "last", Leg.Home => "home", Leg.Alone => "alone", _ => "straight",
    };

    /// <summary><c>plan-length</c>, <c>slope-length</c>, <c>area</c> or <c>count</c>.</summary>
    public static string Of(QuantityKind kind) => kind switch
    {
        QuantityKind.PlanLength => "plan-length", QuantityKind.SlopeLength => "slope-length", QuantityKind.Area => "area", _ => "count",
    };

    /// <summary><c>unproven</c>, <c>proven</c>, <c>from-records</c> or <c>optimistic</c>.</summary>
    public static string Of(StatedAccuracy state) => state switch
    {
        StatedAccuracy.Proven => "proven", StatedAccuracy.FromRecords => "from-records", StatedAccuracy.Optimistic => "optimistic", _ => "unproven",
    };

    /// <summary><c>straight</c> or <c>arc</c>.</summary>
    public static string Of(PieceKind kind) => kind == PieceKind.Arc ? "arc" : "straight";

    /// <summary><c>conforms</c>, <c>does-not-conform</c>, <c>not-proven</c> or <c>method-unfit</c>.</summary>
    public static string Of(Verdict verdict) => verdict switch
    {
        Verdict.Conforms => "conforms", Verdict.DoesNotConform => "does-not-conform", Verdict.MethodUnfit => "method-unfit", _ => "not-proven",
    };
}
