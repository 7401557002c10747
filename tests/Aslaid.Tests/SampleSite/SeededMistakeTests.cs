using Aslaid.Workbench;

namespace Aslaid.Tests;

public class SeededMistakeTests
{
    public static TheoryData<string> Checks => [.. SampleSites.AllMistakes];

    [Fact]
    public void WithMistakes_EveryCheck_HasOne() =>
        Assert.Equal(SampleSites.MistakesTogether.Order(), SampleSites.WithMistakes(1).Mistakes.Select(m => m.Check).Order());

    [Fact]
    public void WithMistakes_NoTwo_ShareAShot()
    {
        var shots = SampleSites.WithMistakes(2).Mistakes.SelectMany(m => m.Shots.Select(s => (m.Crew, s))).ToArray();
        Assert.Equal(shots.Length, shots.Distinct().Count());
    }

    [Theory]
    [MemberData(nameof(Checks))]
    public void Single_EveryCheck_NamesShotsAndRunThatAreThere(string check)
    {
        var site = SampleSites.Single(3, check);
        var mistake = Assert.Single(site.Mistakes);
        var rows = SampleRow.Of(site).Where(r => r.Crew == mistake.Crew).ToArray();
        Assert.All(mistake.Shots, id => Assert.Contains(rows, r => r["id"] == id));
        Assert.True(mistake.Run is null || rows.Any(r => r["run"] == mistake.Run));
        Assert.True(site.Settings is not null || !SampleSites.Clean(3).Shots.Select(f => f.Text).SequenceEqual(site.Shots.Select(f => f.Text)));
        Assert.Equal(SampleSites.Clean(3).Shots[0].Text, site.Shots[0].Text); // the first day is left alone
    }

    [Fact]
    public void Single_UnknownCheck_SaysSo() => Assert.Throws<ArgumentException>(() => SampleSites.Single(1, "no-such-check"));

    [Fact]
    public void Single_ControlMissed_IsOffByItsSize()
    {
        var site = SampleSites.Single(3, "control-missed", 2);
        var shot = Rows(site).Single(r => r["id"] == site.Mistakes[0].Shots[0]);
        var mark = site.Control.Split('\n').Single(l => l.StartsWith("M5,", StringComparison.Ordinal)).Split(',');
        Assert.Equal("M5", shot["note"]);
        Assert.InRange(shot.Number("east") - double.Parse(mark[1], System.Globalization.CultureInfo.InvariantCulture), 0.035, 0.065);
    }

    [Fact]
    public void Single_NearlyClosed_EndsBesideItsStart()
    {
        var (a, b) = Two("nearly-closed");
        Assert.InRange(Apart(a, b), 0.020, 0.040);
    }

    [Fact]
    public void Single_TwoShotsOnePlace_LieWithinTwentyMillimetresAndHoursApart()
    {
        var (a, b) = Two("two-shots-one-place");
        Assert.InRange(Apart(a, b), 0.005, 0.015);
        Assert.True(DateTimeOffset.Parse(b["time"], System.Globalization.CultureInfo.InvariantCulture)
            - DateTimeOffset.Parse(a["time"], System.Globalization.CultureInfo.InvariantCulture) > TimeSpan.FromMinutes(30));
    }

    /// <summary>Ordinate sigma of usual shots: 0.012 m radial and the tip of a 2 m pole are 0.0093 m per axis, times √1.5; 3 of them prove an arc.</summary>
    [Theory]
    [InlineData("arc-not-proven", 0.2, 0.8)]
    [InlineData("radius-too-uncertain", 1.2, 2.5)]
    public void Single_FlatArc_StandsOnItsSideOfTheProof(string check, double least, double most)
    {
        const double proof = 3 * 0.0114;
        for (var seed = 1; seed <= 20; seed++)
        {
            var at = Named(SampleSites.Single(seed, check));
            Assert.InRange(Ordinate(at[0], at[1], at[2]) / proof, least, most);
        }
    }

    [Fact]
    public void Single_RadiusOutOfRange_NoseIsHalfTheLeast()
    {
        for (var seed = 1; seed <= 20; seed++)
        {
            var at = Named(SampleSites.Single(seed, "radius-out-of-range"));
            var (chord, ordinate) = (Apart(at[0], at[2]), Ordinate(at[0], at[1], at[2]));
            Assert.InRange((chord * chord / (8 * ordinate)) + (ordinate / 2), 0.18, 0.22);
        }
    }

    [Fact]
    public void Single_EndShort_IsShortOfTheMainByItsSize()
    {
        for (var seed = 1; seed <= 20; seed++)
        {
            var site = SampleSites.Single(seed, "end-short");
            var end = Named(site)[0];
            var main = Rows(site).Where(r => r["run"] == "WM-1").OrderBy(r => Apart(r, end)).Take(2).ToArray();
            Assert.InRange(Ordinate(main[0], end, main[1]), 0.25, 0.35);
        }
    }

    [Theory]
    [InlineData(1.5)]
    [InlineData(2)]
    [InlineData(3)]
    public void Single_ShotsTooFarApart_GrowsWithSize(double size)
    {
        var at = Named(SampleSites.Single(3, "shots-too-far-apart", size));
        Assert.Equal(10 * size, Apart(at[0], at[1]), 0.06); // two shots of 14 mm radial at worst, 3 sigma
    }

    [Fact]
    public void Single_CodeNotChanged_LeavesTheTrenchForTheKerb()
    {
        var site = SampleSites.Single(3, "code-not-changed");
        var wrong = Named(site);
        var duct = Rows(site).Where(r => r["run"] == "PD-9" && !wrong.Any(w => w["id"] == r["id"])).ToArray();
        Assert.All(wrong, w => Assert.Equal("POWER-DUCT", w["code"]));
        Assert.True(wrong.Min(w => w.Number("height")) - duct.Max(d => d.Number("height")) > 0.6);
        Assert.InRange(Apart(duct[^1], wrong[0]), 6, 9); // not far enough for the spacing check to step in
    }

    [Fact]
    public void Single_NoCheckShot_LeavesOneFileWithout()
    {
        var without = SampleSites.Single(3, "no-check-shot").Shots.Where(f => SampleRow.Of(f).Last()["code"] != "CONTROL");
        Assert.Equal("south-day-2.csv", Assert.Single(without).Name);
    }

    private static (SampleRow First, SampleRow Second) Two(string check)
    {
        var site = SampleSites.Single(3, check);
        var ids = site.Mistakes[0].Shots;
        return (Rows(site).Single(r => r["id"] == ids[0]), Rows(site).Single(r => r["id"] == ids[1]));
    }

    private static SampleRow[] Named(SampleSite site) =>
        [.. site.Mistakes[0].Shots.Select(id => Rows(site).Single(r => r["id"] == id))];

    /// <summary>How far b stands off the line from a to c, metres.</summary>
    private static double Ordinate(SampleRow a, SampleRow b, SampleRow c)
    {
        var (e, n) = (c.Number("east") - a.Number("east"), c.Number("north") - a.Number("north"));
        var cross = (e * (b.Number("north") - a.Number("north"))) - (n * (b.Number("east") - a.Number("east")));
        return Math.Abs(cross) / Math.Sqrt((e * e) + (n * n));
    }

    private static IEnumerable<SampleRow> Rows(SampleSite site) =>
        SampleRow.Of(site).Where(r => !r.Again && r.Crew == site.Mistakes[0].Crew);

    private static double Apart(SampleRow a, SampleRow b) =>
        Math.Sqrt(Math.Pow(a.Number("east") - b.Number("east"), 2) + Math.Pow(a.Number("north") - b.Number("north"), 2));
}
