using Aslaid.Testing;
using Aslaid.Workbench;

namespace Aslaid.Tests;

public class LotSiteTests
{
    public static TheoryData<string> Mistakes => [.. SampleSites.AllMistakes];

    [Fact]
    public void Lot_Clean_HasSixtyToHundredAndTwentyShotsAndTwoFiles() => Gen.Int.Sample(seed =>
    {
        var site = SampleSites.Lot(seed);
        Assert.InRange(site.Places.Length, 60, 120);
        Assert.Equal(2, site.Shots.Length);
        Assert.Empty(site.Mistakes);
    }, iter: 30);

    [Theory]
    [MemberData(nameof(Mistakes))]
    public void Lot_EveryMistake_IsTheCleanSiteButForIt(string check)
    {
        foreach (var seed in new[] { 1, 2, 3, 4 })
        {
            var (clean, site) = (SampleSites.Lot(seed), SampleSites.Lot(seed, check));
            var mistake = Assert.Single(site.Mistakes);
            Assert.Equal(check, mistake.Check);
            Assert.Equal(clean.Shots[0].Name, site.Shots[0].Name);
            Assert.Equal(SampleRow.Of(clean.Shots[0]).Select(r => r["east"]), SampleRow.Of(site.Shots[0]).Select(r => r["east"]));
            Assert.True(clean.Shots[1].Text != site.Shots[1].Text || site.Settings is not null);
        }
    }

    [Theory]
    [MemberData(nameof(Mistakes))]
    public void Lot_EveryMistakeAtEverySize_IsTakenInAndNamesShotsThatAreThere(string check)
    {
        foreach (var size in Skill.Sizes)
        {
            var site = SampleSites.Lot(7, check, size);
            var mistake = site.Mistakes[0];
            var rows = SampleRow.Of(site).ToArray();
            Assert.All(mistake.Shots, id => Assert.Contains(rows, r => r["id"] == id));
            Assert.True(mistake.Run is null || rows.Any(r => r["run"] == mistake.Run));
            Assert.True(mistake.File is null || rows.Any(r => r.File == mistake.File));
            Assert.NotEqual(0, SampleInputs.Of(site).Shots.Count);
        }
    }

    [Theory]
    [MemberData(nameof(Mistakes))]
    public void Lot_SameSeed_SameBytes(string check) =>
        Assert.Equal(SampleSites.Lot(11, check).Shots.Select(f => f.Text), SampleSites.Lot(11, check).Shots.Select(f => f.Text));
}
