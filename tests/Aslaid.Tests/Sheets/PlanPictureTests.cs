using System.Globalization;
using System.Text;
using Aslaid.Sheets;
using Aslaid.Workbench;
using SkiaSharp;

namespace Aslaid.Tests;

public class PlanPictureTests
{
    [Fact]
    public void Write_SampleSite_IsOneSheetOfA3()
    {
        using var sheet = SheetFolder.Of(SampleRecord.Of(SampleSites.Clean(1)));
        var raw = Encoding.Latin1.GetString(sheet.Pdf);
        Assert.StartsWith("%PDF-", raw, StringComparison.Ordinal);
        var box = raw[raw.IndexOf("/MediaBox [", StringComparison.Ordinal)..];
        var sides = box["/MediaBox [".Length..box.IndexOf(']', StringComparison.Ordinal)].Split(' ', StringSplitOptions.RemoveEmptyEntries)
            .Select(side => double.Parse(side, CultureInfo.InvariantCulture) / 72 * 25.4).ToArray();
        Assert.Equal(420, sides[2], 0.1); // mm
        Assert.Equal(297, sides[3], 0.1);
    }

    [Fact]
    public void Write_SampleSite_OthersReadOnePageMadeAtTheHandover()
    {
        SheetFolder.SkipWithout("pdfinfo");
        using var sheet = SheetFolder.Of(SampleRecord.Of(SampleSites.Clean(1)));
        var facts = sheet.Facts();
        Assert.Matches(@"Pages:\s+1\b", facts);
        Assert.Contains("(A3)", facts, StringComparison.Ordinal);
        Assert.Contains("Mar 16 14:00:00 2026", facts, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_SampleSite_NamesRunsScaleHeadAndCautions()
    {
        SheetFolder.SkipWithout("pdftotext");
        using var sheet = SheetFolder.Of(SampleRecord.Of(SampleSites.Clean(1)));
        var words = sheet.Words();
        Assert.Contains("WM-1", words, StringComparison.Ordinal);
        Assert.Contains("Water main, 198.", words, StringComparison.Ordinal); // laid 198.2 m long
        Assert.Contains("1 : 1 000", words, StringComparison.Ordinal);
        Assert.Contains(SheetFolder.Head, words, StringComparison.Ordinal);
        Assert.Contains("Marlhithe Interchange", words, StringComparison.Ordinal);
        Assert.Contains("does not replace locating", words, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_LabelWithHalo_IsInThePdfOnce()
    {
        SheetFolder.SkipWithout("pdftotext");
        using var sheet = SheetFolder.Of(SheetRecord.Of(SheetRecord.Small()));
        Assert.Single(sheet.Words().Split(' '), word => word == "WM-1");
    }

    [Fact]
    public void Write_SameHandover_GivesTheSameBytes()
    {
        using var one = SheetFolder.Of(SampleRecord.Of(SampleSites.Clean(1)));
        using var two = SheetFolder.Of(SampleRecord.Of(SampleSites.Clean(1)));
        Assert.Equal(one.Png, two.Png);
        Assert.Equal(one.Pdf, two.Pdf);
    }

    [Fact]
    public void Write_UnderADecimalComma_GivesTheSameBytes()
    {
        var record = SampleRecord.Of(SampleSites.FirstDay(1));
        using var plain = SheetFolder.Of(record);
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            using var comma = SheetFolder.Of(record);
            Assert.Equal(plain.Png, comma.Png);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    /// <summary>The ink of the water main is found on its quarter circle, dot by dot.</summary>
    [Fact]
    public void Write_Arc_IsDrawnWhereItLies()
    {
        var record = SheetRecord.Of(SheetRecord.Small());
        using var sheet = SheetFolder.Of(record);
        using var picture = SKBitmap.Decode(sheet.Png);
        Assert.Equal((3307, 2339), (picture.Width, picture.Height));
        var view = PlanSheet.View(record, PlanExtent.Of(record), record.Findings.Count > 0);
        var arc = record.Runs[0].Piece(1).Arc;
        var found = 0;
        for (var part = 1; part < 50; part++)
        {
            var at = view.At(arc.PointAt(part / 50.0 * arc.PlanLength));
            if (picture.GetPixel((int)(at.X * picture.Width / 420), (int)(at.Y * picture.Height / 297)) == Ink.Of("blue")) found++;
        }

        Assert.InRange(found, 35, 49); // a shot's dot, a leader or a letter may hide some
    }

    [Fact]
    public void Write_NoShots_SaysSo()
    {
        SheetFolder.SkipWithout("pdftotext");
        using var sheet = SheetFolder.Of(SheetRecord.Of());
        Assert.Contains("No shots yet.", sheet.Words(), StringComparison.Ordinal);
    }

    [Fact]
    public void Write_NoHeights_DrawsThePlanAndSaysHowMany()
    {
        SheetFolder.SkipWithout("pdftotext");
        using var sheet = SheetFolder.Of(SheetRecord.Of(SheetRecord.Small(height: null)));
        var words = sheet.Words();
        Assert.Contains("8 shots have no height.", words, StringComparison.Ordinal);
        Assert.Contains("WM-1", words, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_ShotFarOff_IsNamedAndDoesNotChangeTheScale()
    {
        SheetFolder.SkipWithout("pdftotext");
        using var sheet = SheetFolder.Of(SheetRecord.Of([.. SheetRecord.Small(), new("117", 90000, 4, 5, "LAMP-COLUMN")]));
        var words = sheet.Words();
        Assert.Contains("1 shot lies outside this sheet: 117 at E 602000.0, N 6243004.0.", words, StringComparison.Ordinal);
        Assert.Matches("1 : (100|200|250) ", words);
    }

    [Fact]
    public void Write_SiteWithMistakes_NumbersThemStopsFirst()
    {
        SheetFolder.SkipWithout("pdftotext");
        var record = SampleRecord.Of(SampleSites.Single(1, "unknown-code"));
        using var sheet = SheetFolder.Of(record);
        var words = sheet.Words();
        Assert.Contains("Findings, stops first", words, StringComparison.Ordinal);
        Assert.Contains("LAMP-COLUMM is not in the code book", words, StringComparison.Ordinal);
        var notes = FindingNote.Of(record);
        Assert.Equal(Enumerable.Range(1, record.Findings.Count), notes.Select(note => note.Number));
        Assert.Equal(notes.OrderByDescending(note => note.Severity), notes);
    }

    [Fact]
    public void Write_RunThatLeavesTheSheet_IsDrawnToItsRimOnly()
    {
        using var near = SheetFolder.Of(SheetRecord.Of(SheetRecord.Small()));
        using var far = SheetFolder.Of(SheetRecord.Of([.. SheetRecord.Small(), new("113", 4e6, 5e6, 4, "STORM-DRAIN", "SD-1")]));
        Assert.InRange(far.Pdf.Length, 0, 2 * near.Pdf.Length); // chevrons all the way would be millions
    }

    [Fact]
    public void Write_Arc_SaysItsRadiusAndHowGoodItIs()
    {
        SheetFolder.SkipWithout("pdftotext");
        var record = SheetRecord.Of(SheetRecord.Small());
        using var sheet = SheetFolder.Of(record);
        var u = record.Runs[0].Piece(1).URadius!.Value;
        Assert.Contains(string.Create(CultureInfo.InvariantCulture, $"R 10.00 ± {1.96 * u:0.00}"), sheet.Words(), StringComparison.Ordinal);
    }

    /// <summary>A tree pit is well over 0.4 m and well under 4 m.</summary>
    [Theory]
    [InlineData(1000, true), InlineData(100, false)]
    public void Trace_ClosedRun_IsASmallRingUnderFourMillimetres(double scale, bool isSmall)
    {
        var record = SampleRecord.Of(SampleSites.Clean(1));
        var pit = Enumerable.Range(0, record.Runs.Count).Select(number => record.Runs[number]).First(run => run.Label == "TP-1");
        Assert.True(pit.IsClosed);
        using var trace = PaperTrace.Of(pit, new(new(20, 23, 326, 221), record.Shots.At(pit.Members[0]), scale, 0));
        Assert.Equal(isSmall, trace.IsSmallRing);
    }

    [Fact]
    public void Write_OneShot_IsDrawn()
    {
        SheetFolder.SkipWithout("pdftotext");
        using var sheet = SheetFolder.Of(SheetRecord.Of(new SheetRecord.Row("1", 10, 10, 5, "LAMP-COLUMN")));
        Assert.Contains("Lamp column", sheet.Words(), StringComparison.Ordinal);
    }

    [Fact]
    public void Write_ProjectInAnotherScript_IsMarkedAsNotShown()
    {
        SheetFolder.SkipWithout("pdftotext");
        using var sheet = SheetFolder.Of(SheetRecord.Of(SheetRecord.Small()), project: "Пост 7");
        Assert.Contains("???? 7", sheet.Words(), StringComparison.Ordinal);
    }
}
