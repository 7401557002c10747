using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Raw shots, journal, code book, control and settings become the as-built record.</summary>
public static class Derivation
{
    /// <summary>Revision of the rules below. A project derives by the revision that it adopted.</summary>
    public const int Rules = 1;

    /// <summary>Derives the record: a pure function of its inputs, the same to the last bit for any number of workers.</summary>
    public static AsBuiltRecord Derive(RecordInputs inputs, IWorkers? workers = null)
    {
        workers ??= OneWorker.Instance;
        var unresolved = new List<string>();
        var inForce = Replay.InForce(inputs.Journal);
        var shots = Replay.Apply(inputs.Shots, inputs.Journal, inForce, inputs.Codes, unresolved);
        var checkShots = AccuracyModel.Fill(shots, inputs.Control, inputs.Settings);
        var (runs, points) = BuildRuns(shots, inForce, inputs.Settings, unresolved, workers);
        var site = new Site(shots, runs, points, inputs.Control, checkShots, inputs.Settings);
        var findings = Examination.Examine(site, CheckCatalogue.All, inForce, workers);
        var holds = HoldPoints.Of(site, findings, inForce, unresolved);
        var quantities = QuantityTake.Of(site, holds);
        return new(inputs, site, findings, holds, quantities, [.. unresolved]);
    }

    private static (RunTable Runs, ImmutableArray<int> Points) BuildRuns(
        CurrentShots shots, ImmutableArray<JournalEntry> inForce, Settings settings, List<string> unresolved, IWorkers workers)
    {
        var (members, points) = new RunGrouping(shots, settings).Group();
        var builder = new RunTableBuilder();
        RunCorrections.Apply(members, shots, shots.Codes, inForce, builder.Remeasured, unresolved);
        var pieces = new RunPieces(shots, settings, builder);
        foreach (var run in members)
            if (run.Shots.Count > 0) pieces.Add(run);
        var table = new RunTable(builder, shots);
        RunMeasures.Fill(table, workers);
        RunAttributes.Apply(table, inForce, unresolved);
        return (table, points);
    }
}
