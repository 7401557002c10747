using System.Globalization;
using Aslaid.Workbench;

namespace Aslaid.Tests;

public class DefaultCodeBookTests
{
    private const string Columns =
        "code,name,kind,group,service,measured_at,od_m,wall_m,width_m,depth_m,tol_plan_m,tol_height_m,tol_high_m,tol_low_m,plan_95_max_m,"
        + "height_95_max_m,spacing_max_m,sagitta_max_m,radius_min_m,radius_max_m,tangent_break_max_deg,closes,fall_min_pct,cover_min_m,"
        + "end_reach_m,ends_on,needs_proof,releases,pay_item,colour,line,symbol,layer,source";

    private static readonly IReadOnlyDictionary<string, IReadOnlyDictionary<string, string>> Book = Read(SampleSites.Clean(1).Codes);

    [Fact]
    public void Codes_Header_IsTheAgreedOne() => Assert.Equal(Columns, SampleSites.Clean(1).Codes.Split('\n')[0]);

    [Fact]
    public void Codes_EveryRow_SaysWhereItsLimitsComeFrom() =>
        Assert.All(Book.Values, row => Assert.Contains("default", row["source"], StringComparison.Ordinal));

    [Fact]
    public void Codes_EveryKindAndAnswer_IsAWordOfTheBook() => Assert.All(Book.Values, row =>
    {
        Assert.True(row["kind"] is "point" or "line" or "area" or "control", row["code"]);
        Assert.True(row["closes"] is "" or "yes", row["code"]);
        Assert.True(row["needs_proof"] is "" or "yes", row["code"]);
        Assert.All(row["ends_on"].Split(' ', StringSplitOptions.RemoveEmptyEntries), code => Assert.Contains(code, Book.Keys));
    });

    [Fact]
    public void Clean_EveryRow_KeepsToTheBook()
    {
        foreach (var seed in new[] { 1, 2, 3, 4, 5 })
            KeepsToTheBook(SampleSites.Clean(seed));
    }

    [Fact]
    public void OfSize_EveryRightRun_KeepsToTheBook()
    {
        var site = SampleSites.OfSize(4000, 1);
        var spoilt = site.Mistakes.Select(m => m.Run).ToHashSet();
        KeepsToTheBook(site, spoilt);
        Assert.NotEmpty(spoilt);
    }

    private static void KeepsToTheBook(SampleSite site, HashSet<string?>? except = null)
    {
        var rows = SampleRow.Of(site);
        var known = rows.Where(r => !r.Again).ToLookup(r => (r.Crew, r["id"]));
        Assert.All(rows.Where(r => !r.Again && except?.Contains(r["run"]) != true), r =>
        {
            Assert.True(r.Number("u_plan") / Math.Sqrt(2) * 2.448 < Limit(r["code"], "plan_95_max_m"), $"{r["code"]} {r["id"]}");
            Assert.True(r.Number("u_height") * 1.960 < Limit(r["code"], "height_95_max_m"), $"{r["code"]} {r["id"]}");
        });
        foreach (var run in rows.Where(r => r["run"].Length > 0 && except?.Contains(r["run"]) != true).GroupBy(r => (r.Crew, Code: r["code"], Run: r["run"])))
        {
            var at = run.Select(r => known[(r.Crew, r["id"])].First()).ToArray();
            for (var i = 1; i < at.Length; i++)
            {
                var leg = Math.Sqrt(Math.Pow(at[i].Number("east") - at[i - 1].Number("east"), 2) + Math.Pow(at[i].Number("north") - at[i - 1].Number("north"), 2));
                Assert.True(leg < Limit(run.Key.Code, "spacing_max_m"), $"{run.Key} leg {leg}");
            }
            if (Book[run.Key.Code]["closes"] == "yes")
                Assert.Equal(run.First()["id"], run.Last()["id"]);
        }
        Assert.All(site.Truth, t => Assert.All(t.Arcs, a =>
        {
            Assert.True(a.Radius > 1.1 * Limit(t.Code, "radius_min_m", 0), $"{t.Label} {a.Radius}");
            Assert.True(a.Radius < 0.95 * Limit(t.Code, "radius_max_m"), $"{t.Label} {a.Radius}");
        }));
    }

    private static double Limit(string code, string column, double none = double.PositiveInfinity) =>
        Book[code][column] is { Length: > 0 } cell ? double.Parse(cell, CultureInfo.InvariantCulture) : none;

    private static Dictionary<string, IReadOnlyDictionary<string, string>> Read(string csv)
    {
        var header = Columns.Split(',');
        return csv.Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(1).Select(Cells).ToDictionary(
            cells => cells[0],
            cells => (IReadOnlyDictionary<string, string>)header.Zip(cells).ToDictionary(c => c.First, c => c.Second));

        string[] Cells(string line)
        {
            var parts = line.Split('"'); // odd parts stand between quotes; the book quotes no quote
            for (var i = 1; i < parts.Length; i += 2)
                parts[i] = parts[i].Replace(',', '\u001f');
            var cells = string.Concat(parts).Split(',').Select(c => c.Replace('\u001f', ',')).ToArray();
            Assert.Equal(header.Length, cells.Length);
            return cells;
        }
    }
}
