using System.Globalization;
using System.IO;
using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class LandXmlDesignReaderTests
{
    private const string Metric = "<Units><Metric linearUnit=\"meter\"/></Units>";

    private static DesignIntake Intake(string inside, string units = Metric) => DesignReaders.Read(
        new MemoryStream(Encoding.UTF8.GetBytes($"<?xml version=\"1.0\"?><LandXML xmlns=\"http://www.landxml.org/schema/LandXML-1.2\" version=\"1.2\">{units}{inside}</LandXML>")), new("design.xml"));

    private static DesignFile Read(string inside, string units = Metric)
    {
        var intake = Intake(inside, units);
        Assert.Null(intake.Refused?.Message("design.xml"));
        return intake.Design!;
    }

    private static string Line(string geometry, string more = "") => $"<Alignments><Alignment name=\"A1\" desc=\"WATER-MAIN\" staStart=\"100\" length=\"1\"><CoordGeom>{geometry}</CoordGeom>{more}</Alignment></Alignments>";

    private static string Refusal(string text) => DesignReaders.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)), new("design.xml")).Refused!.Message("design.xml");

    [Fact]
    public void Read_LinesAndCurves_AreTheirOwn()
    {
        var line = Assert.Single(Read(Line(
            "<Line><Start>6243000 512000 5</Start><End>6243000 512020 5.2</End></Line>" +
            "<Curve rot=\"ccw\" radius=\"10\"><Start>6243000 512020</Start><Center>6243010 512020</Center><End>6243010 512030</End></Curve>" +
            "<Curve rot=\"cw\" crvType=\"arc\" radius=\"10\"><Start>6243010 512030</Start><Center>6243010 512040</Center><End>6243020 512040 6</End></Curve>")).Lines);
        Assert.Equal(("A1", "WATER-MAIN"), (line.Name, line.Words[0]));
        Assert.Equal(20 + 10 * Math.PI, line.Path.PlanLength, 1e-9);
        Assert.Equal([PieceKind.Straight, PieceKind.Arc, PieceKind.Arc], line.Path.Pieces.Select(piece => piece.Kind));
        Assert.Equal([Turn.Left, Turn.Right], line.Path.Pieces.Skip(1).Select(piece => piece.Arc.Turn));
        Assert.Equal(5.1, line.HeightAt(10)!.Value, 1e-9);
        Assert.Equal(110, line.Stationing.StationAt(10));
    }

    [Theory]
    [InlineData("<Units><Imperial linearUnit=\"foot\"/></Units>", 0.3048)]
    [InlineData("<Units><Imperial linearUnit=\"USSurveyFoot\"/></Units>", 1200.0 / 3937)]
    [InlineData("<Units><Metric linearUnit=\"millimeter\"/></Units>", 0.001)]
    public void Read_AnyUnit_BecomesMetres(string units, double unit)
    {
        var file = Read("<CgPoints><CgPoint name=\"7\" code=\"LAMP\">2000000 1000000 10</CgPoint></CgPoints>" + Line("<Line><Start>0 0</Start><End>0 1000</End></Line>"), units);
        var point = Assert.Single(file.Points);
        Assert.Equal((1_000_000 * unit, 2_000_000 * unit, 10 * unit), (point.At.East, point.At.North, point.Height!.Value));
        Assert.Equal(1000 * unit, file.Lines[0].Path.PlanLength, 1e-9);
    }

    [Fact]
    public void Read_ProfileAndEquations_GoByChainage()
    {
        var line = Read(Line("<Line><Start>0 0</Start><End>0 400</End></Line>",
            "<StaEquation staAhead=\"1000\" staBack=\"300\" staInternal=\"300\"/><Profile><ProfSurf name=\"ground\"><PntList2D>100 1 500 1</PntList2D></ProfSurf><ProfAlign name=\"p\"><PVI>100 10</PVI><ParaCurve length=\"100\">300 14</ParaCurve><PVI>500 10</PVI></ProfAlign></Profile>")).Lines[0];
        Assert.Equal([10.0, 12, 13.5, 10], new[] { 0.0, 100, 200, 400 }.Select(chainage => Math.Round(line.HeightAt(chainage)!.Value, 9)));
        Assert.Equal([100.0, 299, 1000, 1200], new[] { 0.0, 199, 200, 400 }.Select(line.Stationing.StationAt));
    }

    [Fact]
    public void Read_Spiral_IsTheClothoid()
    {
        var clothoid = new Clothoid(new(512_000, 6_243_000), Bearing.FromDegrees(90), 0, -1 / 100.0, 60); // to the right
        var pi = clothoid.From + 25 * Bearing.FromDegrees(90).Unit;
        var text = string.Create(CultureInfo.InvariantCulture, $"<Line><Start>6243000 511980</Start><End>6243000 512000</End></Line><Spiral length=\"60\" radiusStart=\"INF\" radiusEnd=\"100\" rot=\"cw\" spiType=\"clothoid\"><Start>6243000 512000</Start><PI>{pi.North:R} {pi.East:R}</PI><End>{clothoid.To.North:R} {clothoid.To.East:R}</End></Spiral>");
        var line = Assert.Single(Read(Line(text)).Lines);
        Assert.Equal(80, line.Path.PlanLength, 1e-5);
        for (var along = 0.0; along <= 60; along += 0.7) Assert.True(line.Path.Locate(clothoid.PointAt(along)).Distance < 1.1e-5);
        Assert.Equal([20.0], line.Joints.Select(joint => Math.Round(joint, 6)));
        Assert.True(line.Path.Pieces.Length > 10);
    }

    [Fact]
    public void Read_WhatCannotBeFollowed_IsListedWithItsReason()
    {
        var file = Read("<Alignments>" +
            "<Alignment name=\"B\" desc=\"X\"><CoordGeom><Spiral length=\"60\" radiusStart=\"INF\" radiusEnd=\"100\" rot=\"cw\" spiType=\"bloss\"><Start>0 0</Start><PI>0 20</PI><End>5 58</End></Spiral></CoordGeom></Alignment>" +
            "<Alignment name=\"C\"><CoordGeom><Curve rot=\"cw\" radius=\"5\"><Start>0 0</Start><Center>0 50</Center><End>0 100</End></Curve></CoordGeom></Alignment>" +
            "<Alignment name=\"D\"><CoordGeom><Line><Start>0 0</Start><End>0 0</End></Line></CoordGeom></Alignment></Alignments><Roadways/>");
        Assert.Empty(file.Lines);
        Assert.Equal("alignment B skipped: a spiral of it is of type bloss; only clothoids are followed.", file.Skipped[0]);
        Assert.StartsWith("alignment C skipped: radius and places of the curve from (0.0000, 0.0000) to (100.0000, 0.0000) disagree: radius 5.000 m, chord 100.000 m", file.Skipped[1], StringComparison.Ordinal);
        Assert.Equal("alignment D skipped: it has no piece with a length.", file.Skipped[2]);
        Assert.StartsWith("Roadways skipped:", file.Skipped[3], StringComparison.Ordinal);
    }

    [Fact]
    public void Read_AGap_PartsTheLine()
    {
        var file = Read(Line("<Line><Start>0 0</Start><End>0 10</End></Line><Line><Start>0 12</Start><End>0 20</End></Line>"));
        Assert.Equal(["A1", "A1 (2)"], file.Lines.Select(line => line.Name));
        Assert.Contains("has 1 gaps", file.Skipped[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Read_PointsByReference_AreFound()
    {
        var file = Read("<CgPoints name=\"marks\"><CgPoint name=\"1\">0 0 5</CgPoint><CgPoint name=\"2\">0 10 6</CgPoint><CgPoint name=\"3\" pntRef=\"2\"/><CgPoint name=\"4\" pntRef=\"9\"/></CgPoints>" + Line("<Line><Start pntRef=\"1\"/><End pntRef=\"2\"/></Line>"));
        Assert.Equal(10, file.Lines[0].Path.PlanLength);
        Assert.Equal(["1", "2", "3"], file.Points.Select(point => point.Name));
        Assert.Equal("marks", file.Points[0].Words[0]);
        Assert.Contains("refers to a point 9", file.Skipped[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Read_Surface_KeepsVoidsAndHiddenFacesOut()
    {
        var points = new StringBuilder();
        for (var i = 0; i < 16; i++) points.Append(CultureInfo.InvariantCulture, $"<P id=\"{i + 5}\">{6243000 + 10 * (i / 4)} {512000 + 10 * (i % 4)} {5 + i % 4}</P>");
        var faces = new StringBuilder();
        for (var i = 0; i < 9; i++)
        {
            var a = i / 3 * 4 + i % 3 + 5;
            faces.Append(CultureInfo.InvariantCulture, $"<F{(i == 0 ? " i=\"1\"" : "")}>{a} {a + 1} {a + 5}</F><F>{a} {a + 5} {a + 4}</F>");
        }

        var surface = Assert.Single(Read($"<Surfaces><Surface name=\"FG\"><SourceData><Boundaries><Boundary bndType=\"void\"><PntList2D>6243011 512011 6243011 512019 6243019 512019 6243019 512011</PntList2D></Boundary></Boundaries></SourceData><Definition surfType=\"TIN\"><Pnts>{points}</Pnts><Faces>{faces}</Faces></Definition></Surface></Surfaces>").Surfaces);
        Assert.Equal(("FG", 15), (surface.Name, surface.Tin.TriangleCount));
        Assert.Null(surface.Tin.HeightAt(new(512_015, 6_243_015)));
        Assert.Null(surface.Tin.HeightAt(new(512_008, 6_243_002)));
        Assert.Equal(7.5, surface.Tin.HeightAt(new(512_025, 6_243_005))!.Value, 1e-9);
    }

    [Fact]
    public void Read_PipeNetwork_HasItsInverts()
    {
        var file = Read("<PipeNetworks><PipeNetwork name=\"N\" desc=\"STORM-DRAIN\"><Structs><Struct name=\"S1\" elevRim=\"8\"><Center>0 0</Center><Invert elev=\"5\" flowDir=\"out\" refPipe=\"P1\"/></Struct><Struct name=\"S2\" elevRim=\"8\"><Center>0 30</Center><Invert elev=\"4.8\" flowDir=\"in\" refPipe=\"P1\"/><Invert elev=\"4.7\" flowDir=\"out\" refPipe=\"P2\"/></Struct></Structs><Pipes><Pipe name=\"P1\" refStart=\"S1\" refEnd=\"S2\"><CircPipe diameter=\"0.3\"/></Pipe><Pipe name=\"P2\" refStart=\"S2\" refEnd=\"S9\"/></Pipes></PipeNetwork></PipeNetworks>");
        var pipe = Assert.Single(file.Lines);
        Assert.Equal(("P1", "STORM-DRAIN", 5.0, 4.8), (pipe.Name, pipe.Words[0], pipe.HeightAt(0)!.Value, pipe.HeightAt(30)!.Value));
        Assert.Equal([5.0, 4.7], file.Points.Select(point => point.Height!.Value));
        Assert.Equal("pipe P2 skipped: it does not name two structures that the network has.", file.Skipped[0]);
    }

    [Fact]
    public void Read_OwnRecord_IsTheSameGeometry()
    {
        var record = Derivation.Derive(SampleInputs.Of(Workbench.SampleSites.Clean(3) with { Design = null }));
        using var folder = DeliveryFolder.With(new LandXmlDeliverable(), ExchangeSite.Small() with { Record = record });
        using var stream = File.OpenRead(folder.PathOf("record.xml"));
        var file = DesignReaders.Read(stream, new("record.xml")).Design!;
        Assert.Equal(Enumerable.Range(0, record.Runs.Count).Count(run => record.Runs[run].PieceCount > 0), file.Lines.Length);
        foreach (var line in file.Lines)
        {
            var run = record.Runs.Find(line.Name)!.Value;
            Assert.Equal(run.PlanLength, line.Path.PlanLength, 2e-8);
            var path = run.Path;
            for (var along = 0.0; along < path.PlanLength; along += 0.9) Assert.True(line.Path.Locate(path.PointAt(along)).Distance < 2e-9, $"{line.Name} {along}");
            Assert.True(line.IsExisting);
        }
    }

    [Theory]
    [InlineData("<!DOCTYPE LandXML [<!ENTITY a \"b\"><!ENTITY c \"&a;&a;\">]><LandXML><Units><Metric linearUnit=\"meter\"/></Units></LandXML>", "document type definition")]
    [InlineData("<!DOCTYPE LandXML SYSTEM \"file:///etc/hostname\"><LandXML/>", "document type definition")]
    [InlineData("<LandXML><Units><Metric linearUnit=\"meter\"/></Units><CgPoints><CgPoint name=\"1\">0 ", "ends too early")]
    [InlineData("<LandXML><Units><Metric linearUnit=\"furlong\"/></Units></LandXML>", "'furlong' is no linear unit")]
    [InlineData("<LandXML><Units><Metric linearUnit=\"meter\"/></Units><CgPoints><CgPoint name=\"1\">0 NaN 3</CgPoint></CgPoints></LandXML>", "'NaN' is no finite number")]
    [InlineData("<LandXML><Units><Metric linearUnit=\"meter\"/></Units><CgPoints><CgPoint name=\"1\">0 1e300 3</CgPoint></CgPoints></LandXML>", "is a place on no grid")]
    [InlineData("<LandXML><Units><Metric linearUnit=\"meter\"/></Units><CgPoints><CgPoint name=\"1\">5</CgPoint></CgPoints></LandXML>", "is a single number")]
    [InlineData("<LandXML><Surfaces><Surface><Definition><Pnts><P id=\"1\">0 0 0</P></Pnts><Faces><F>1 2 3</F></Faces></Definition></Surface></Surfaces></LandXML>", "'2' is the number of no point")]
    [InlineData("<svg xmlns:x=\"LandXML\"><a b=\"<LandXML\"/></svg>", "'svg' is the root of another kind")]
    [InlineData("<LandXMLs/>", "'LandXMLs' is the root of another kind")]
    public void Read_WrongOrHostile_IsRefused(string text, string says) => Assert.Contains(says, Refusal(text), StringComparison.Ordinal);

    [Theory]
    [InlineData("", "the file is empty")]
    [InlineData("nothing at all", "no kind of file that is read as a design")]
    public void Read_NoDesign_IsRefused(string text, string says) => Assert.Contains(says, Refusal(text), StringComparison.Ordinal);

    [Fact]
    public void Read_AnyMutation_EndsInADesignOrARefusal()
    {
        var good = Encoding.UTF8.GetBytes(Workbench.SampleSites.Lot(1).Design![..6000] + "</CoordGeom></Alignment></Alignments></LandXML>");
        var numbers = new Random(11);
        for (var i = 0; i < 20_000; i++)
        {
            var bytes = good.AsSpan(0, Math.Min(good.Length, 1500 + numbers.Next(4500))).ToArray();
            for (var k = numbers.Next(4); k >= 0; k--) bytes[numbers.Next(bytes.Length)] = (byte)" <>/&\"0123456789e.-NPFI"[numbers.Next(23)];
            var intake = DesignReaders.Read(new MemoryStream(bytes), new("design.xml"));
            Assert.True(intake.Design is null != intake.Refused is null);
        }
    }

    [Fact]
    public void Read_ShotsCsv_HasLinesArcsAndPoints()
    {
        var file = DesignReaders.Read(new MemoryStream("id,east,north,height,code,run,leg\n1,512000,6243000,5,PIPE,P1,\n2,512010,6243000,5,PIPE,P1,\n3,512017.0711,6243002.9289,5,PIPE,P1,through\n4,512020,6243010,5,PIPE,P1,\n9,512001,6243001,6,LAMP,,\n"u8.ToArray()), new("design.csv")).Design!;
        Assert.Equal(10 + 5 * Math.PI, Assert.Single(file.Lines).Path.PlanLength, 1e-3);
        Assert.Equal(("9", "LAMP", 6.0), (file.Points[0].Name, file.Points[0].Words[0], file.Points[0].Height!.Value));
    }
}
