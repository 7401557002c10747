using Aslaid.Record;
using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>
/// The plan of what was built, on one A3 sheet: <c>plan.pdf</c> in lines and letters for print, <c>plan.png</c> at 200
/// dots an inch for a screen. Both are drawn by one routine, with true arcs, at the largest standard scale that shows the site.
/// </summary>
public sealed class PlanPicture : IDeliverable
{
    private const float PointsPerMillimetre = 72 / 25.4f;
    private const int DotsPerInch = 200;

    /// <inheritdoc/>
    public string Name => "plan";

    /// <inheritdoc/>
    public string What => "plan of the as-built record on one A3 sheet, for print (PDF) and for screens (PNG)";

    /// <inheritdoc/>
    public void Write(Handover handover, IDeliveryFolder folder)
    {
        using (var pdf = new System.IO.MemoryStream())
        {
            WritePdf(handover, pdf);
            System.IO.File.WriteAllBytes(folder.PathOf("plan.pdf", "plan of the as-built record on one A3 sheet, for print; PDF"), PdfIdentity.Settled(pdf.ToArray()));
        }

        using (var png = System.IO.File.Create(folder.PathOf("plan.png", "the same plan for screens, 200 dots an inch; PNG"))) WritePng(handover, png);
    }

    private static void WritePdf(Handover handover, System.IO.Stream into)
    {
        var metadata = new SKDocumentPdfMetadata
        {
            Title = $"{handover.Project}: as-built plan",
            Subject = handover.Stamp,
            Author = handover.PreparedBy,
            Creator = "Aslaid",
            Producer = "Aslaid",
            Creation = handover.MadeAt.UtcDateTime,
            Modified = handover.MadeAt.UtcDateTime,
            PdfA = true,
            RasterDpi = 300,
            EncodingQuality = 101,
        };
        using var document = SKDocument.CreatePdf(into, metadata)
            ?? throw new InvalidOperationException("The drawing library could not begin a PDF.");
        var canvas = document.BeginPage(SheetFrame.Width * PointsPerMillimetre, SheetFrame.Height * PointsPerMillimetre);
        canvas.Scale(PointsPerMillimetre);
        PlanSheet.Draw(canvas, handover);
        document.EndPage();
        document.Close();
    }

    private static void WritePng(Handover handover, System.IO.Stream into)
    {
        var (width, height) = (Dots(SheetFrame.Width), Dots(SheetFrame.Height));
        using var bitmap = new SKBitmap(width, height, SKColorType.Rgba8888, SKAlphaType.Premul);
        using var canvas = new SKCanvas(bitmap);
        canvas.Scale(width / SheetFrame.Width, height / SheetFrame.Height);
        PlanSheet.Draw(canvas, handover);
        canvas.Flush();
        using var pixels = bitmap.PeekPixels();
        using var picture = pixels.Encode(new SKPngEncoderOptions(SKPngEncoderFilterFlags.Sub, 6))
            ?? throw new InvalidOperationException("The drawing library could not write a PNG.");
        picture.SaveTo(into);
    }

    private static int Dots(float millimetres) => (int)MathF.Round(millimetres * DotsPerInch / 25.4f);
}
