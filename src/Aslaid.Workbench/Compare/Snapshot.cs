using System.Collections.Immutable;
using System.Globalization;
using System.IO;
using System.IO.Compression;
using Aslaid.Exchange;
using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>A run in a comparison.</summary>
/// <param name="Said">Flow, ends and attributes, as words.</param>
public readonly record struct SnapshotRun(string Status, double PlanLength, double Held, string Said);

/// <summary>A shot in a comparison.</summary>
public readonly record struct SnapshotShot(double East, double North, double? Height, string Code, bool Used);

/// <summary>What of a record is compared: from a project at a journal position, or from the tables of a package.</summary>
/// <param name="Name">What it was called by.</param>
/// <param name="Head">Hash of the journal's head.</param>
public sealed record Snapshot(
    string Name, int Position, string Head, ImmutableSortedDictionary<string, SnapshotRun> Runs, ImmutableDictionary<string, SnapshotShot> Shots,
    ImmutableSortedDictionary<string, string> Findings, ImmutableSortedDictionary<string, double> Quantities)
{
    /// <summary>Of a project, <c>site.gpkg</c> or <c>site.gpkg@12</c>, or a package, a folder or ZIP.</summary>
    public static Snapshot Of(string what, TimeProvider clock)
    {
        var at = what.LastIndexOf('@');
        if (at > 0 && !File.Exists(what) && !Directory.Exists(what) && int.TryParse(what[(at + 1)..], NumberStyles.None, CultureInfo.InvariantCulture, out var position)) return OfProject(what, what[..at], position, clock);
        return Directory.Exists(what) || what.EndsWith(".zip", StringComparison.OrdinalIgnoreCase) ? OfPackage(what) : OfProject(what, what, null, clock);
    }

    private static Snapshot OfProject(string name, string path, int? position, TimeProvider clock)
    {
        using var session = ProjectSession.Open(path, clock, readOnly: true);
        var record = session.Record(position);
        return Of(name, record, session.HeadHash(record.Position));
    }

    internal static Snapshot Of(string name, AsBuiltRecord record, string head)
    {
        var held = new double[record.Runs.Count];
        foreach (var hold in record.Holds)
            if (hold.State == HoldState.Held) held[hold.Run] += hold.To - hold.From;
        var fields = new ClientFields(record);
        var runs = Enumerable.Range(0, record.Runs.Count).Select(number => record.Runs[number]).ToImmutableSortedDictionary(run => run.Key,
            run => new SnapshotRun(run.Facts.StatusWord, run.PlanLength, held[run.Number], Said(run.Facts.FlowWord, run.Facts.Start, run.Facts.End, fields.TextOf(run))), StringComparer.Ordinal);
        var raw = record.Shots.Raw;
        var shots = ImmutableDictionary.CreateBuilder<string, SnapshotShot>(StringComparer.Ordinal);
        for (var row = 0; row < record.Shots.Count; row++)
            if (record.Shots.IsPlace(row)) shots.Add(raw.Key(row).ToString(), new(raw.East[row], raw.North[row], record.Shots.HeightOf(row), record.Shots.CodeOf(row), record.Shots.Used[row]));
        var findings = Enumerable.Range(0, record.Findings.Count).Select(number => record.Findings[number]).Where(finding => finding.State != FindingState.Accepted)
            .ToImmutableSortedDictionary(finding => finding.Id, finding => $"{EnumWords.Of(finding.Severity)} {finding.Message}", StringComparer.Ordinal);
        return new(name, record.Position, head, runs, shots.ToImmutable(), findings,
            record.Quantities.ToImmutableSortedDictionary(quantity => $"{quantity.Code} {EnumWords.Of(quantity.Kind)} {quantity.Unit}", quantity => quantity.Value, StringComparer.Ordinal));
    }

    private static Snapshot OfPackage(string package)
    {
        var verdict = PackageVerifier.Verify(package);
        if (!verdict.Problems.IsEmpty) throw new ProjectException($"{package} is not as its manifest says, and is not compared: {verdict.Problems[0]}");
        using var archive = Directory.Exists(package) ? null : ZipFile.OpenRead(package);
        var runs = Rows("runs.csv").ToImmutableSortedDictionary(row => row["run"], row => new SnapshotRun(row.GetValueOrDefault("status", "new"), Number(row["plan_length_m"])!.Value, Number(row["held_m"]) ?? 0,
            Said(row.GetValueOrDefault("flow", ""), row.GetValueOrDefault("start", ""), row.GetValueOrDefault("end", ""), row.GetValueOrDefault("attributes", ""))), StringComparer.Ordinal);
        var shots = Rows("shots.csv").ToImmutableDictionary(row => $"{row["batch"]}:{row["line"]}",
            row => new SnapshotShot(Number(row["east_m"]) ?? 0, Number(row["north_m"]) ?? 0, Number(row["height_m"]), row["code"], row["used"] == "yes"), StringComparer.Ordinal);
        var findings = Rows("findings.csv").Where(row => row["state"] != "accepted").ToImmutableSortedDictionary(row => row["id"], row => $"{row["severity"]} {row["message"]}", StringComparer.Ordinal);
        var quantities = Rows("quantities.csv").ToImmutableSortedDictionary(row => $"{row["code"]} {row["kind"]} {row["unit"]}", row => Number(row["value"])!.Value, StringComparer.Ordinal);
        return new(package, verdict.Manifest.Journal, verdict.Manifest.Head, runs, shots, findings, quantities);

        List<Dictionary<string, string>> Rows(string name)
        {
            var file = verdict.Manifest.Files.FirstOrDefault(file => file.Name == name || file.Name.EndsWith("/" + name, StringComparison.Ordinal)) ?? throw new ProjectException($"{package} holds no {name}; it cannot be compared.");
            using var content = archive is null ? File.OpenRead(Path.Combine(package, file.Name)) : archive.GetEntry(file.Name)!.Open();
            using var bytes = new MemoryStream();
            content.CopyTo(bytes);
            return Csv.Read(bytes.ToArray()) ?? throw new ProjectException($"{name} in {package} is no table.");
        }
    }

    private static string Said(string flow, string? start, string? end, string attributes) => $"flow {flow}, start {(string.IsNullOrEmpty(start) ? "not said" : start)}, end {(string.IsNullOrEmpty(end) ? "not said" : end)}{(attributes.Length == 0 ? "" : "; " + attributes)}";

    private static double? Number(string text) => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) ? value : null;
}
