using System.Collections.Immutable;
using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>An invented site: what its crews would hand in, and beside it the truth that no crew ever knows.</summary>
/// <param name="Name">What the site is called on sheets.</param>
/// <param name="Shots">The shot files, in the order in which they are taken in.</param>
/// <param name="Control">The control points as CSV: id, east, north, height, u_plan, u_height; metres.</param>
/// <param name="Codes">The code book as CSV: the default one.</param>
/// <param name="Truth">What was really laid, from the formulas it was made with; only runs whose shots are right.</param>
/// <param name="Mistakes">Every mistake that was seeded; empty on a clean or an awkward site.</param>
/// <param name="Places">Where each shot really was, without the noise of measuring.</param>
public sealed record SampleSite(
    string Name,
    ImmutableArray<SampleFile> Shots,
    string Control,
    string Codes,
    ImmutableArray<TrueRun> Truth,
    ImmutableArray<SeededMistake> Mistakes,
    ImmutableArray<TruePlace> Places)
{
    /// <summary>What was written to the journal while the site went on; empty where nothing was.</summary>
    public ImmutableArray<JournalEntry> Journal { get; init; } = [];

    /// <summary>The design as LandXML; null where there is none.</summary>
    public string? Design { get; init; }

    /// <summary>Settings as text; null where the defaults hold.</summary>
    public string? Settings { get; init; }

    /// <summary>The delivery table as CSV: code, attribute, required (yes or empty), allowed (values with bars between); null where the client asks for none.</summary>
    public string? Delivery { get; init; }
}

/// <summary>One shot file, as its crew would hand it in.</summary>
/// <param name="Name">The file's name, without a folder.</param>
/// <param name="Crew">The crew that scopes its ids.</param>
/// <param name="Text">The whole file: shots CSV, lines ended by a line feed.</param>
public sealed record SampleFile(string Name, string Crew, string Text);

/// <summary>What a run really is: closed formulas of how it was laid, not of how it was shot.</summary>
/// <param name="Code">Its code.</param>
/// <param name="Label">The label that the crew gave; null where the crew gave none.</param>
/// <param name="Crew">The crew that shot it.</param>
/// <param name="PlanLength">Metres in plan, on the grid.</param>
/// <param name="SlopeLength">Metres on the slope, heights linear between neighbouring shots, along arcs too; null where no
/// heights were designed.</param>
/// <param name="Area">Square metres in plan, circular segments included; null where the run is open.</param>
/// <param name="Arcs">Its arcs, in order.</param>
public sealed record TrueRun(
    string Code,
    string? Label,
    string Crew,
    double PlanLength,
    double? SlopeLength,
    double? Area,
    ImmutableArray<TrueArc> Arcs);

/// <summary>One arc as it was laid.</summary>
/// <param name="Radius">Metres.</param>
/// <param name="SweepDegrees">In (0, 360]; 360 is a full circle.</param>
/// <param name="PlanLength">Metres along the arc.</param>
/// <param name="Shots">Ids of the shots on it, in order; a full circle names its first shot once.</param>
public sealed record TrueArc(double Radius, double SweepDegrees, double PlanLength, ImmutableArray<string> Shots);

/// <summary>Where a shot really was.</summary>
/// <param name="Crew">The crew that scopes the id.</param>
/// <param name="Id">The shot's id.</param>
/// <param name="East">Metres, grid.</param>
/// <param name="North">Metres, grid.</param>
/// <param name="Height">Metres, as the control.</param>
public sealed record TruePlace(string Crew, string Id, double East, double North, double Height);

/// <summary>A mistake that was put in on purpose.</summary>
/// <param name="Check">Name of the check that should find it.</param>
/// <param name="Crew">The crew that made it.</param>
/// <param name="Shots">Ids that the finding must name; empty where the mistake is an absence.</param>
/// <param name="Run">Label of the run concerned; null where it is no run's.</param>
/// <param name="Note">What happened on site, in a sentence.</param>
/// <param name="File">The file whose session is concerned as a whole; null where it is shots' or a run's.</param>
public sealed record SeededMistake(string Check, string Crew, ImmutableArray<string> Shots, string? Run, string Note, string? File = null);

/// <summary>What the size of a seeded mistake means.</summary>
/// <param name="AtLimit">The figure of size 1, at the default limit of its check.</param>
/// <param name="Unit">Its unit: m, deg, min, ppm, %; 1 where it has none.</param>
/// <param name="Less">Whether a mistake of more size has less of it: an ordinate too small, two shots too near.</param>
/// <param name="Most">The largest size at which it is still this mistake and not another.</param>
public sealed record MistakeScale(double AtLimit, string Unit, bool Less = false, double Most = double.PositiveInfinity)
{
    /// <summary>The figure of a size.</summary>
    public double At(double size) => Less ? AtLimit / size : AtLimit * size;
}
