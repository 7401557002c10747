using System.Globalization;
using Aslaid.Workbench;

namespace Aslaid.Tests;

public class SampleSitesTests
{
    private static readonly int[] Seeds = [1, 2, 3, 17, 2026, -5];

    [Fact]
    public void Clean_SameSeed_SameBytes() => Gen.Int.Sample(seed =>
        SampleSites.Clean(seed).Shots.Select(f => f.Text).SequenceEqual(SampleSites.Clean(seed).Shots.Select(f => f.Text)), iter: 20);

    [Fact]
    public void Clean_OtherSeed_OtherLayout() => Assert.NotEqual(Lengths(1), Lengths(2));

    [Fact]
    public void Clean_DecimalCommaCulture_SameBytes()
    {
        var usual = Everything(7);
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.Equal(usual, Everything(7));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Clean_AnySeed_AboutSevenHundredRowsInRange()
    {
        foreach (var seed in Seeds)
        {
            var rows = SampleRow.Of(SampleSites.Clean(seed));
            Assert.InRange(rows.Count, 650, 760);
            Assert.All(rows.Where(r => !r.Again), r =>
            {
                Assert.InRange(r.Number("east"), 512_000, 512_400);
                Assert.InRange(r.Number("north"), 6_243_000, 6_243_400);
                Assert.InRange(r.Number("height"), 3.0, 8.0);
            });
        }
    }

    [Fact]
    public void Clean_EveryShot_WithinSixSigmaOfItsPlace()
    {
        foreach (var seed in Seeds)
        {
            var site = SampleSites.Clean(seed, decimals: 4);
            var places = site.Places.ToDictionary(p => (p.Crew, p.Id));
            Assert.All(SampleRow.Of(site).Where(r => !r.Again), r =>
            {
                var place = places[(r.Crew, r["id"])];
                var (e, n) = (r.Number("east") - place.East, r.Number("north") - place.North);
                Assert.True(Math.Sqrt((e * e) + (n * n)) < 6 * r.Number("u_plan"), $"{r.Crew} {r["id"]}");
                Assert.True(Math.Abs(r.Number("height") - place.Height) < 6 * r.Number("u_height"), $"{r.Crew} {r["id"]}");
            });
        }
    }

    [Fact]
    public void Clean_NoiseOfManyShots_IsAsStated()
    {
        var plan = new List<double>();
        var height = new List<double>();
        foreach (var seed in Seeds)
        {
            var site = SampleSites.Clean(seed, decimals: 5);
            var places = site.Places.ToDictionary(p => (p.Crew, p.Id));
            foreach (var r in SampleRow.Of(site).Where(r => !r.Again && r["code"] != "CONTROL"))
            {
                var place = places[(r.Crew, r["id"])];
                plan.Add((Math.Pow(r.Number("east") - place.East, 2) + Math.Pow(r.Number("north") - place.North, 2)) / (Math.Pow(r.Number("u_plan"), 2) + Tip(r)));
                height.Add(Math.Pow((r.Number("height") - place.Height) / r.Number("u_height"), 2));
            }
        }
        // Mean squares of n normal pairs and singles: 1 with standard deviation 1/sqrt(n) and sqrt(2/n); n is about 4000.
        Assert.InRange(plan.Average(), 0.93, 1.07);
        Assert.InRange(height.Average(), 0.9, 1.1);

        // Centring 3 mm radial, and a pole held upright to 0.13 degrees: 1 sigma each.
        static double Tip(SampleRow row) => row["pole"].Length == 0 ? 0 : 0.003 * 0.003 + Math.Pow(row.Number("pole") * 0.13 * Math.PI / 180, 2);
    }

    [Fact]
    public void Truth_OfEveryRun_IsTheSumOfItsPieces()
    {
        foreach (var site in Seeds.SelectMany(seed => new[] { SampleSites.Clean(seed), SampleSites.Awkward(seed) }))
        {
            var places = site.Places.ToDictionary(p => (p.Crew, p.Id));
            var rows = SampleRow.Of(site).ToLookup(r => (r.Crew, r["code"], r["run"]));
            Assert.All(site.Truth.Where(t => t.Label is not null), run =>
            {
                var at = rows[(run.Crew, run.Code, run.Label!)].Select(r => places[(r.Crew, r["id"])]).ToArray();
                var through = rows[(run.Crew, run.Code, run.Label!)].Select(r => r["leg"] == "through").ToArray();
                var (plan, twiceArea, arc) = (0.0, 0.0, 0);
                for (var i = 0; i + 1 < at.Length;)
                {
                    var next = i + 1;
                    while (through[next])
                        next++;
                    var chord = Math.Sqrt(Math.Pow(at[next].East - at[i].East, 2) + Math.Pow(at[next].North - at[i].North, 2));
                    twiceArea += ((at[i].East - at[0].East) * (at[next].North - at[0].North)) - ((at[next].East - at[0].East) * (at[i].North - at[0].North));
                    if (next == i + 1)
                        plan += chord;
                    else
                    {
                        var sweep = double.DegreesToRadians(run.Arcs[arc].SweepDegrees);
                        Assert.Equal(2 * run.Arcs[arc].Radius * Math.Sin(sweep / 2), chord, 1e-6);
                        Assert.Equal(run.Arcs[arc].Radius * sweep, run.Arcs[arc].PlanLength, 1e-9);
                        plan += run.Arcs[arc++].PlanLength;
                    }
                    i = next;
                }
                Assert.Equal(run.Arcs.Length, arc);
                Assert.Equal(plan, run.PlanLength, 1e-6);
                Assert.InRange(run.SlopeLength!.Value, run.PlanLength, run.PlanLength * 1.02);
                if (run.Area is not { } area)
                    return;
                var segments = run.Arcs.Sum(a => a.Radius * a.Radius * (double.DegreesToRadians(a.SweepDegrees) - Math.Sin(double.DegreesToRadians(a.SweepDegrees))));
                Assert.Equal((Math.Abs(twiceArea) + segments) / 2, area, 1e-5); // every ring of the sample is convex
            });
        }
    }

    [Fact]
    public void Clean_EveryRowUsedAgain_IsKnownByThen()
    {
        foreach (var file in SampleSites.Clean(4).Shots)
        {
            var known = new HashSet<string>();
            Assert.All(SampleRow.Of(file), r => Assert.True(r.Again ? known.Contains(r["id"]) : known.Add(r["id"]), $"{r.File} {r["id"]}"));
        }
    }

    [Fact]
    public void Clean_EveryFile_BeginsAndEndsOnTwoMarks() => Assert.All(SampleSites.Clean(5).Shots, file =>
    {
        var rows = SampleRow.Of(file).ToArray();
        Assert.All(new[] { rows[0], rows[1], rows[^2], rows[^1] }, r => Assert.Equal("CONTROL", r["code"]));
        Assert.NotEqual(rows[0]["note"], rows[1]["note"]);
        Assert.NotEqual(rows[^2]["note"], rows[^1]["note"]);
    });

    [Fact]
    public void Clean_EveryArc_IsProvenTwiceOver()
    {
        foreach (var seed in Seeds)
            Assert.All(SampleSites.Clean(seed).Truth.SelectMany(r => r.Arcs).Where(a => a.SweepDegrees < 360), a =>
            {
                var ordinate = a.Radius * (1 - Math.Cos(double.DegreesToRadians(a.SweepDegrees) / 2));
                Assert.True(ordinate > 6 * 0.014 * Math.Sqrt(0.75), $"R {a.Radius}, {a.SweepDegrees}°"); // worst shot 14 mm radial
            });
    }

    [Fact]
    public void FirstDay_IsTheCleanSiteCutShort()
    {
        var (whole, first) = (SampleSites.Clean(9), SampleSites.FirstDay(9));
        Assert.Equal(whole.Shots.Take(2).Select(f => f.Text), first.Shots.Select(f => f.Text));
        Assert.DoesNotContain(first.Truth, r => r.Label == "KF-1");
    }

    private static double[] Lengths(int seed) => [.. SampleSites.Clean(seed).Truth.Select(r => r.PlanLength)];

    private static string Everything(int seed) => string.Concat(
        new[] { SampleSites.Clean(seed), SampleSites.WithMistakes(seed), SampleSites.Awkward(seed), SampleSites.OfSize(500, seed) }.SelectMany(s => s.Shots.Select(f => f.Text).Append(s.Control)));
}
