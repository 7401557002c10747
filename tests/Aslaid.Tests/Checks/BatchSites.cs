using System.Globalization;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

/// <summary>A site of two files, of which the second may be spoilt as a whole.</summary>
internal static class BatchSites
{
    /// <summary>Control about the site, some hundred metres apart.</summary>
    public static RecordInputs WithMarks(this RecordInputs inputs) =>
        inputs.WithControl(("M1", 0, 0, 5), ("M2", 300, 0, 6), ("M3", 0, 300, 7), ("M4", 300, 300, 8));

    /// <summary>Two files of one kerb each; every position and height of the second passes through a function.</summary>
    /// <param name="spoil">Grid coordinates and height in metres to those that the file gives.</param>
    /// <param name="checks">Whether the second file has two check shots.</param>
    public static RecordInputs Of(Func<double, double, double, (double East, double North, double Height)> spoil, bool checks = false, int count = 40)
    {
        var lines = new List<string> { "--- North" };
        for (var i = 1; i <= count; i++) lines.Add(string.Create(CultureInfo.InvariantCulture, $"{i} {5.003 * i} {40 + 0.1234 * i} {5 + 0.0123 * i} KERB K1"));
        lines.Add("--- South");
        for (var i = 1; i <= count; i++) lines.Add(Spoilt(string.Create(CultureInfo.InvariantCulture, $"{i}"), 5.003 * i, 80 + 0.1234 * i, 5 + 0.0123 * i, "KERB K2"));
        if (checks)
        {
            lines.Add(Spoilt("91", 0.006, -0.005, 5.004, "CONTROL - - note=M1"));
            lines.Add(Spoilt("92", 300.004, 299.995, 8.003, "CONTROL - - note=M4"));
        }

        return ShotsOf.Lines(string.Join('\n', lines));

        string Spoilt(string id, double east, double north, double height, string rest)
        {
            var (e, n, h) = spoil(ShotsOf.East + east, ShotsOf.North + north, height);
            return string.Create(CultureInfo.InvariantCulture, $"{id} {e - ShotsOf.East:R} {n - ShotsOf.North:R} {h:R} {rest}");
        }
    }

    /// <summary>The one stop about a whole batch; it holds the runs of that batch and no others, and little else is said.</summary>
    public static Finding OnlyFinding(RecordInputs inputs, string check)
    {
        var record = Derivation.Derive(inputs);
        var finding = Assert.Single(inputs.Find(check));
        Assert.Equal(Severity.Stop, finding.Severity);
        Assert.Equal("shots-2.csv", finding.Word);
        Assert.Equal(HoldState.Held, Assert.Single(record.HoldsOf(record.Runs.Find("KERB/K2@South")!.Value.Number)).State);
        Assert.Contains(finding.Number, Assert.Single(record.HoldsOf(record.Runs.Find("KERB/K2@South")!.Value.Number)).By);
        var others = Enumerable.Range(0, record.Findings.Count).Select(number => record.Findings[number])
            .Where(other => other.Check.Name is "lone-shot-far-off" or "control-missed" or "axes-swapped" or "feet-for-metres" or "another-site");
        Assert.Equal([finding.Message], others.Select(other => other.Message));
        CheckAssert.Single(inputs, check, Severity.Stop, [.. finding.ShotIds]);
        return finding;
    }
}
