using System.Collections.Frozen;

namespace Aslaid.Exchange;

/// <summary>What every entity has.</summary>
/// <param name="Type">As the format calls it.</param>
/// <param name="Line">Line of the file at which it begins.</param>
/// <param name="Handle">Its number in the drawing; null in drawings without.</param>
internal readonly record struct DxfCommon(string Type, int Line, string? Handle, string Layer);

/// <summary>Something drawn, in units of the drawing, by itself or in a block.</summary>
internal abstract class DxfEntity(in DxfCommon common)
{
    public DxfCommon Common { get; } = common;

    /// <summary>How many vertices it adds wherever it is drawn.</summary>
    public virtual int Vertices => 1;

    public abstract void Draw(DxfTaken into, DxfFrame frame);
}

/// <summary>An entity that is not read.</summary>
internal sealed class DxfPassedOver(string type, string why) : DxfEntity(new(type, 0, null, "0"))
{
    private const string Lettering = "lettering is not read";
    private const string Filled = "a filled shape is no line";
    private const string Curved = "only straights and circular arcs are read; turn it into a polyline with arcs";
    private const string Note = "dimensions and notes are not read";
    private const string Endless = "it has no end";
    private const string Body = "of surfaces only 3DFACE is read";

    private static readonly FrozenSet<string> Read = FrozenSet.Create(StringComparer.Ordinal, "LINE", "POINT", "3DFACE", "ARC", "CIRCLE", "LWPOLYLINE", "POLYLINE", "VERTEX", "INSERT");

    public override void Draw(DxfTaken into, DxfFrame frame) => into.Skip(Common.Type, why);

    /// <summary>Why entities of a type are not read; null where they are.</summary>
    public static string? Why(string type) => type switch
    {
        _ when Read.Contains(type) => null,
        "TEXT" or "MTEXT" or "ATTRIB" or "ATTDEF" or "RTEXT" => Lettering,
        "HATCH" or "SOLID" or "TRACE" or "MPOLYGON" or "WIPEOUT" => Filled,
        "SPLINE" or "ELLIPSE" or "HELIX" or "MLINE" => Curved,
        "DIMENSION" or "ARC_DIMENSION" or "LARGE_RADIAL_DIMENSION" or "LEADER" or "MULTILEADER" or "TOLERANCE" or "ACAD_TABLE" => Note,
        "XLINE" or "RAY" => Endless,
        "3DSOLID" or "BODY" or "REGION" or "MESH" or "SURFACE" or "EXTRUDEDSURFACE" or "LOFTEDSURFACE" or "REVOLVEDSURFACE" or "SWEPTSURFACE" or "PLANESURFACE" => Body,
        "IMAGE" or "UNDERLAY" or "PDFUNDERLAY" or "DGNUNDERLAY" or "DWFUNDERLAY" or "OLEFRAME" or "OLE2FRAME" => "it shows another file",
        "VIEWPORT" => "it is a window of a sheet",
        _ => "entities of this type are not read",
    };
}
