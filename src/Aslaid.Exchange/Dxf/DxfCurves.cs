using Aslaid.Geometry;

namespace Aslaid.Exchange;

/// <summary>LINE.</summary>
internal sealed class DxfStraight(in DxfCommon common, DxfPlace first, DxfPlace last) : DxfEntity(common)
{
    public override void Draw(DxfTaken into, DxfFrame frame)
    {
        var chain = new PathChain();
        var (from, to) = (frame.By.Of(first), frame.By.Of(last));
        chain.Start(into.Place(from, Common.Line), into.Height(from, Common.Line));
        chain.LineTo(into.Place(to, Common.Line), into.Height(to, Common.Line));
        into.Line(Common, frame, chain.Build());
    }
}

/// <summary>POINT.</summary>
internal sealed class DxfDot(in DxfCommon common, DxfPlace at) : DxfEntity(common)
{
    public override void Draw(DxfTaken into, DxfFrame frame) => into.Point(Common, frame, frame.By.Of(at));
}

/// <summary>3DFACE; the last two corners of a triangle are the same.</summary>
internal sealed class DxfFace(in DxfCommon common, DxfPlace a, DxfPlace b, DxfPlace c, DxfPlace d) : DxfEntity(common)
{
    public override void Draw(DxfTaken into, DxfFrame frame) => into.Face(Common, frame, frame.By.Of(a), frame.By.Of(b), frame.By.Of(c), frame.By.Of(d));
}

/// <summary>ARC, anticlockwise in its own plane, degrees from x; CIRCLE from 0 to 360.</summary>
internal sealed class DxfArc(in DxfCommon common, bool below, DxfPlace centre, double radius, double start, double end) : DxfEntity(common)
{
    public override void Draw(DxfTaken into, DxfFrame frame)
    {
        var by = below ? frame.By.Over(DxfTransform.Below) : frame.By;
        if (radius == 0) into.Skip(Common.Type, "its radius is 0");
        else if (by.Scale is not { } scale) into.Skip(Common.Type, DxfChain.Askew);
        else if (Drawn(into, by, scale) is not { } arc) into.Skip(Common.Type, "it starts where it ends");
        else
        {
            var height = into.Elevation(by.Of(centre), Common.Line);
            var chain = new PathChain();
            chain.Start(arc.From, height);
            chain.ArcTo(arc, height);
            into.Line(Common, frame, chain.Build());
        }
    }

    private Arc? Drawn(DxfTaken into, in DxfTransform by, double scale)
    {
        var middle = by.Of(centre);
        var (from, to) = (End(into, by, middle, start), End(into, by, middle, end));
        var degrees = (end - start) % 360;
        if (degrees < 0) degrees += 360;
        if (degrees == 0 && start != end) degrees = 360;
        if (degrees > 180 && from == to) degrees = 360; // it lacks less of a circle than places can tell
        if (degrees == 0 || (from == to && degrees < 360)) return null;
        var sweep = degrees == 360 ? double.Tau : double.DegreesToRadians(degrees);
        return Arc.FromParts(from, degrees == 360 ? from : to, into.Place(middle, Common.Line), into.Radius(scale * radius, Common.Line), sweep, by.Mirrors ? Turn.Right : Turn.Left);
    }

    private Point2 End(DxfTaken into, in DxfTransform by, in DxfPlace middle, double degrees)
    {
        var (sin, cos) = DxfTransform.SinCos(degrees);
        var step = by.Way(radius * cos, radius * sin);
        return into.Place(new(middle.X + step.X, middle.Y + step.Y, 0), Common.Line);
    }
}

/// <summary>LWPOLYLINE, and POLYLINE in plan: straights and arcs at one elevation.</summary>
internal sealed class DxfChain(in DxfCommon common, bool below, DxfVertex[] corners, double elevation, bool closed) : DxfEntity(common)
{
    public const string Askew = "it lies in a block whose scales differ by the way, so its arcs are no longer circular";
    private const double Flat = 1e-7; // m: an arc that leaves its chord by less is a straight with a rounding

    public override int Vertices => corners.Length;

    private int Pieces => closed ? corners.Length : corners.Length - 1;

    public override void Draw(DxfTaken into, DxfFrame frame)
    {
        var by = below ? frame.By.Over(DxfTransform.Below) : frame.By;
        if (by.Scale is null && HasArc())
        {
            into.Skip(Common.Type, Askew);
            return;
        }

        var chain = new PathChain();
        for (var i = 0; i <= Pieces && corners.Length > 0; i++)
        {
            var corner = corners[i % corners.Length];
            var place = by.Of(new(corner.X, corner.Y, elevation));
            var (at, height) = (into.Place(place, Common.Line), into.Elevation(place, Common.Line));
            if (!chain.IsStarted) chain.Start(at, height);
            else Go(chain, at, height, by.Mirrors ? -corners[i - 1].Bulge : corners[i - 1].Bulge);
        }

        into.Line(Common, frame, chain.Build());
    }

    private void Go(PathChain chain, Point2 at, double? height, double bulge)
    {
        var chord = chain.End.DistanceTo(at);
        if (chord == 0 || Math.Abs(bulge) * chord / 2 <= Flat)
        {
            chain.LineTo(at, height);
            return;
        }

        var sweep = 4 * Math.Atan(Math.Abs(bulge));
        if (Math.Abs(bulge) > 1 && !(sweep < double.Tau && chord * Math.Abs(bulge) / 2 <= DesignGather.Farthest)) // almost twice its radius
            throw new DesignRefusedException(Common.Line, FormattableString.Invariant($"{bulge:R}"), "is a bulge of no arc on a site; one with a radius within 100 000 km was expected");
        chain.ArcTo(Arc.OfSweep(chain.End, at, sweep, bulge > 0 ? Turn.Left : Turn.Right), height);
    }

    private bool HasArc()
    {
        for (var i = 0; i < Pieces; i++)
            if (corners[i].Bulge != 0) return true;
        return false;
    }
}

/// <summary>POLYLINE in space: straights, a height at every vertex.</summary>
internal sealed class DxfSpaceChain(in DxfCommon common, DxfVertex[] corners, bool closed) : DxfEntity(common)
{
    public override int Vertices => corners.Length;

    public override void Draw(DxfTaken into, DxfFrame frame)
    {
        var chain = new PathChain();
        var before = double.NaN;
        for (var i = 0; i < (closed ? corners.Length + 1 : corners.Length) && corners.Length > 0; i++)
        {
            var corner = corners[i % corners.Length];
            var place = frame.By.Of(new(corner.X, corner.Y, corner.Z));
            var (at, height) = (into.Place(place, Common.Line), into.Height(place, Common.Line));
            if (!chain.IsStarted) chain.Start(at, height);
            else if (at == chain.End && height != before) into.Skip("vertical piece of a POLYLINE", "it has no length in plan");
            else chain.LineTo(at, height);
            before = height;
        }

        into.Line(Common, frame, chain.Build());
    }
}
