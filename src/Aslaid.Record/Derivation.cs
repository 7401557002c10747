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
        var table = Constructing.Table(inputs.Shots, inForce);
        var shots = Replay.Apply(table, inputs.Journal, inForce, inputs.Codes, inputs.Settings, unresolved);
        var checkShots = AccuracyModel.Fill(shots, inputs.Control, inputs.Settings);
        Constructing.Fill(shots, inForce, unresolved);
        var (runs, points, former) = BuildRuns(shots, inForce, inputs.Settings, unresolved, workers);
        var site = new Site(shots, runs, points, checkShots, inForce, inputs) { Former = former };
        site.Nodes = NodeTable.Of(site, inForce, unresolved);
        site.Holes = HoleTable.Of(site, inForce, unresolved);
        site.Relations = RelationTable.Of(runs, inForce, unresolved);
        site.MatchDesign(workers);
        foreach (var line in site.Built.Select(built => built.Key).Where(name => site.Design.Find(name) is null)) unresolved.Add($"The design has no line {line}, of which an entry says that it is built.");
        var findings = Examination.Examine(site, CheckCatalogue.All, inForce, workers);
        var holds = HoldPoints.Of(site, findings, inForce, unresolved);
        var quantities = QuantityTake.Of(site, holds);
        return new(inputs, site, findings, holds, quantities, [.. unresolved]);
    }

    private static (RunTable Runs, ImmutableArray<int> Points, FormerRuns Former) BuildRuns(
        CurrentShots shots, ImmutableArray<JournalEntry> inForce, Settings settings, List<string> unresolved, IWorkers workers)
    {
        var (members, points) = new RunGrouping(shots, settings).Group();
        var former = LabelDecisions.Apply(members, shots, inForce, unresolved);
        SizeChanges.Apply(members, shots);
        var builder = new RunTableBuilder();
        RunCorrections.Apply(members, shots, shots.Codes, inForce, builder, unresolved);
        var table = Table(members, builder);
        RunAttributes.Apply(table, inForce, builder.Cut, unresolved);
        RunFacts.Fill(table);
        SetAside(former, members, points, shots);
        return (table, points, new(Table(former.ConvertAll(gone => gone.Members), new()), former));

        RunTable Table(List<RunMembers> runs, RunTableBuilder into)
        {
            var pieces = new RunPieces(shots, settings, into);
            foreach (var run in runs)
                if (run.Shots.Count > 0) pieces.Add(run);
            var made = new RunTable(into, shots);
            RunMeasures.Fill(made, workers);
            return made;
        }
    }

    /// <summary>Shots of former runs that no run and no point uses count nowhere.</summary>
    private static void SetAside(List<FormerMembers> former, List<RunMembers> runs, ImmutableArray<int> points, CurrentShots shots)
    {
        if (former.Count == 0) return;
        var used = runs.SelectMany(run => run.Shots).Concat(points.Select(shots.Shot)).ToHashSet();
        foreach (var gone in former)
            foreach (var shot in gone.Members.Shots.Distinct())
                if (!used.Contains(shot)) shots.SetAside(shot, gone.Entry);
    }
}
