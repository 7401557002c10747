using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Tests;

/// <summary>The sample site's files, read by the reader and by plain splitting.</summary>
public sealed class ShotsCsvSampleTests
{
    public static ShotTable TakeIn(SampleSite site)
    {
        var shots = ShotTable.Empty;
        foreach (var file in site.Shots)
        {
            var intake = new ShotsCsvReader().Read(Encoding.UTF8.GetBytes(file.Text), new(file.Name, file.Crew, default), shots);
            Assert.Empty(intake.Rejected.Select(r => r.Message(file.Name)));
            shots = intake.Shots!;
        }

        return shots;
    }

    [Fact]
    public void Read_SampleSiteWithMistakes_HasEveryCellOfEveryRow()
    {
        var site = SampleSites.WithMistakes(seed: 11);
        var shots = TakeIn(site);
        var rows = SampleRow.Of(site);
        Assert.Equal(rows.Count, shots.Count);
        for (var row = 0; row < rows.Count; row++)
        {
            var (plain, shot) = (rows[row], shots[row]);
            Assert.Equal(plain["id"], shot.Id);
            Assert.Equal(plain["code"], shot.Code);
            Assert.Equal(plain["run"].NullIfEmpty(), shot.RunLabel);
            Assert.Equal(plain.Crew, shot.Crew);
            Assert.Equal(plain.Again, shots.Again[row] >= 0);
            if (plain.Again)
            {
                Assert.Equal(plain["id"], shots.Id(shots.Again[row]));
                continue;
            }

            Assert.Equal(plain.Number("east"), shot.At.East);
            Assert.Equal(plain.Number("north"), shot.At.North);
            Assert.Equal(plain.Number("height"), shot.Height);
            Assert.Equal(plain.Number("u_plan"), shots.UPlan[row]);
            Assert.Equal(plain["note"].NullIfEmpty(), shots.Text("note", row));
            Assert.Equal(plain["pole"].NullIfEmpty() is null ? null : plain.Number("pole"), shots.Number("pole", row));
        }
    }

    [Fact]
    public void Read_EverySampleSite_IsTakenIn()
    {
        Assert.NotEqual(0, TakeIn(SampleSites.Clean(3)).Count);
        Assert.NotEqual(0, TakeIn(SampleSites.FirstDay(4)).Count);
        Assert.NotEqual(0, TakeIn(SampleSites.Clean(5, decimals: 5)).Count);
    }
}

internal static class EmptyText
{
    public static string? NullIfEmpty(this string text) => text.Length == 0 ? null : text;
}
