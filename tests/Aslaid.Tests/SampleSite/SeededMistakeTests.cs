using Aslaid.Workbench;

namespace Aslaid.Tests;

public class SeededMistakeTests
{
    public static TheoryData<string> Checks => [.. SampleSites.AllMistakes];

    [Fact]
    public void WithMistakes_EveryCheck_HasOne() =>
        Assert.Equal(SampleSites.AllMistakes.Order(), SampleSites.WithMistakes(1).Mistakes.Select(m => m.Check).Order());

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
        Assert.NotEqual(SampleSites.Clean(3).Shots.Select(f => f.Text), site.Shots.Select(f => f.Text));
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
        Assert.InRange(shot.Number("east") - double.Parse(mark[1], System.Globalization.CultureInfo.InvariantCulture), 0.065, 0.095);
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

    private static IEnumerable<SampleRow> Rows(SampleSite site) =>
        SampleRow.Of(site).Where(r => !r.Again && r.Crew == site.Mistakes[0].Crew);

    private static double Apart(SampleRow a, SampleRow b) =>
        Math.Sqrt(Math.Pow(a.Number("east") - b.Number("east"), 2) + Math.Pow(a.Number("north") - b.Number("north"), 2));
}
