using System.Globalization;
using System.Text;
using Aslaid.Exchange;
using static Aslaid.Tests.DxfByHand;

namespace Aslaid.Tests;

public class DxfDesignReaderTests
{
    private const double E = 512_000;
    private const double N = 6_243_000;
    private const string Tee = "0 BLOCK|2 TEE|70 0|10 100|20 200|30 1|0 LINE|8 0|10 100|20 200|30 1|11 103|21 200|31 1|0 ARC|8 ARCS|10 100|20 200|30 1|40 2|50 0|51 90|0 ENDBLK|8 0";

    [Fact]
    public void Read_Line_HasItsPlacesHeightsNameAndLayer()
    {
        var line = Assert.Single(Read(Of("0 LINE|5 2F|8 KERB|10 512000.125|20 6243000.5|30 7.25|11 512010|21 6243000|31 7.5")).Lines);
        Assert.Equal("2F", line.Name);
        Assert.Equal(["KERB", "2F"], line.Words);
        Assert.Equal(new(new(E + 0.125, N + 0.5), 7.25, false), line.Path.Vertices[0]);
        Assert.Equal(new(new(E + 10, N), 7.5, false), line.Path.Vertices[1]);
    }

    [Fact]
    public void Read_NoHandles_NamesAreLayersAndNumbers()
    {
        var design = Read(Of("0 LINE|8 KERB|10 0|20 0|11 1|21 0|0 LINE|8 PIPE|10 0|20 0|11 1|21 1|0 LINE|8 KERB|10 0|20 0|11 1|21 2"));
        Assert.Equal(["KERB 1", "PIPE 1", "KERB 2"], design.Lines.Select(line => line.Name));
    }

    [Fact]
    public void Read_ArcFromAbove_TurnsLeft()
    {
        var arc = OnlyArc(Read(Of("0 ARC|8 KERB|10 512000|20 6243000|40 10|50 350|51 80")));
        Assert.Equal((10, Turn.Left), (arc.Radius, arc.Turn));
        Assert.Equal(Math.PI / 2, arc.Sweep, 1e-12);
        Near(new(E + 10 * Math.Cos(Math.PI / 18), N - 10 * Math.Sin(Math.PI / 18)), arc.From);
        Near(new(E + 10 * Math.Sin(Math.PI / 18), N + 10 * Math.Cos(Math.PI / 18)), arc.To);
        Assert.Equal(new Point2(E, N), arc.Centre);
    }

    [Fact]
    public void Read_ArcFromBelow_TurnsRight()
    {
        var arc = OnlyArc(Read(Of("0 ARC|8 KERB|10 -512000|20 6243000|40 10|50 0|51 90|210 0|220 0|230 -1")));
        Assert.Equal(Turn.Right, arc.Turn);
        Near(new(E - 10, N), arc.From);
        Near(new(E, N + 10), arc.To);
        Near(new(E, N), arc.Centre);
    }

    [Theory]
    [InlineData("50 0|51 360", 360)]
    [InlineData("50 90|51 -270", 360)]
    [InlineData("50 90|51 450", 360)]
    [InlineData("50 359|51 1", 2)]
    [InlineData("50 -10|51 370", 20)]
    public void Read_ArcAngles_CountRound(string angles, double degrees) =>
        Assert.Equal(double.DegreesToRadians(degrees), OnlyArc(Read(Of($"0 ARC|8 K|10 512000|20 6243000|40 10|{angles}"))).Sweep, 1e-12);

    [Fact]
    public void Read_Circle_IsAFullTurn()
    {
        var design = Read(Of("0 CIRCLE|8 PIT|10 512000|20 6243000|30 4|40 0.75"));
        var arc = OnlyArc(design);
        Assert.True(arc.IsFullCircle);
        Assert.Equal((0.75, new Point2(E, N)), (arc.Radius, arc.Centre));
        Assert.Equal(4, design.Lines[0].Path.HeightAt(1));
        Assert.True(design.Lines[0].Path.IsClosed);
    }

    [Fact]
    public void Read_LightPolyline_BulgesTurnLeftAndRight()
    {
        var design = Read(Of("0 LWPOLYLINE|8 KERB|90 4|70 0|43 0.0|38 3.5|10 512000|20 6243000|10 512010|20 6243000|42 0.41421356237309503|10 512020|20 6243010|42 -0.41421356237309503|10 512030|20 6243020"));
        var path = Assert.Single(design.Lines).Path;
        Assert.Equal([PieceKind.Straight, PieceKind.Arc, PieceKind.Arc], path.Pieces.Select(piece => piece.Kind));
        var (left, right) = (path.Pieces[1].Arc, path.Pieces[2].Arc);
        Assert.Equal((Turn.Left, Turn.Right), (left.Turn, right.Turn));
        Assert.Equal(10, left.Radius, 1e-9);
        Assert.Equal(Math.PI / 2, right.Sweep, 1e-12);
        Near(new(E + 10, N + 10), left.Centre);
        Near(new(E + 30, N + 10), right.Centre);
        Assert.All(path.Vertices, vertex => Assert.Equal(3.5, vertex.Height));
    }

    [Fact]
    public void Read_ClosedLightPolyline_ComesBackByTheLastBulge()
    {
        var path = Assert.Single(Read(Of("0 LWPOLYLINE|8 KERB|90 2|70 1|10 512000|20 6243000|42 0|10 512010|20 6243000|42 1")).Lines).Path;
        Assert.True(path.IsClosed);
        Assert.Equal(Math.PI, path.Pieces[1].Arc.Sweep, 1e-12);
        Near(new(E + 5, N + 5), path.Pieces[1].Arc.MidPoint);
        Assert.Equal(Math.PI * 25 / 2, path.SignedArea!.Value, 1e-6);
        Assert.All(path.Vertices, vertex => Assert.Null(vertex.Height)); // elevation 0 says nothing
    }

    [Fact]
    public void Read_OldPolyline_BulgesAndElevation()
    {
        var design = Read(Of("0 POLYLINE|8 KERB|66 1|10 0|20 0|30 2|70 1|0 VERTEX|8 KERB|10 512000|20 6243000|42 1|0 VERTEX|8 KERB|10 512010|20 6243000|0 SEQEND|8 KERB|0 POINT|8 P|10 0|20 0"));
        var path = Assert.Single(design.Lines).Path;
        Assert.Equal(2, path.Pieces.Length);
        Near(new(E + 5, N - 5), path.Pieces[0].Arc.MidPoint);
        Assert.All(path.Vertices, vertex => Assert.Equal(2, vertex.Height));
        Assert.Equal(0, Assert.Single(design.Points).Height); // another height is not 0
    }

    [Fact]
    public void Read_OldFlatPolylineWithUnevenVertices_SaysThatTheirHeightsDoNotCount()
    {
        var design = Read(Of("0 POLYLINE|8 KERB|30 0|70 0|0 VERTEX|10 0|20 0|30 5|0 VERTEX|10 9|20 0|30 6|0 SEQEND"));
        Assert.All(Assert.Single(design.Lines).Path.Vertices, vertex => Assert.Null(vertex.Height));
        Assert.Contains("heights of the vertices of a flat POLYLINE skipped: by the format it has one elevation only.", design.Skipped);
    }

    [Fact]
    public void Read_SpacePolyline_HeightAtEveryVertex()
    {
        var design = Read(Of("0 POLYLINE|8 PIPE|70 9|0 VERTEX|70 32|10 512000|20 6243000|30 1|0 VERTEX|10 512010|20 6243000|30 2|0 VERTEX|10 512010|20 6243000|30 5|0 VERTEX|10 512010|20 6243010|30 3|0 SEQEND"));
        var path = Assert.Single(design.Lines).Path;
        Assert.Equal([1, 2, 3, 1], path.Vertices.Select(vertex => vertex.Height!.Value));
        Assert.True(path.IsClosed);
        Assert.Equal(["vertical piece of a POLYLINE skipped: it has no length in plan."], design.Skipped);
    }

    [Fact]
    public void Read_SplineFrame_IsNotOnTheLine()
    {
        var path = Assert.Single(Read(Of("0 POLYLINE|8 K|70 4|0 VERTEX|70 16|10 0|20 0|0 VERTEX|70 8|10 1|20 0|0 VERTEX|70 8|10 2|20 1|0 VERTEX|70 16|10 9|20 9|0 SEQEND")).Lines).Path;
        Assert.Equal([new(1, 0), new Point2(2, 1)], path.Vertices.Select(vertex => vertex.At));
    }

    [Fact]
    public void Read_Symbol_IsAlsoAPointNamedByItsBlock()
    {
        var design = Read(Of("0 INSERT|2 LAMP|8 FURNITURE|10 100|20 200|30 5|41 2|42 2|50 30|0 INSERT|2 LAMP|8 FURNITURE|10 110|20 200|30 5", "0 BLOCK|2 LAMP|10 1|20 1|30 0|0 CIRCLE|8 0|10 1|20 1|40 0.2|0 ENDBLK"));
        Assert.Equal(["LAMP", "LAMP (2)"], design.Points.Select(point => point.Name));
        Assert.Equal(new Point2(100, 200), design.Points[0].At);
        Assert.Equal(["FURNITURE", "LAMP"], design.Points[0].Words.Take(2));
        Assert.Equal(2, design.Lines.Length);
    }

    [Fact]
    public void Read_EveryHeightZero_HasNoHeightsAndSaysSo()
    {
        var design = Read(Of("0 LINE|8 K|10 0|20 0|30 0|11 5|21 0|31 0|0 POINT|8 P|10 1|20 1|30 0.0|0 3DFACE|8 F|10 0|20 0|30 0|11 1|21 0|31 0|12 1|22 1|32 0|13 1|23 1|33 0"));
        Assert.All(design.Lines[0].Path.Vertices, vertex => Assert.Null(vertex.Height));
        Assert.Null(design.Points[0].Height);
        Assert.Empty(design.Surfaces);
        Assert.Equal(["Every height in the drawing is 0: it is taken as flat, without heights.", "surface F skipped: every height in the drawing is 0."], design.Skipped);
    }

    [Fact]
    public void Read_OneHeightNotZero_TheOthersAreZero()
    {
        var design = Read(Of("0 LINE|8 K|10 0|20 0|11 5|21 0|0 POINT|8 P|10 1|20 1|0 POINT|8 P|10 1|20 2|30 0.001|0 LINE|8 K|10 0|20 0|11 5|21 5"));
        Assert.All(design.Lines, line => Assert.All(line.Path.Vertices, vertex => Assert.Equal(0, vertex.Height)));
        Assert.Equal([0, 0.001], design.Points.Select(point => point.Height!.Value));
        Assert.Equal(["K 1", "K 2"], design.Lines.Select(line => line.Name));
        Assert.Empty(design.Skipped);
    }

    [Fact]
    public void Read_Faces_ALayerIsASurface()
    {
        var design = Read(Of(
            "0 3DFACE|8 GROUND|10 512000|20 6243000|30 1|11 512010|21 6243000|31 2|12 512010|22 6243010|32 3|13 512000|23 6243010|33 2|" +
            "0 3DFACE|8 GROUND|10 512010|20 6243000|30 2|11 512020|21 6243000|31 3|12 512010|22 6243010|32 3|" +
            "0 3DFACE|8 ROCK|10 512000|20 6243000|30 0|11 512010|21 6243000|31 0|12 512010|22 6243010|32 0|13 512010|23 6243010|33 0|" +
            "0 3DFACE|8 WALL|10 512000|20 6243000|30 0|11 512010|21 6243000|31 0|12 512010|22 6243000|32 4|13 512000|23 6243000|33 4"));
        Assert.Equal([("GROUND", 3), ("ROCK", 1)], design.Surfaces.Select(surface => (surface.Name, surface.Tin.TriangleCount)));
        Assert.Equal(1.5, design.Surfaces[0].Tin.HeightAt(new(E + 3, N + 2))!.Value, 1e-9);
        Assert.Equal(2.7, design.Surfaces[0].Tin.HeightAt(new(E + 15, N + 2))!.Value, 1e-9);
        Assert.Equal(0, design.Surfaces[1].Tin.HeightAt(new(E + 8, N + 2)));
        Assert.Equal(["3DFACE skipped: it has no area in plan."], design.Skipped);
    }

    [Fact]
    public void Read_Insert_ScaledTurnedAndMovedFromItsBase()
    {
        var design = Read(Of("0 INSERT|8 KERB|2 tee|10 512000|20 6243000|30 5|41 2|42 2|43 2|50 90", Tee));
        Assert.Equal(2, design.Lines.Length);
        var straight = design.Lines[0].Path;
        Assert.Equal([new(new(E, N), 5, false), new PathVertex(new(E, N + 6), 5, false)], straight.Vertices);
        var arc = design.Lines[1].Path.Pieces[0].Arc;
        Assert.Equal((4, Turn.Left), (arc.Radius, arc.Turn));
        Assert.Equal(new Point2(E, N + 4), arc.From);
        Assert.Equal(new Point2(E - 4, N), arc.To);
        Assert.Equal(["KERB", "TEE", "KERB 1"], design.Lines[0].Words);
        Assert.Equal(["ARCS", "TEE", "ARCS 1"], design.Lines[1].Words);
    }

    [Fact]
    public void Read_MirroredInsert_FlipsTheTurn()
    {
        var arc = Read(Of("0 INSERT|8 KERB|2 TEE|10 512000|20 6243000|41 -1|42 1", Tee)).Lines[1].Path.Pieces[0].Arc;
        Assert.Equal((2, Turn.Right), (arc.Radius, arc.Turn));
        Assert.Equal(new Point2(E - 2, N), arc.From);
        Assert.Equal(new Point2(E, N + 2), arc.To);
    }

    [Fact]
    public void Read_InsertFromBelow_MirrorsPlaceAndTurn()
    {
        var design = Read(Of("0 INSERT|8 KERB|2 TEE|10 -512000|20 6243000|30 -6|50 90|210 0|220 0|230 -1", Tee));
        Assert.Equal([new(new(E, N), 6, false), new PathVertex(new(E, N + 3), 6, false)], design.Lines[0].Path.Vertices);
        var arc = design.Lines[1].Path.Pieces[0].Arc;
        Assert.Equal(Turn.Right, arc.Turn);
        Assert.Equal(new Point2(E + 2, N), arc.To);
        Assert.Equal(6, design.Lines[1].Path.HeightAt(0));
    }

    [Fact]
    public void Read_UnequalScales_KeepLinesAndPassOverArcs()
    {
        const string askew = "it lies in a block whose scales differ by the way, so its arcs are no longer circular";
        var bulged = Tee.Replace("0 ENDBLK", "0 LWPOLYLINE|8 B|90 2|70 0|10 100|20 200|42 1|10 101|20 200|0 LWPOLYLINE|8 C|90 2|70 0|10 100|20 200|10 101|20 201|42 1|0 ENDBLK", StringComparison.Ordinal);
        var design = Read(Of("0 INSERT|8 KERB|2 TEE|10 512000|20 6243000|41 2|42 3", bulged));
        Assert.Equal([6, Math.Sqrt(13)], design.Lines.Select(line => line.Path.PlanLength), (a, b) => Math.Abs(a - b) < 1e-9);
        Assert.Equal([$"ARC skipped: {askew}.", $"LWPOLYLINE skipped: {askew}."], design.Skipped.Take(2));
    }

    [Fact]
    public void Read_NestedInserts_TakeTheOuterLayerAndAllNames()
    {
        var blocks = Tee + "|0 BLOCK|2 PAIR|10 0|20 0|0 INSERT|8 0|2 TEE|10 10|20 0|50 180|0 ENDBLK";
        var design = Read(Of("0 INSERT|8 KERB|2 PAIR|10 512000|20 6243000|41 2|42 -2", blocks));
        var straight = design.Lines[0];
        Assert.Equal(["KERB", "TEE", "PAIR", "KERB 1"], straight.Words);
        Assert.Equal([new Point2(E + 20, N), new(E + 14, N)], straight.Path.Vertices.Select(vertex => vertex.At));
        var arc = design.Lines[1].Path.Pieces[0].Arc;
        Assert.Equal((4, Turn.Right), (arc.Radius, arc.Turn));
        Assert.Equal(new Point2(E + 20, N + 4), arc.To);
    }

    [Fact]
    public void Read_Array_RowsAndColumnsAreTurnedAndNotScaled()
    {
        var blocks = "0 BLOCK|2 DOT|10 0|20 0|0 POINT|8 0|10 1|20 0|30 0|0 ENDBLK";
        var design = Read(Of("0 INSERT|8 PILES|2 DOT|10 512000|20 6243000|41 3|42 3|50 90|70 3|71 2|44 10|45 20", blocks));
        Assert.Equal(
            [(0.0, 3.0), (0, 13), (0, 23), (-20, 3), (-20, 13), (-20, 23)],
            design.Points.Select(point => (point.At.East - E, point.At.North - N)));
    }

    [Theory]
    [InlineData(1, 0.0254)]
    [InlineData(2, 0.3048)]
    [InlineData(4, 0.001)]
    [InlineData(5, 0.01)]
    [InlineData(6, 1)]
    [InlineData(7, 1000)]
    [InlineData(10, 0.9144)]
    [InlineData(21, 1200.0 / 3937)]
    public void Read_Units_AreExactRatios(int unit, double metres)
    {
        var design = Read(Of("0 LINE|8 K|10 0|20 0|30 0|11 3937|21 0|31 20|0 CIRCLE|8 K|10 0|20 0|40 3937", header: $"9 $INSUNITS|70 {unit}"), 5);
        Assert.Equal(3937 * metres, design.Lines[0].Path.PlanLength, 1e-9);
        if (unit == 21) Assert.Equal(1200, design.Lines[0].Path.Vertices[1].At.East);
        Assert.Equal(20 * metres, design.Lines[0].Path.Vertices[1].Height!.Value, 1e-12);
        Assert.Equal(3937 * metres, design.Lines[1].Path.Pieces[0].Arc.Radius, 1e-9);
        Assert.Empty(design.Skipped);
    }

    [Fact]
    public void Read_NoUnit_IsWhatWasToldOrMetresWithARemark()
    {
        var drawing = Of("0 LINE|8 K|10 0|20 0|30 1|11 10|21 0|31 1", header: "9 $INSUNITS|70 0");
        Assert.Equal(3.048, Read(drawing, 0.3048).Lines[0].Path.PlanLength, 1e-12);
        Assert.Empty(Read(drawing, 0.3048).Skipped);
        Assert.Equal(10, Read(drawing).Lines[0].Path.PlanLength);
        Assert.Equal(["The drawing states no unit ($INSUNITS): metres are assumed."], Read(drawing).Skipped);
        Assert.Contains("no length", Refused(drawing, double.NaN).Expected, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_WhatIsNoLine_IsCountedWithItsReason()
    {
        var design = Read(Of(
            "0 TEXT|8 T|10 x|1 hello|0 TEXT|8 T|0 HATCH|91 1|10 1|10 2|0 SPLINE|8 S|0 ELLIPSE|8 S|0 DIMENSION|2 *D1|0 NOVELTY|8 S|" +
            "0 LINE|8 K|67 1|10 0|20 0|11 1|21 0|0 LINE|8 K|60 1|10 0|20 0|11 1|21 0|0 LINE|8 K|10 0|20 0|30 1|11 0|21 0|31 2|" +
            "0 ARC|8 K|10 0|20 0|40 0|50 0|51 9|0 ARC|8 K|10 0|20 0|40 1|50 9|51 9|0 CIRCLE|8 K|10 0|20 0|40 1|210 1|220 0|230 0|" +
            "0 POLYLINE|8 M|70 64|0 VERTEX|70 192|10 0|20 0|0 VERTEX|70 128|71 1|0 SEQEND|0 INSERT|8 K|2 LOST|66 1|10 0|20 0|0 ATTRIB|8 K|0 SEQEND|" +
            "0 INSERT|8 K|2 AWAY|10 0|20 0|0 INSERT|8 K|2 HERE|41 0|10 0|20 0|0 POINT|8 P|10 1|20 1|30 1",
            "0 BLOCK|2 AWAY|70 4|10 0|20 0|0 ENDBLK|0 BLOCK|2 HERE|70 0|10 0|20 0|0 ENDBLK"));
        Assert.Equal(
            ["2 × TEXT skipped: lettering is not read.", "HATCH skipped: a filled shape is no line.", "SPLINE skipped: only straights and circular arcs are read; turn it into a polyline with arcs.",
                "ELLIPSE skipped: only straights and circular arcs are read; turn it into a polyline with arcs.", "DIMENSION skipped: dimensions and notes are not read.", "NOVELTY skipped: entities of this type are not read.",
                "LINE skipped: it lies in paper space.", "LINE skipped: it is marked invisible.", "LINE skipped: it has no length in plan.",
                "ARC skipped: its radius is 0.", "ARC skipped: it starts where it ends.", "CIRCLE skipped: its extrusion is not vertical: it does not lie in plan.",
                "POLYLINE skipped: it is a mesh; of surfaces only 3DFACE is read.", "INSERT skipped: the drawing has no block LOST.", "ATTRIB skipped: lettering is not read.",
                "INSERT skipped: block AWAY lies in another file; bind it into the drawing.", "INSERT skipped: its scale is 0."],
            design.Skipped);
        Assert.Single(design.Points);
        Assert.Empty(design.Lines);
    }

    [Fact]
    public void Read_GroupsOfOtherPrograms_AreNotTheEntitys()
    {
        var design = Read(Of("0 LINE|5 A1|102 {OTHER|10 99|5 FF|102 }|8 K|10 0|20 0|30 1|11 1|21 0|31 1|1001 ACAD|1010 7|1020 7|1040 x"));
        Assert.Equal("A1", design.Lines[0].Name);
        Assert.Equal(new Point2(0, 0), design.Lines[0].Path.Vertices[0].At);
    }

    [Fact]
    public void Read_RoundedBulge_IsAStraight()
    {
        var design = Read(Of("0 LWPOLYLINE|8 K|90 2|10 512000|20 6243000|42 1e-10|10 512100|20 6243000"));
        Assert.Equal(PieceKind.Straight, design.Lines[0].Path.Pieces[0].Kind);
    }

    [Fact]
    public void Read_LineEndsCommentsAndMark_DoNotMatter()
    {
        var drawing = "999\r\na comment\r\n" + Of("0 LINE|8 K|10 0|20 0|30 1|11 1|21 0|31 1", lineEnd: "\r\n");
        Assert.Single(Read("\uFEFF" + drawing).Lines);
        Assert.Single(Intake(Encoding.UTF8.GetBytes(drawing.TrimEnd()), name: "design.txt").Design!.Lines);
        Assert.Single(Read(Pairs("0 SECTION|2 ENTITIES|0 LINE|8 K|10 0|20 0|11 1|21 0|0 ENDSEC|0 EOF")).Lines);
        Assert.Single(Read(drawing.Replace("EOF", "EOF\r\n\u001a\r\n", StringComparison.Ordinal)).Lines);
    }

    [Theory]
    [InlineData("AC1009", "ANSI_1252", 1252)]
    [InlineData("AC1015", "ANSI_1252", 1252)]
    [InlineData("AC1015", "ANSI_1250", 1250)]
    [InlineData("AC1009", "dos850", 850)]
    [InlineData("AC1032", "ANSI_1252", 65001)]
    [InlineData("AC1032", "ANSI_1250", 65001)]
    [InlineData("AC1015", "ANSI_1252", 65001)]
    [InlineData("AC1032", "", 1252)]
    public void Read_Names_OfTheirCodePage(string version, string page, int written)
    {
        Encoding.RegisterProvider(CodePagesEncodingProvider.Instance);
        var drawing = Of("0 LINE|8 Böschung ä|10 0|20 0|11 1|21 0", header: $"9 $ACADVER|1 {version}|9 $DWGCODEPAGE|3 {page}");
        Assert.Equal("Böschung ä", Intake(Encoding.GetEncoding(written).GetBytes(drawing)).Design!.Lines[0].Words[0]);
    }

    [Fact]
    public void Read_EscapedName_IsUnescaped() =>
        Assert.Equal("Grün 1", Read(Of("0 LINE|8 Gr\\U+00FCn|10 0|20 0|11 1|21 0")).Lines[0].Name);

    [Fact]
    public void Read_DecimalCommaCulture_Same()
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.Equal(1.5, Read(Of("0 LINE|8 K|10 0|20 0|11 1.5|21 0")).Lines[0].Path.PlanLength);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Theory]
    [InlineData("10 nan", 24, "is not plausible")]
    [InlineData("10 1e300", 24, "is not plausible")]
    [InlineData("10 1,5", 24, "is not a number")]
    [InlineData("10 5x", 24, "is not a number")]
    [InlineData("10", 24, "is not a number")]
    [InlineData("10 300000000", 20, "is a place on no grid")]
    [InlineData("10 0|30 200000", 20, "is a height of no site")]
    [InlineData("8 K", 20, "lacks group code 10")]
    [InlineData("10 0|x 5", 25, "is no group code")]
    [InlineData("10 0|99999 5", 25, "is no group code")]
    public void Read_BadLine_IsRefusedWithItsLine(string groups, int line, string expected)
    {
        var refused = Refused(Of($"0 LINE|8 K|{groups}|20 0|11 1|21 0"));
        Assert.Equal(line, refused.Line);
        Assert.StartsWith(expected, refused.Expected, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("0 LWPOLYLINE|8 K|90 3|10 0|20 0|10 1|20 1", "says that it has 3 vertices and holds 2")]
    [InlineData("0 LWPOLYLINE|8 K|10 0|10 1|20 1", "has a vertex that lacks group code 20")]
    [InlineData("0 LWPOLYLINE|8 K|10 0|20 0|10 1", "has a vertex that lacks group code 20")]
    [InlineData("0 LWPOLYLINE|8 K|42 1|10 0|20 0", "comes before the first vertex")]
    [InlineData("0 LWPOLYLINE|8 K|10 0|20 0|42 1e14|10 1|20 0", "is a bulge of no arc")]
    [InlineData("0 LWPOLYLINE|8 K|70 x|10 0|20 0", "is not a whole number")]
    [InlineData("0 POLYLINE|8 K|0 VERTEX|10 0|20 0|0 LINE|8 K", "comes before a POLYLINE has ended")]
    [InlineData("0 VERTEX|10 0|20 0", "belongs to no POLYLINE")]
    [InlineData("0 ARC|10 0|20 0|40 -1|50 0|51 1", "has a radius below 0")]
    [InlineData("0 ARC|10 0|20 0|40 1|50 0", "lacks group code 51")]
    [InlineData("0 CIRCLE|10 0|20 0|40 1|230 0", "has an extrusion of 0, 0, 0")]
    [InlineData("0 CIRCLE|10 0|20 0|40 2e8", "is a place on no grid")]
    [InlineData("0 INSERT|10 0|20 0", "lacks group code 2")]
    [InlineData("0 INSERT|2 B|70 -1|10 0|20 0", "has fewer than no rows")]
    [InlineData("9 LINE", "stands before the first entity")]
    [InlineData("0 LINE|10 0|20 0|11 1|21 0|0 EOF", "comes before section ENTITIES has ended")]
    [InlineData("0 LINE|10 0|20 0|11 1|21 0|0 SECTION", "comes before section ENTITIES has ended")]
    [InlineData("0 ENDSEC|0 LINE", "stands outside the sections")]
    [InlineData("0 ENDSEC|0 SECTION|0 LINE", "follows SECTION")]
    [InlineData("0 ENDSEC|0 SECTION|2 BLOCKS", "comes after the section ENTITIES")]
    [InlineData("0 ENDSEC|0 SECTION|2 OBJECTS|0 DICTIONARY|0 EOF", "comes before section OBJECTS has ended")]
    public void Read_BadEntity_IsRefused(string entities, string expected) =>
        Assert.StartsWith(expected, Refused(Of(entities)).Expected, StringComparison.Ordinal);

    [Theory]
    [InlineData("0 BLOCK|2 A|10 0|20 0|0 INSERT|2 A|10 0|20 0|0 ENDBLK", "A", "is a block that is inserted in itself")]
    [InlineData("0 BLOCK|2 A|10 0|20 0|0 INSERT|2 B|10 0|20 0|0 ENDBLK|0 BLOCK|2 B|10 0|20 0|0 INSERT|2 A|10 0|20 0|0 ENDBLK", "A", "is a block that is inserted in itself")]
    [InlineData("0 BLOCK|2 A|10 0|20 0|0 ENDBLK|0 BLOCK|2 a|10 0|20 0|0 ENDBLK", "A", "is inserted here and is the name of two blocks")]
    [InlineData("0 BLOCK|2 A|10 0|20 0|0 INSERT|2 B|70 32767|71 32767|10 0|20 0|0 ENDBLK|0 BLOCK|2 B|10 0|20 0|0 ENDBLK", "INSERT", "makes the blocks of the drawing grow")]
    [InlineData("0 BLOCK|2 A|10 0|20 0|0 POINT|10 0|20 0", "ENDSEC", "comes before block A has ended")]
    [InlineData("0 BLOCK|10 0|20 0|0 ENDBLK", "BLOCK", "lacks group code 2")]
    [InlineData("0 LINE|10 0|20 0", "LINE", "stands between blocks")]
    public void Read_BadBlock_IsRefused(string blocks, string found, string expected)
    {
        var refused = Refused(Of("0 INSERT|8 K|2 A|10 0|20 0", blocks));
        Assert.Equal(found, refused.Found);
        Assert.StartsWith(expected, refused.Expected, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_BlocksThatGrow_AreRefused()
    {
        var blocks = string.Join('|', Enumerable.Range(0, 34).Select(i => $"0 BLOCK|2 B{i}|10 0|20 0|0 INSERT|2 B{i + 1}|10 0|20 0|70 COUNT|0 ENDBLK"));
        Assert.StartsWith("is a block within 32 others", Refused(Of("0 INSERT|2 B0|10 0|20 0", blocks.Replace("COUNT", "1", StringComparison.Ordinal))).Expected, StringComparison.Ordinal);
        blocks = blocks.Replace("B30|10 0|20 0|70", "NONE|10 0|20 0|70", StringComparison.Ordinal).Replace("COUNT", "3", StringComparison.Ordinal);
        Assert.StartsWith("makes the blocks", Refused(Of("0 INSERT|2 B0|10 0|20 0", blocks)).Expected, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(11)]
    [InlineData(18)]
    [InlineData(-1)]
    [InlineData(25)]
    public void Read_StrangeUnit_IsRefused(int unit)
    {
        var refused = Refused(Of("0 LINE|8 K|10 0|20 0|11 1|21 0", header: $"9 $INSUNITS|70 {unit}"));
        Assert.StartsWith("is a unit ($INSUNITS) in which no site is drawn", refused.Expected, StringComparison.Ordinal);
        Assert.Equal(8, refused.Line);
    }

    [Fact]
    public void Read_Truncated_IsRefusedWhereverItIsCut()
    {
        var drawing = Of("0 LINE|8 K|10 0|20 0|11 1|21 0|0 INSERT|2 TEE|10 0|20 0|0 POLYLINE|70 8|0 VERTEX|10 0|20 0|0 SEQEND", Tee);
        Assert.Equal(3, Read(drawing).Lines.Length);
        for (var length = 1; length < drawing.Length - 4; length++) Assert.NotNull(Refused(drawing[..length]));
        Assert.Equal("the file ends here without EOF; a whole DXF was expected: it is cut short, save it again", Refused(drawing[..^8]).Expected);
    }

    [Fact]
    public void Read_OtherFiles_AreRefused()
    {
        Assert.Contains("binary DXF", Refused("Drawing Binary DXF\r\n\u001a\0").Expected, StringComparison.Ordinal);
        Assert.Contains("binary DXF", Intake("Drawing Binary DXF\r\n\u001a\0"u8.ToArray(), name: "x").Refused!.Expected, StringComparison.Ordinal);
        Assert.Contains("longer than", Refused("  0\nSECTION\n" + new string('x', 65_537)).Expected, StringComparison.Ordinal);
        Assert.Contains("no section ENTITIES", Refused(Pairs("0 SECTION|2 HEADER|0 ENDSEC|0 EOF")).Expected, StringComparison.Ordinal);
        Assert.Contains("no kind of file", Intake("id,east,north\n"u8.ToArray(), name: "shots.csv").Refused!.Expected, StringComparison.Ordinal);
        Assert.Contains("is no group code", Refused("id,east,north\n").Expected, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_LongFileInSmallBits_IsTheSame()
    {
        var entities = string.Join('|', Enumerable.Range(0, 20_000).Select(i => $"0 LINE|5 {i:X}|8 K{i % 7}|10 {512_000 + i}.25|20 6243000|30 {i % 9}|11 {512_000 + i}.25|21 6243001|31 1"));
        var bytes = Encoding.UTF8.GetBytes(Of(entities));
        using var slow = new Trickle(bytes);
        var design = DesignReaders.Read(slow, new("design.dxf")).Design!;
        Assert.Equal(20_000, design.Lines.Length);
        Assert.Equal(E + 19_999.25, design.Lines[^1].Path.Vertices[0].At.East);
        Assert.Equal("K0", design.Lines[7].Words[0]);
    }

    /// <summary>Any change of bytes is read or refused, and throws nothing.</summary>
    [Fact]
    public void Read_ChangedAtRandom_IsReadOrRefused()
    {
        var good = Encoding.UTF8.GetBytes(Of(
            "0 LINE|5 1F|8 K|10 512000|20 6243000|30 1|11 512001|21 6243000|31 2|0 ARC|8 K|10 512000|20 6243000|40 5|50 10|51 80|230 -1|210 0|220 0|" +
            "0 LWPOLYLINE|8 K|90 3|70 1|38 2|10 512000|20 6243000|42 0.5|10 512010|20 6243000|42 -1|10 512010|20 6243010|0 CIRCLE|8 C|10 512000|20 6243000|40 2|" +
            "0 POLYLINE|8 K|70 8|0 VERTEX|10 512000|20 6243000|30 1|0 VERTEX|10 512002|20 6243000|30 1|0 SEQEND|0 POINT|8 P|10 512000|20 6243000|30 3|0 TEXT|8 T|1 x|" +
            "0 3DFACE|8 F|10 512000|20 6243000|30 1|11 512010|21 6243000|31 2|12 512010|22 6243010|32 3|13 512000|23 6243010|33 2|0 INSERT|8 I|2 TEE|10 512000|20 6243000|41 2|42 2|50 30|70 2|71 1|44 3",
            Tee + "|0 BLOCK|2 OUT|10 0|20 0|0 INSERT|8 0|2 TEE|10 1|20 1|0 ENDBLK"));
        Assert.NotNull(Intake(good).Design);
        var random = new Random(20310506);
        ReadOnlySpan<byte> letters = "0123456789.-+eE\n\r |NaNxTEOSCFLI{}*\\\0\u00ff"u8;
        var read = 0;
        for (var round = 0; round < 20_000; round++)
        {
            var bytes = good.ToList();
            for (var change = random.Next(1, 4); change > 0; change--)
            {
                var at = random.Next(bytes.Count);
                switch (random.Next(4))
                {
                    case 0: bytes[at] = letters[random.Next(letters.Length)]; break;
                    case 1: bytes.Insert(at, letters[random.Next(letters.Length)]); break;
                    case 2: bytes.RemoveRange(at, Math.Min(random.Next(1, 30), bytes.Count - at)); break;
                    default: bytes.InsertRange(random.Next(bytes.Count), bytes.GetRange(at, Math.Min(random.Next(1, 60), bytes.Count - at))); break;
                }
            }

            if (Intake([.. bytes]).Design is not null) read++;
        }

        Assert.InRange(read, 1000, 19_000);
    }

    /// <summary>Hands out seven bytes at a time.</summary>
    private sealed class Trickle(byte[] bytes) : System.IO.MemoryStream(bytes)
    {
        public override int Read(byte[] buffer, int offset, int count) => base.Read(buffer, offset, Math.Min(count, 7));
    }
}
