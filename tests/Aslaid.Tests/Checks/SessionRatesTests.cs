using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;

namespace Aslaid.Tests;

/// <summary>How often the checks of sessions speak: of clean sessions with noise as stated, and of mistakes twice their limit.</summary>
public class SessionRatesTests(ITestOutputHelper output)
{
    private const double UPlan = 0.010 / 1.4142135623730951;
    private const double UHeight = 0.012;

    /// <summary>Metres from the middle of the marks to the farthest.</summary>
    private const double Reach = 122;

    private static readonly string[] Names = ["session-shifted", "height-datum-off", "scale-off", "setup-rotated", "control-drift", "control-missed", "accuracy-optimistic", "measured-twice"];

    /// <summary>Inputs whose check shots have noise as they state it, the marks' own with it, and what a mistake adds.</summary>
    private static RecordInputs Drawn(Random random, Func<int, int, (double, double, double)>? mistake = null, double shift = 0, int[]? before = null, int[]? after = null)
    {
        var marks = SessionOf.Marks.Select(_ => (0.0035 * Deviate(), 0.0035 * Deviate(), 0.004 * Deviate())).ToArray();
        var common = (shift * 0.010 / Math.Sqrt(2) * Deviate(), shift * 0.010 / Math.Sqrt(2) * Deviate(), shift * 0.015 * Deviate());
        return SessionOf.Inputs((mark, number) =>
        {
            var (e, n, h) = mistake?.Invoke(mark, number) ?? default;
            return (e + marks[mark].Item1 + common.Item1 + UPlan * Deviate(), n + marks[mark].Item2 + common.Item2 + UPlan * Deviate(), h + marks[mark].Item3 + common.Item3 + UHeight * Deviate());
        }, before, after);

        double Deviate() => Normal.Quantile(random.NextDouble());
    }

    /// <summary>Sites on which each check speaks, and on which it stops.</summary>
    private Dictionary<string, (int Sites, int Stops)> Count(int sites, Func<RecordInputs> site)
    {
        var counts = Names.ToDictionary(name => name, _ => (Sites: 0, Stops: 0));
        for (var i = 0; i < sites; i++)
        {
            var table = Derivation.Derive(site()).Findings;
            foreach (var check in Enumerable.Range(0, table.Count).Select(number => table[number]).Where(finding => counts.ContainsKey(finding.Check.Name)).GroupBy(finding => finding.Check.Name))
                counts[check.Key] = (counts[check.Key].Sites + 1, counts[check.Key].Stops + (check.Any(finding => finding.Severity == Severity.Stop) ? 1 : 0));
        }

        output.WriteLine($"of {sites}: " + string.Join(", ", counts.Select(pair => $"{pair.Key} {pair.Value.Sites} ({pair.Value.Stops} stops)")));
        return counts;
    }

    [Fact]
    public void Clean_NoiseAsStated_HardlyEverSpeaks()
    {
        var random = new Random(31);
        var counts = Count(2000, () => Drawn(random, before: [0, 1], after: [1, 2, 3, 0]));
        Assert.All(Names.Where(name => name != "control-missed"), name => Assert.InRange(counts[name].Sites, 0, 10));
        Assert.InRange(counts["control-missed"].Stops, 0, 60); // six shots beyond three sigma in height: 1.6 % of sessions, as its page says
    }

    /// <summary>Sessions shifted by what the settings say they have in common: that is no mistake yet.</summary>
    [Fact]
    public void Clean_ShiftDrawnFromThePrior_ShiftSeldomStops()
    {
        var random = new Random(32);
        var counts = Count(2000, () => Drawn(random, shift: 1));
        Assert.All(Names.Where(name => name is not ("control-missed" or "session-shifted")), name => Assert.InRange(counts[name].Sites, 0, 10));
        Assert.InRange(counts["session-shifted"].Stops, 0, counts["control-missed"].Stops);
    }

    [Fact]
    public void SampleSites_CleanAndAwkward_StopNothingAndHardlySpeak()
    {
        var spoke = 0;
        string[] all = [.. Names, "control-gap", "too-few-repeats"];
        for (var seed = 1; seed <= 40; seed++)
        {
            foreach (var site in (SampleSite[])[SampleSites.Clean(seed), SampleSites.Awkward(seed)])
            {
                var table = Derivation.Derive(SampleInputs.Of(site)).Findings;
                var said = Enumerable.Range(0, table.Count).Select(number => table[number]).Where(finding => all.Contains(finding.Check.Name) && finding.Severity > Severity.Note).ToArray();
                Assert.Empty(said.Where(finding => finding.Severity == Severity.Stop).Select(finding => $"{seed} {finding.Check.Name}: {finding.Message}"));
                spoke += said.Length;
            }
        }

        Assert.InRange(spoke, 0, 8); // looks on 80 sites with honest noise
    }

    public static TheoryData<string> Mistakes => ["session-shifted", "height-datum-off", "scale-off", "setup-rotated", "control-drift"];

    [Theory]
    [MemberData(nameof(Mistakes))]
    public void Mistake_TwiceTheLimit_IsFound(string check)
    {
        var random = new Random(33);
        Func<int, int, (double, double, double)> mistake = check switch
        {
            "session-shifted" => (_, _) => (0.050, 0, 0), // limit 0.025, half the kerb's tolerance
            "height-datum-off" => (_, _) => (0, 0, 2),
            "scale-off" => (mark, _) => SessionOf.Similar(mark, 2 * 0.025 / Reach, 0), // 4 u is less: 130 ppm
            "setup-rotated" => (mark, _) => SessionOf.Similar(mark, 0, 2 * 0.025 / Reach),
            _ => (_, number) => number < 2 ? (0, 0, 0) : (2 * 5 * UPlan, 0, 0),
        };
        var counts = Count(500, () => check == "control-drift" ? Drawn(random, mistake, before: [0, 1], after: [1, 0]) : Drawn(random, mistake));
        Assert.InRange(counts[check].Sites, 495, 500);
    }

    /// <summary>Two shots of a chamber by a crew, 12 mm radial and 15 mm: heights that agree, and heights twice the limit apart.</summary>
    [Fact]
    public void Chambers_MeasuredTwice_AreFoundAndElseSilent()
    {
        var random = new Random(34);
        const double limit = 0.10; // over 4.7 √2 · 0.015, among 200 points
        foreach (var apart in new[] { 0, 2 * limit })
        {
            var text = new System.Text.StringBuilder();
            for (var pair = 0; pair < 100; pair++)
                for (var twice = 0; twice < 2; twice++)
                    text.Append(System.Globalization.CultureInfo.InvariantCulture, $"{2 * pair + twice + 1} {9 * pair + 0.012 / Math.Sqrt(2) * Deviate():F4} {0.012 / Math.Sqrt(2) * Deviate():F4} {5 + twice * apart + 0.015 * Deviate():F4} CHAMBER\n");
            Assert.InRange(ShotsOf.Lines(text.ToString()).Find("measured-twice").Length, apart == 0 ? 0 : 99, apart == 0 ? 0 : 100);
        }

        double Deviate() => Normal.Quantile(random.NextDouble());
    }
}
