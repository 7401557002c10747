using Aslaid.Workbench;

namespace Aslaid.Tests;

public class SiteOfSizeTests
{
    [Fact]
    public void OfSize_AnySize_HasExactlySoManyShots()
    {
        foreach (var shots in new[] { 100, 101, 999, 5_000, 10_001, 40_000 })
            Assert.Equal(shots, SampleSites.OfSize(shots, 1).Shots.Sum(f => SampleRow.Of(f).Count(r => !r.Again)));
    }

    [Fact]
    public void OfSize_BelowHundred_IsRefused() => Assert.Throws<ArgumentOutOfRangeException>(() => SampleSites.OfSize(99, 1));

    [Fact]
    public void OfSize_SameSeed_SameBytes() =>
        Assert.Equal(SampleSites.OfSize(3000, 8).Shots.Select(f => f.Text), SampleSites.OfSize(3000, 8).Shots.Select(f => f.Text));

    [Fact]
    public void OfSize_Large_HasEverythingItPromises()
    {
        var site = SampleSites.OfSize(60_000, 2);
        var runs = SampleRow.Of(site).Where(r => r["run"].Length > 0).Select(r => r["run"]).Distinct().Count();
        Assert.Equal(3, site.Shots.Length);
        Assert.InRange(runs, 60_000 / 22, 60_000 / 18);
        Assert.InRange(site.Truth.Count(t => t.Arcs.Length > 0), runs / 4, runs / 2);
        Assert.InRange(site.Mistakes.Length, (runs / 100) - 1, (runs / 100) + 1);
        Assert.True(site.Mistakes.Select(m => m.Check).Distinct().Count() >= 5);
        Assert.Contains(site.Truth, t => t.Area is not null);
        Assert.Equal(runs, site.Truth.Length + site.Mistakes.Length);
    }

    [Fact]
    public void OfSize_Mistakes_NameShotsOfTheirRun()
    {
        var site = SampleSites.OfSize(20_000, 3);
        var rows = SampleRow.Of(site).ToLookup(r => (r.Crew, r["run"]));
        Assert.All(site.Mistakes, m => Assert.All(m.Shots, id => Assert.Contains(rows[(m.Crew, m.Run!)], r => r["id"] == id)));
    }

    [Fact]
    public void OfSize_IdTwice_IsTheOnlyIdTwice()
    {
        var site = SampleSites.OfSize(20_000, 3);
        var twice = SampleRow.Of(site).Where(r => !r.Again).GroupBy(r => (r.Crew, r["id"])).Where(g => g.Count() > 1).Select(g => g.Key).Order();
        var told = site.Mistakes.Where(m => m.Check == "id-twice").Select(m => (m.Crew, m.Shots[0])).Order();
        Assert.Equal(told, twice);
    }
}
