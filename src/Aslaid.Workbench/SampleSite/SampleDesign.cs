using System.Security;
using System.Text;

namespace Aslaid.Workbench;

/// <summary>A line as it was designed: what a crew lays by it, it lays right.</summary>
internal sealed record DesignedRun(string Code, string Name, Trace Trace, Func<Spot, double, double> Level, bool Existing = false);

/// <summary>A point as it was designed.</summary>
internal sealed record DesignedSpot(string Code, string Name, Spot At, double Height);

/// <summary>Writes the design of a sample as LandXML: alignments with profiles, points, the finished ground as triangles.</summary>
/// <remarks>It owns the truth, so it shares no formula with the program that reads it.</remarks>
internal static class SampleDesign
{
    public const string FileName = "design.xml";
    private const int Step = 8; // m between points of the ground

    public static string Write(SiteFrame frame, IEnumerable<DesignedRun> runs, IEnumerable<DesignedSpot> spots)
    {
        var xml = new StringBuilder("<?xml version=\"1.0\" encoding=\"utf-8\"?>\n<LandXML xmlns=\"http://www.landxml.org/schema/LandXML-1.2\" version=\"1.2\" date=\"2026-03-01\" time=\"08:00:00\">\n<Units><Metric areaUnit=\"squareMeter\" linearUnit=\"meter\" volumeUnit=\"cubicMeter\" temperatureUnit=\"celsius\" pressureUnit=\"milliBars\"/></Units>\n");
        Points(xml, frame, spots);
        xml.Append("<Alignments name=\"design\">\n");
        foreach (var run in runs) Alignment(xml, frame, run);
        xml.Append("</Alignments>\n");
        Ground(xml, frame);
        return xml.Append("</LandXML>\n").ToString();
    }

    private static void Points(StringBuilder xml, SiteFrame frame, IEnumerable<DesignedSpot> spots)
    {
        xml.Append("<CgPoints name=\"points\">\n");
        foreach (var spot in spots.DistinctBy(spot => (spot.Code, Math.Round(spot.At.East), Math.Round(spot.At.North)))) xml.Append("<CgPoint name=\"").Append(SecurityElement.Escape(spot.Name)).Append("\" code=\"").Append(SecurityElement.Escape(spot.Code)).Append("\">").Append(Place(frame, spot.At, spot.Height)).Append("</CgPoint>\n");
        xml.Append("</CgPoints>\n");
    }

    private static void Alignment(StringBuilder xml, SiteFrame frame, DesignedRun run)
    {
        var (stops, bends) = (run.Trace.Stops, run.Trace.Bends);
        xml.Append(FormattableString.Invariant($"<Alignment name=\"{SecurityElement.Escape(run.Name)}\" desc=\"{SecurityElement.Escape(run.Code)}\" length=\"{run.Trace.PlanLength:R}\" staStart=\"0\"{(run.Existing ? " state=\"existing\"" : "")}>\n<CoordGeom>\n"));
        for (var i = 0; i + 1 < stops.Count;)
        {
            var bend = bends.FirstOrDefault(one => one.First == i && one.Radius > 0);
            if (bend.Radius == 0) xml.Append("<Line><Start>").Append(Place(frame, stops[i].At)).Append("</Start><End>").Append(Place(frame, stops[++i].At)).Append("</End></Line>\n");
            else if (bend.Sweep < 6)
            {
                Curve(xml, frame, bend, stops[bend.First].At, stops[bend.Last].At);
                i = bend.Last;
            }
            else
            {
                var start = stops[bend.First].At;
                var far = new Spot(2 * bend.Centre.East - start.East, 2 * bend.Centre.North - start.North);
                Curve(xml, frame, bend, start, far);
                Curve(xml, frame, bend, far, stops[bend.Last].At);
                i = bend.Last;
            }
        }

        xml.Append("</CoordGeom>\n<Profile><ProfAlign name=\"design\">\n");
        var last = double.NegativeInfinity;
        foreach (var stop in stops)
        {
            if (stop.Chainage <= last) continue;
            last = stop.Chainage;
            xml.Append(FormattableString.Invariant($"<PVI>{stop.Chainage:R} {run.Level(stop.At, stop.Chainage):R}</PVI>\n"));
        }

        xml.Append("</ProfAlign></Profile>\n</Alignment>\n");
    }

    private static void Curve(StringBuilder xml, SiteFrame frame, Trace.Bend bend, Spot from, Spot to) =>
        xml.Append(FormattableString.Invariant($"<Curve rot=\"{(bend.Left ? "ccw" : "cw")}\" radius=\"{bend.Radius:R}\"><Start>")).Append(Place(frame, from)).Append("</Start><Center>").Append(Place(frame, bend.Centre)).Append("</Center><End>").Append(Place(frame, to)).Append("</End></Curve>\n");

    private static void Ground(StringBuilder xml, SiteFrame frame)
    {
        const int west = -24, south = -72, columns = 36, rows = 27;
        xml.Append("<Surfaces><Surface name=\"Finished ground\"><Definition surfType=\"TIN\">\n<Pnts>\n");
        for (var row = 0; row < rows; row++)
            for (var column = 0; column < columns; column++)
            {
                var at = new Spot(west + Step * column, south + Step * row);
                xml.Append(FormattableString.Invariant($"<P id=\"{row * columns + column + 1}\">")).Append(Place(frame, at, SiteFrame.Ground(at))).Append("</P>\n");
            }

        xml.Append("</Pnts>\n<Faces>\n");
        for (var row = 0; row + 1 < rows; row++)
            for (var column = 0; column + 1 < columns; column++)
            {
                var corner = row * columns + column + 1;
                xml.Append(FormattableString.Invariant($"<F>{corner} {corner + 1} {corner + columns + 1}</F>\n<F>{corner} {corner + columns + 1} {corner + columns}</F>\n"));
            }

        xml.Append("</Faces>\n</Definition></Surface></Surfaces>\n");
    }

    private static string Place(SiteFrame frame, Spot at, double? height = null)
    {
        var (east, north) = frame.Place(at);
        return height is { } known ? FormattableString.Invariant($"{north:F6} {east:F6} {known:F6}") : FormattableString.Invariant($"{north:F6} {east:F6}");
    }
}
