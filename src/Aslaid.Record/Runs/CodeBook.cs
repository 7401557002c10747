using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>How the shots of a code are joined.</summary>
public enum CodeKind : byte
{
    /// <summary>Each shot by itself.</summary>
    Point,

    /// <summary>Joined to a run.</summary>
    Line,

    /// <summary>Joined to a run that encloses an area once it is closed.</summary>
    Area,

    /// <summary>Check shots on control points.</summary>
    Control,
}

/// <summary>
/// One code of the code book: how its kind of thing is joined, drawn, checked and measured. A null limit means that
/// the check does not apply. Lengths in metres; <c>pct</c> in per cent; angles in degrees, as the book writes them.
/// </summary>
public sealed record CodeEntry(string Code, CodeKind Kind)
{
    /// <summary>What people call it.</summary>
    public string? Name { get; init; }

    /// <summary>Group of codes that belong together.</summary>
    public string? Group { get; init; }

    /// <summary>Service: water, power, telecom, storm, gas …</summary>
    public string? Service { get; init; }

    /// <summary>Which point of the thing is shot: top, centre, invert, soffit, underside, ground, channel, face, back, lip.</summary>
    public string? MeasuredAt { get; init; }

    /// <summary>Outside diameter, metres.</summary>
    public double? OutsideDiameter { get; init; }

    /// <summary>Wall, metres.</summary>
    public double? Wall { get; init; }

    /// <summary>Width, metres.</summary>
    public double? Width { get; init; }

    /// <summary>Depth, metres.</summary>
    public double? Depth { get; init; }

    /// <summary>Construction tolerance in plan, metres.</summary>
    public double? TolerancePlan { get; init; }

    /// <summary>Construction tolerance in height, metres.</summary>
    public double? ToleranceHeight { get; init; }

    /// <summary>Construction tolerance upwards where it differs, metres.</summary>
    public double? ToleranceHigh { get; init; }

    /// <summary>Construction tolerance downwards where it differs, metres.</summary>
    public double? ToleranceLow { get; init; }

    /// <summary>Largest 95 % uncertainty in plan, metres.</summary>
    public double? Plan95Max { get; init; }

    /// <summary>Largest 95 % uncertainty of height, metres.</summary>
    public double? Height95Max { get; init; }

    /// <summary>Largest distance between shots, metres.</summary>
    public double? SpacingMax { get; init; }

    /// <summary>Largest sagitta lost by a chord on a curve, metres.</summary>
    public double? SagittaMax { get; init; }

    /// <summary>Smallest radius, metres.</summary>
    public double? RadiusMin { get; init; }

    /// <summary>Largest radius, metres.</summary>
    public double? RadiusMax { get; init; }

    /// <summary>Largest break between tangents, degrees.</summary>
    public double? TangentBreakMaxDegrees { get; init; }

    /// <summary>The run must close on itself.</summary>
    public bool Closes { get; init; }

    /// <summary>Least fall, per cent.</summary>
    public double? FallMinPercent { get; init; }

    /// <summary>Least cover, metres.</summary>
    public double? CoverMin { get; init; }

    /// <summary>How near an end must come to what it joins before a gap is a mistake, metres.</summary>
    public double? EndReach { get; init; }

    /// <summary>Codes on which an end may lie.</summary>
    public ImmutableArray<string> EndsOn { get; init; } = [];

    /// <summary>Not proven holds it.</summary>
    public bool NeedsProof { get; init; }

    /// <summary>Longest length of a run without a photograph, metres; for a point, that each shot needs one.</summary>
    public double? PhotoEvery { get; init; }

    /// <summary>Role that may release its lengths.</summary>
    public string? Releases { get; init; }

    /// <summary>Pay item.</summary>
    public string? PayItem { get; init; }

    /// <summary>Colour word.</summary>
    public string? Colour { get; init; }

    /// <summary>Line style word.</summary>
    public string? Line { get; init; }

    /// <summary>Symbol word.</summary>
    public string? Symbol { get; init; }

    /// <summary>Layer in drawings.</summary>
    public string? Layer { get; init; }

    /// <summary>Where the limits come from.</summary>
    public string? Source { get; init; }
}

/// <summary>The table of codes.</summary>
public sealed class CodeBook
{
    private readonly Dictionary<string, int> places = new(StringComparer.Ordinal);

    /// <summary>A code book of these entries. A code given twice is an error of the caller; readers report it first.</summary>
    public CodeBook(ImmutableArray<CodeEntry> entries)
    {
        Entries = entries;
        for (var place = 0; place < entries.Length; place++) places.Add(entries[place].Code, place);
    }

    /// <summary>No codes.</summary>
    public static CodeBook Empty { get; } = new([]);

    /// <summary>The codes, in the book's order.</summary>
    public ImmutableArray<CodeEntry> Entries { get; }

    /// <summary>Place of a code in <see cref="Entries"/>, or −1.</summary>
    public int Find(string? code) => code is not null && places.TryGetValue(code, out var place) ? place : -1;

    /// <summary>The entry of a code, or null.</summary>
    public CodeEntry? this[string? code] => Find(code) is >= 0 and var place ? Entries[place] : null;
}
