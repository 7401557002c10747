using System.Globalization;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;

namespace Aslaid.Tests;

public class TablesDeliverableTests
{
    [Fact]
    public void Write_DecimalCommaCulture_SameBytes() => DeliveryFolder.AssertSameBytes(new TablesDeliverable(), () => ExchangeSite.Small());

    [Fact]
    public void Write_AnyHeights_ComeBackToFourDecimals() => Gen.OneOf(Gen.Double[-0.0002, 0.0002], Gen.Double[-500, 9000], Gen.Double[-1e14, 1e14]).Array[1, 30].Sample(heights =>
    {
        using var folder = DeliveryFolder.With(new TablesDeliverable(), ExchangeSite.OfHeights(heights));
        var cells = CsvCells.Rows(folder.Text("shots.csv")).Select(row => row["height_m"]).ToArray();
        return heights.Zip(cells).All(pair =>
            Math.Abs(Number(pair.Second) - pair.First) <= 0.00005 + Math.BitIncrement(Math.Abs(pair.First)) - Math.Abs(pair.First)
            && pair.Second.Split('.')[1].Length == 4 && pair.Second != "-0.0000" && !pair.Second.Contains('E', StringComparison.Ordinal));
    }, iter: 100);

    [Fact]
    public void Write_SampleSite_TotalsAgreeWithTheRecord()
    {
        var handover = ExchangeSite.Sample(SampleSites.WithMistakes(3));
        var record = handover.Record;
        using var folder = DeliveryFolder.With(new TablesDeliverable(), handover);
        var shots = CsvCells.Rows(folder.Text("shots.csv"));
        var runs = CsvCells.Rows(folder.Text("runs.csv"));
        Assert.Equal(Enumerable.Range(0, record.Shots.Count).Count(record.Shots.IsShot), shots.Count);
        Assert.Equal(shots.Count, shots.DistinctBy(s => (s["batch"], s["line"])).Count());
        Assert.Equal(record.Runs.Count, runs.Count);
        Assert.Equal(Enumerable.Range(0, record.Runs.Count).Sum(r => record.Runs[r].PlanLength), runs.Sum(r => Number(r["plan_length_m"])), 0.0001 * record.Runs.Count);
        Assert.NotEqual(0, record.Findings.Count);
        Assert.Equal(record.Findings.Count, CsvCells.Rows(folder.Text("findings.csv")).Count);
        Assert.Equal(record.Quantities.Length, CsvCells.Rows(folder.Text("quantities.csv")).Count);
        Assert.Equal(record.Holds.Length, CsvCells.Rows(folder.Text("holds.csv")).Count);
        Assert.All(runs, r => Assert.Equal(Number(r["plan_length_m"]),
            Number(r["open_m"]) + Number(r["held_m"]) + Number(r["complete_m"]) + Number(r["covered_m"]), 0.0003));
    }

    [Fact]
    public void Write_Verdicts_AreThoseOfTheRecord()
    {
        var handover = ExchangeSite.Small() with { Record = Derivation.Derive(SampleInputs.Of(SampleSites.WithMistakes(3))) };
        var judged = Judgements.Of(handover.Record);
        using var folder = DeliveryFolder.With(new TablesDeliverable(), handover);
        var rows = CsvCells.Rows(folder.Text("verdicts.csv"));
        Assert.Equal(judged.Select(each => (each.Requirement.Name, EnumWords.Of(each.Judgement.Verdict))), rows.Select(row => (row["requirement"], row["verdict"])));
        Assert.All(rows.Where(row => row["requirement"] == "radius"), row => Assert.Equal(1.959964 * Number(row["u"]), Number(row["u95"]), 2e-6));
        var sharp = Assert.Single(rows, row => row["requirement"] == "radius" && row["within"] == "no");
        Assert.Equal(("does-not-conform", 0.4, 0.0), (sharp["verdict"], Number(sharp["lower"]), Number(sharp["p_conforms"])));
        Assert.All(rows.Where(row => row["requirement"] != "radius"), row => Assert.Equal(("", "", ""), (row["u"], row["p_conforms"], row["lower"])));
    }

    [Fact]
    public void Write_WordsThatSpreadsheetsWouldRun_AreGuarded()
    {
        using var folder = DeliveryFolder.With(new TablesDeliverable(), ExchangeSite.Small());
        var rows = CsvCells.Rows(folder.Text("shots.csv"));
        var formula = Assert.Single(rows, r => r["id"] == "'=1+1");
        Assert.Equal("–5 m from the hedge, “näher”", formula["note"]);
        var mast = Assert.Single(rows, r => r["id"] == "-7"); // a number stays one
        Assert.Equal("'@mast\nsecond line", mast["note"]);
        Assert.Equal("", mast["height_m"]);
    }

    [Fact]
    public void Write_ShotSetAside_SaysSoAndWhy()
    {
        using var folder = DeliveryFolder.With(new TablesDeliverable(), ExchangeSite.Small());
        var row = Assert.Single(CsvCells.Rows(folder.Text("shots.csv")), r => r["id"] == "52");
        Assert.Equal(("no", "1"), (row["used"], row["journal"]));
    }

    [Fact]
    public void Write_ShotWithoutAccuracy_IsNone()
    {
        using var folder = DeliveryFolder.With(new TablesDeliverable(), ExchangeSite.Small());
        var rows = CsvCells.Rows(folder.Text("shots.csv")).ToDictionary(r => r["id"]);
        Assert.Equal(("none", ""), (rows["40"]["accuracy"], rows["40"]["u_plan_m"]));
        Assert.Equal(("stated", "0.0120"), (rows["1"]["accuracy"], rows["1"]["u_plan_m"]));
        Assert.Equal(("2", "upper"), (rows["1"]["line"], rows["1"]["file_line"]));
        Assert.Equal("2031-05-06T14:32:00+02:00", rows["1"]["time"]);
        Assert.Equal("WATER-MAIN/WM-1@North", rows["1"]["run"]);
    }

    [Fact]
    public void Write_QuarterOfRadiusTen_ItsElements()
    {
        using var folder = DeliveryFolder.With(new TablesDeliverable(), ExchangeSite.Small());
        var arc = Assert.Single(CsvCells.Rows(folder.Text("arcs.csv")), r => r["run"].StartsWith("WATER-MAIN", StringComparison.Ordinal));
        Assert.Equal(10, Number(arc["radius_m"]), 0.00005);
        Assert.Equal(90, Number(arc["sweep_deg"]), 1e-6);
        Assert.Equal("left", arc["turns"]);
        Assert.Equal(Number(arc["radius_m"]) * double.DegreesToRadians(Number(arc["sweep_deg"])), Number(arc["plan_length_m"]), 0.0002);
        Assert.Equal(Math.Sqrt(200), Number(arc["chord_m"]), 0.0001);
        Assert.Equal(10, Number(arc["tangent_length_m"]), 0.0001);
        Assert.Equal(10, Number(arc["from_m"]), 0.0001);
        Assert.Equal("1:3 2; 1:4 3; 1:5 4", arc["shots"]);
        Assert.NotEqual("", arc["u_radius_m"]);
    }

    private static double Number(string cell) => double.Parse(cell, CultureInfo.InvariantCulture);
}
