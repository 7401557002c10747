using System.Collections.Immutable;
using System.Globalization;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>
/// How clear services must lie of each other, as CSV: <c>service, other, alongside_m, crossing_m</c>; where wanted also <c>measured</c> (space or plan: how
/// alongside is measured) and <c>source</c>. An empty figure asks nothing.
/// </summary>
public static class SeparationCsv
{
    private static readonly string[] Needed = ["service", "other", "alongside_m", "crossing_m"];
    private static readonly string[] All = [.. Needed, "measured", "source"];
    private static readonly NumberRule Clear = new("a number of metres such as 0.3", 0, 100, "a clear distance from 0 to 100 m");

    /// <summary>Reads the table; each pair once, either way round.</summary>
    public static TableIntake<SeparationTable> Read(ReadOnlyMemory<byte> file)
    {
        var rejected = new Rejections();
        using var table = CsvTable.Open(file, Needed, rejected);
        var rules = ImmutableArray.CreateBuilder<SeparationRule>();
        if (table is not null)
        {
            var lines = new Dictionary<(string, string), int>();
            while (table.Read())
                if (Rule(table, lines) is { } rule) rules.Add(rule);
            if (rules.Count == 0 && rejected.Count == 0) rejected.Add(0, null, (string?)null, "the file has a header but no rows; a pair of services a line was expected below it");
        }

        return new(rejected.Count == 0 ? new(rules.ToImmutable()) : null, rejected.First, rejected.Count, table?.Unknown(All) ?? []);
    }

    /// <summary>Writes the table as this reader reads it, in UTF-8.</summary>
    public static byte[] Write(SeparationTable table) => Csv.Write(
    [
        All,
        .. table.Rules.Select(rule => (IReadOnlyList<string?>)[rule.Service, rule.Other, Csv.Number(rule.Alongside), Csv.Number(rule.Crossing), rule.PlanOnly ? "plan" : "space", rule.Source]),
    ]);

    private static SeparationRule? Rule(CsvTable table, Dictionary<(string, string), int> lines)
    {
        var (one, other) = (Word(table, "service"), Word(table, "other"));
        var (alongside, crossing) = (Number(table, "alongside_m"), Number(table, "crossing_m"));
        var plan = false;
        if (table.Find("measured") is >= 0 and var measured && table.Text(measured) is { } how)
        {
            if (how is not ("plan" or "space")) table.Reject(measured, table.Cell(measured), "is neither space nor plan");
            plan = how == "plan";
        }

        if (one is null || other is null) return null;
        var pair = string.CompareOrdinal(one, other) <= 0 ? (one, other) : (other, one);
        if (lines.TryAdd(pair, table.Line))
            return new(one, other, alongside, crossing, plan, (table.Find("source") is >= 0 and var source ? table.Text(source) : null) ?? "project");
        var column = table.Find("other");
        table.Reject(column, table.Cell(column), string.Create(CultureInfo.InvariantCulture, $"stands beside {one} in line {lines[pair]} already; each pair once was expected: remove one"));
        return null;
    }

    private static string? Word(CsvTable table, string name)
    {
        var column = table.Find(name);
        if (table.Text(column) is { } text) return text;
        table.RejectEmpty(column, "the cell is empty; a service of the code book was expected");
        return null;
    }

    private static double? Number(CsvTable table, string name) => table.Find(name) is >= 0 and var column && table.Cell(column).Length > 0 ? table.Number(column, Clear) : null;
}
