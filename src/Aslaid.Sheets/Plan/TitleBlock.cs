using System.Globalization;
using Aslaid.Record;
using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>The title block, 180 mm wide: those data fields of ISO 7200 that the record knows, where the record stands, and two signatures.</summary>
internal static class TitleBlock
{
    public static void Draw(Drawing drawing, SKRect area, Handover handover, double? scale)
    {
        var cells = new Cells(drawing, area);
        var date = handover.MadeAt.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        cells.Field("Title, supplementary title", handover.Project, 0, 0, 112, 13, TypeSize.Title + 0.6f, true, "As-built plan");
        cells.Field("Identification number", Identification(handover), 112, 0, 68, 13, TypeSize.Title, true);
        cells.Field("Creator", handover.PreparedBy, 0, 13, 62, 8.5f);
        cells.Field("Date of issue", date, 62, 13, 26, 8.5f);
        cells.Field("Scale on A3", scale is { } s ? "1 : " + Naming.Figure(s) : "none", 88, 13, 24, 8.5f, bold: true);
        cells.Field("Document type", "As-built record, plan", 112, 13, 44, 8.5f);
        cells.Field("Sheet", "1 / 1", 156, 13, 24, 8.5f, bold: true);
        cells.Field("Journal position, head hash (SHA-256)", $"{handover.Position.ToString(CultureInfo.InvariantCulture)}, {handover.HeadHash}", 0, 21.5f, 156, 8.5f, TypeSize.Data);
        cells.Field("Drawn by", "Aslaid", 156, 21.5f, 24, 8.5f, bold: true);
        cells.Field("Survey: name, date, signature", "", 0, 30, 90, 15);
        cells.Field("Conformity: name, date, signature", "", 90, 30, 90, 15);
        drawing.Rect(area, Weight.Strong, Ink.Black);
    }

    /// <summary>What names this sheet among all others of the project.</summary>
    public static string Identification(Handover handover) => string.Create(
        CultureInfo.InvariantCulture, $"plan-{handover.Position}-{handover.HeadHash[..Math.Min(8, handover.HeadHash.Length)]}");

    private readonly struct Cells(Drawing drawing, SKRect area)
    {
        public void Field(
            string name, string value, float x, float y, float width, float height, float size = TypeSize.Name, bool bold = false, string? under = null)
        {
            var cell = SKRect.Create(area.Left + x, area.Top + y, width, height);
            drawing.Rect(cell, Weight.Thin, Ink.Black);
            drawing.Text(name, cell.Left + 1.5f, cell.Top + 2.7f, 2f, colour: Ink.Second);
            if (value.Length == 0) return;
            var line = under is null ? cell.Bottom - 1.9f : cell.Top + 7.6f;
            drawing.Text(drawing.Type.Fit(value, width - 3, size, bold), cell.Left + 1.5f, line, size, bold);
            if (under is not null) drawing.Text(under, cell.Left + 1.5f, cell.Bottom - 1.5f, TypeSize.Data + 0.2f);
        }
    }
}
