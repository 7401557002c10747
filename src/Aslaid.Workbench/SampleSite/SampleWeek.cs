using System.Collections.Immutable;
using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>A file of the week, as its crew hands it in that evening: all that the crew has shot since Monday.</summary>
/// <param name="Day">From 1.</param>
public sealed record WeekFile(int Day, SampleFile File);

/// <summary>What a label means that comes again on a later day.</summary>
/// <param name="Day">The day on which it comes again.</param>
public sealed record WeekAgain(int Day, string Code, string Label, string Crew, LabelAgain As);

/// <summary>
/// A week of the invented site: five days, two crews that both number from 1, files that repeat the week so far. Runs grow from day to
/// day; one is superseded, one replaced, one checked along a stretch; two crews meet on one main; a pole height is put right in
/// the instrument a day late.
/// </summary>
/// <param name="Files">In the order in which they are taken in: day by day, crew North before crew South.</param>
/// <param name="InPlace">Metres in plan by code on each evening, from the formulas it was laid by.</param>
/// <param name="Again">Labels that come again and do not simply go on.</param>
/// <param name="Changed">Shots whose values the second day's file of crew North puts right.</param>
/// <param name="Shots">How many different shots it has.</param>
public sealed record SampleWeek(
    string Name, ImmutableArray<WeekFile> Files, string Control, string Codes, ImmutableArray<ImmutableSortedDictionary<string, double>> InPlace,
    ImmutableArray<WeekAgain> Again, ImmutableArray<string> Changed, int Shots)
{
    /// <summary>The main on which both crews meet, as each of them labels it.</summary>
    public const string Met = "WM-0";

    /// <summary>Makes one: pure, the same seed gives the same bytes.</summary>
    public static SampleWeek Make(int seed) => new WeekOfWork(seed).Shoot();
}
