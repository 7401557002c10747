using Aslaid.Record;
using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>The plan sheet: one routine for paper and for screen. Millimetres from the top left corner of an A3 sheet.</summary>
internal static class PlanSheet
{
    private const float SummaryHeight = 13;
    private const float ListWidth = 84;
    private const float FootHeight = 66;
    private const float TitleWidth = 180;
    private const float TitleHeight = 45;

    public static void Draw(SKCanvas canvas, Handover handover)
    {
        using var drawing = new Drawing(canvas);
        var record = handover.Record;
        var notes = FindingNote.Of(record);
        var space = SheetFrame.Space;
        var listed = notes.Count > 0;
        var extent = PlanExtent.Of(record);
        var view = View(record, extent, listed);
        var (window, foot) = (view.Area, view.Area.Bottom);

        canvas.Clear(SKColors.White);
        var list = new FindingList(drawing, new SKRect(window.Right, window.Top, space.Right, foot), notes);
        new PlanMap(drawing, view, record, notes, listed ? list.Shown : 0).Draw(extent);
        drawing.Rect(window, Weight.Medium, Ink.Black);
        if (listed) list.Draw();
        SummaryStrip.Draw(drawing, new SKRect(space.Left, space.Top, space.Right, window.Top), record, notes);

        var title = new SKRect(space.Right - TitleWidth, space.Bottom - TitleHeight, space.Right, space.Bottom);
        new Legend(drawing, new SKRect(space.Left, foot, title.Left, space.Bottom), record, notes).Draw();
        CautionBlock.Draw(drawing, new SKRect(title.Left, foot, space.Right, title.Top));
        TitleBlock.Draw(drawing, title, handover, extent.Places.Length == 0 ? null : view.Scale);
        drawing.Line(title.Left, foot, title.Left, space.Bottom, Weight.Strong, Ink.Black);
        drawing.Line(space.Left, foot, space.Right, foot, Weight.Strong, Ink.Black);
        SheetFrame.Draw(drawing);
    }

    /// <summary>Where the site lies on this sheet. Without findings the plan has the whole width.</summary>
    public static PlanView View(AsBuiltRecord record, PlanExtent extent, bool listed)
    {
        var space = SheetFrame.Space;
        var right = listed ? space.Right - ListWidth : space.Right;
        var window = new SKRect(space.Left, space.Top + SummaryHeight, right, space.Bottom - FootHeight);
        return PlanView.Fitting(extent.Places, PlanExtent.WorkOf(record), window);
    }
}
