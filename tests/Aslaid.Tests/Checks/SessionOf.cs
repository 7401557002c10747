using System.Globalization;
using System.Text;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

/// <summary>Sessions on four marks of a site of 200 m, with misfits that a test makes.</summary>
internal static class SessionOf
{
    public static readonly (string Id, double East, double North, double Height)[] Marks =
        [("M1", 0, 0, 5), ("M2", 200, 0, 5.4), ("M3", 190, 150, 6.1), ("M4", 10, 140, 5.2)];

    /// <summary>Check shots on marks, before and after some kerb: mark, and by how much it is missed.</summary>
    /// <param name="misfit">Metres, from the mark's place in the list and the number of the check shot.</param>
    /// <param name="before">Places in the list.</param>
    /// <param name="batch">Crew of the batch.</param>
    public static string Lines(Func<int, int, (double East, double North, double Height)> misfit, int[]? before = null, int[]? after = null, string batch = "North", string work = Kerb, string more = "")
    {
        var text = new StringBuilder().Append("--- ").Append(batch).Append('\n');
        var number = 0;
        foreach (var mark in before ?? [0, 1]) Check(mark);
        text.Append(work).Append('\n');
        foreach (var mark in after ?? [2, 3]) Check(mark);
        return text.ToString();

        void Check(int mark)
        {
            var (id, east, north, height) = Marks[mark];
            var (e, n, h) = misfit(mark, number);
            text.Append(CultureInfo.InvariantCulture, $"{900 + number++} {east + e:F4} {north + n:F4} {height + h:F4} CONTROL - - note={id} u_plan=0.010 u_height=0.012 {more}\n");
        }
    }

    public const string Kerb = "1 20.003 20.001 5.002 KERB K1\n2 29.001 20.002 5.001 KERB K1\n3 38.002 20.001 5.003 KERB K1\n4 47.001 20.003 5.001 KERB K1";

    /// <summary>Marks far apart are no lone shots here.</summary>
    public static RecordInputs Inputs(string lines) => ShotsOf.Lines(lines).WithControl(Marks) with { Settings = ShotsOf.Settings with { LoneDistance = 1000 } };

    public static RecordInputs Inputs(Func<int, int, (double East, double North, double Height)> misfit, int[]? before = null, int[]? after = null) => Inputs(Lines(misfit, before, after));

    /// <summary>Misfits turned by an angle and stretched about the middle of the marks.</summary>
    public static (double East, double North, double Height) Similar(int mark, double scale, double turn)
    {
        var (east, north) = (Marks[mark].East - 100, Marks[mark].North - 70);
        return (scale * east - turn * north, scale * north + turn * east, 0);
    }

    /// <summary>What leads: findings of severity stop or look that fold under no other.</summary>
    public static string[] Leading(RecordInputs inputs)
    {
        var table = Derivation.Derive(inputs).Findings;
        return [.. Enumerable.Range(0, table.Count).Select(number => table[number]).Where(finding => finding.Under is null && finding.Severity != Severity.Note).Select(finding => finding.Check.Name)];
    }

    /// <summary>A few millimetres of noise that every test has alike.</summary>
    public static (double East, double North, double Height) Noise(int number) => (0.003 * Math.Sin(5 * number + 1), 0.003 * Math.Cos(7 * number), 0.004 * Math.Sin(3 * number));
}
