using System.Globalization;
using Aslaid.Workbench;

namespace Aslaid.Tests;

/// <summary>Mistakes on the small site go as far as their size says, against where the shots really were.</summary>
public class LotMistakeTests
{
    private const double Size = 2;

    [Fact]
    public void SessionShifted_EveryShot_MovesByOneVector()
    {
        var moved = Moved("session-shifted");
        Assert.All(moved, m => Assert.Equal(Size * 0.03, double.Hypot(m.East, m.North), 0.0015));
        Assert.All(moved, m => Assert.Equal(moved[0].East, m.East, 0.0021));
    }

    [Fact]
    public void ControlDrift_FromFirstToLast_MovesByItsSize()
    {
        var moved = Moved("control-drift");
        Assert.Equal(Size * 0.034, double.Hypot(moved[^1].East - moved[0].East, moved[^1].North - moved[0].North), 0.003);
        Assert.Equal(Size * 0.034 / 2, double.Hypot(moved[0].East, moved[0].North), 0.0015);
    }

    [Fact]
    public void HeightDatumOff_EveryHeight_IsOffByItsSize() =>
        Assert.All(Off(3, "height-datum-off"), o => Assert.Equal(Size, Math.Abs(o.Height), 0.1));

    [Fact]
    public void PoleHeightWrong_JustTheNamedShots_AreOff()
    {
        for (var seed = 1; seed <= 10; seed++)
        {
            var named = SampleSites.Lot(seed, "pole-height-wrong", 10).Mistakes[0].Shots;
            Assert.InRange(named.Length, 8, 16);
            Assert.All(Off(seed, "pole-height-wrong", 10), o => Assert.Equal(named.Contains(o.Id), Math.Abs(o.Height) > 0.25));
        }
    }

    [Fact]
    public void AnotherSite_NearestToControl_IsAsFarAsItsSize()
    {
        var site = SampleSites.Lot(5, "another-site", Size);
        var control = site.Control.Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(1).Select(line => line.Split(',')).ToArray();
        var nearest = Afternoon(site).Min(row => control.Min(mark => double.Hypot(row.Number("east") - Number(mark[1]), row.Number("north") - Number(mark[2]))));
        Assert.Equal(Size * 5000, nearest, 0.1);
    }

    [Fact]
    public void ControlGap_BetweenTwoCheckShots_IsAsLongAsItsSize()
    {
        for (var seed = 1; seed <= 10; seed++)
        {
            var times = Afternoon(SampleSites.Lot(seed, "control-gap", Size)).Where(row => row["code"] == "CONTROL")
                .Select(row => DateTimeOffset.Parse(row["time"], CultureInfo.InvariantCulture)).ToArray();
            Assert.InRange(times.Zip(times.Skip(1), (a, b) => (b - a).TotalMinutes).Max(), (Size * 120) - 6, (Size * 120) + 6);
        }
    }

    [Fact]
    public void AccuracyOptimistic_Heights_ScatterByTwiceTheSize()
    {
        var off = Enumerable.Range(1, 10).SelectMany(seed => Off(seed, "accuracy-optimistic")).ToArray();
        Assert.InRange(Math.Sqrt(off.Average(o => o.Height * o.Height)) / 0.005, 0.93 * 2 * Size, 1.07 * 2 * Size);
    }

    [Fact]
    public void ScaleOff_CheckShots_SpreadByTheirDistance()
    {
        var off = Off(4, "scale-off", 10);
        Assert.Equal(10 * 120e-6 * 250, off.Max(o => double.Hypot(o.East, o.North)), 0.05);
    }

    [Fact]
    public void SetupRotated_CheckShots_TurnByTheirDistance()
    {
        var off = Off(4, "setup-rotated", 10).Where(o => double.Hypot(o.East, o.North) > 0.15).ToArray();
        Assert.Equal(12, off.Length); // four check shots and eight of the work
    }

    [Fact]
    public void CurveByChords_EveryLeg_LosesItsSagitta()
    {
        var at = Named(SampleSites.Lot(6, "curve-by-chords", Size));
        Assert.All(at.Zip(at.Skip(1), (a, b) => double.Hypot(b.East - a.East, b.North - a.North)), chord => Assert.Equal(Size * 0.010, chord * chord / (8 * 30), 1e-4));
    }

    [Theory]
    [InlineData("tangent-break")]
    [InlineData("bend-not-shot")]
    [InlineData("curve-by-chords")]
    [InlineData("level-jump")]
    [InlineData("fall-wrong")]
    [InlineData("height-missing")]
    public void Lot_BeforeTheLimit_LiesWithinItsPlot(string check)
    {
        foreach (var size in new[] { 0.5, 1, 2 })
        {
            var site = SampleSites.Lot(2, check, size);
            Assert.True(site.Places.Max(p => p.East) - site.Places.Min(p => p.East) < 200);
            Assert.DoesNotContain(site.Truth, run => run.Label == site.Mistakes[0].Run);
        }
    }

    [Fact]
    public void Delivery_OfAttributeMistakes_GoesWithTheSite()
    {
        Assert.StartsWith("code,attribute,required,allowed\nBOLLARD,material,yes,", SampleSites.Lot(1, "attribute-missing").Delivery, StringComparison.Ordinal);
        Assert.Contains("steal", SampleSites.Lot(1, "attribute-not-allowed").Shots[1].Text, StringComparison.Ordinal);
        Assert.Null(SampleSites.Lot(1).Delivery);
    }

    /// <summary>How far each shot of the afternoon is off its place.</summary>
    private static (string Id, double East, double North, double Height)[] Off(int seed, string check, double size = Size)
    {
        var site = SampleSites.Lot(seed, check, size);
        var places = site.Places.ToDictionary(place => place.Id);
        return [.. Afternoon(site).Select(row => (Row: row, Place: places[row["id"]])).Select(at =>
            (at.Row["id"], at.Row.Number("east") - at.Place.East, at.Row.Number("north") - at.Place.North, at.Row.Number("height") - at.Place.Height))];
    }

    /// <summary>What a mistake adds to each shot of the afternoon, to the millimetre.</summary>
    private static (double East, double North)[] Moved(string check) =>
        [.. Off(3, check).Zip(Off(3, check, 1e-9), (with, without) => (with.East - without.East, with.North - without.North))];

    private static IEnumerable<SampleRow> Afternoon(SampleSite site) => SampleRow.Of(site.Shots[1]).Where(row => !row.Again);

    private static TruePlace[] Named(SampleSite site) => [.. site.Mistakes[0].Shots.Select(id => site.Places.Single(place => place.Id == id))];

    private static double Number(string cell) => double.Parse(cell, CultureInfo.InvariantCulture);
}
