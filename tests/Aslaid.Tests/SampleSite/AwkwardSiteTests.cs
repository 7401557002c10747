using Aslaid.Workbench;

namespace Aslaid.Tests;

public class AwkwardSiteTests
{
    private static readonly SampleSite Site = SampleSites.Awkward(1);

    [Fact]
    public void Awkward_SecondFile_HoldsTheFirst()
    {
        var (morning, day) = (File("north-morning.csv"), File("north-so-far.csv"));
        Assert.StartsWith(morning.Text, day.Text, StringComparison.Ordinal);
        Assert.True(day.Text.Length > morning.Text.Length);
    }

    [Fact]
    public void Awkward_NorthFile_HasDecimalCommaAndNoLabels()
    {
        var rows = SampleRow.Of(File("north-morning.csv")).ToArray();
        Assert.All(rows, r => Assert.Matches(@"^\d+,\d{3}$", r["east"]));
        Assert.All(rows, r => Assert.Equal("", r["run"]));
        Assert.All(rows, r => Assert.Equal("yes", r["tilt_compensated"]));
        Assert.Equal(["first", "first"], rows.Where(r => r["code"].StartsWith("KERB-", StringComparison.Ordinal)).Take(2).Select(r => r["leg"]));
        Assert.Contains(rows, r => r["leg"] == "home");
        Assert.Contains(rows, r => r["leg"] == "alone");
    }

    [Fact]
    public void Awkward_SouthFile_HasNoQuality()
    {
        var row = SampleRow.Of(File("south.csv")).First();
        Assert.DoesNotContain("u_plan", row.Cells.Keys);
        Assert.DoesNotContain("fix", row.Cells.Keys);
    }

    [Fact]
    public void Awkward_TouchingCables_NeverShareAPlace()
    {
        foreach (var seed in new[] { 1, 2, 3, 4, 5, 6 })
        {
            var cables = SampleSites.Awkward(seed).Places.Where(p => p.Crew == "South").Take(17).ToArray();
            foreach (var a in cables.Where(c => c.Id is "5" or "6" or "7"))
                Assert.All(cables.Where(c => c.Id is "11" or "12" or "13"), b =>
                    Assert.True(Math.Sqrt(Math.Pow(a.East - b.East, 2) + Math.Pow(a.North - b.North, 2)) > 0.5));
        }
    }

    [Fact]
    public void Awkward_DrainUpstream_RisesAllTheWay()
    {
        var height = SampleRow.Of(File("south.csv")).Where(r => !r.Again && r["run"] == "SU-1").Select(r => r.Number("height")).ToArray();
        Assert.Equal(height.Order(), height);
    }

    [Fact]
    public void Awkward_SameSeed_SameBytes() =>
        Assert.Equal(Site.Shots.Select(f => f.Text), SampleSites.Awkward(1).Shots.Select(f => f.Text));

    [Fact]
    public void Awkward_Truth_LengthOfJointedPipeIsThatOfItsPipes() =>
        Assert.Equal(12 * 6, Site.Truth.Single(t => t.Label == "WJ-1").PlanLength, 1e-9);

    private static SampleFile File(string name) => Site.Shots.Single(f => f.Name == name);
}
