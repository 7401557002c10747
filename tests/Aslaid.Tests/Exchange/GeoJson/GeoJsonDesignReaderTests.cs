using System.Globalization;
using System.IO;
using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;

namespace Aslaid.Tests;

/// <summary>Designs out of GeoJSON: by RFC 7946, by older custom, of GDAL, and broken.</summary>
public sealed class GeoJsonDesignReaderTests
{
    private const string Site = "EPSG:25832";

    private static DesignIntake Read(byte[] text, string? system = null, string name = "design.geojson")
    {
        using var stream = new MemoryStream(text, writable: false);
        return DesignReaders.Read(stream, new(name, null, system));
    }

    private static DesignFile Design(string text, string? system = null)
    {
        var intake = Read(Encoding.UTF8.GetBytes(text), system);
        Assert.Null(intake.Refused?.Message("design.geojson"));
        return intake.Design!;
    }

    private static string Refused(string text, string? system = null)
    {
        var intake = Read(Encoding.UTF8.GetBytes(text), system);
        Assert.Null(intake.Design);
        return intake.Refused!.Message("design.geojson");
    }

    private static string Feature(string geometry, string properties = "null") => $$"""{"type":"Feature","geometry":{{geometry}},"properties":{{properties}}}""";

    private static string Collection(params string[] features) => $$"""{"type":"FeatureCollection","features":[{{string.Join(",\n", features)}}]}""";

    [Fact]
    public void Read_EveryKind_OnTheSiteGrid()
    {
        var design = Design(Collection(
            Feature("""{"type":"Point","coordinates":[512001,6243001,7]}""", """{"Name":"peg 1","code":"PG","Layer":"pegs","type":4}"""),
            Feature("""{"type":"MultiPoint","coordinates":[[512001,6243001],[512002,6243001]]}"""),
            Feature("""{"coordinates":[[512000,6243000,1],[512003,6243004,2]],"type":"LineString"}""", """{"label":"kerb","other":{"code":[1]}}"""),
            Feature("""{"type":"MultiLineString","coordinates":[[[512000,6243000],[512003,6243004]],[[512000,6243000],[512000,6243001]]]}"""),
            Feature("""{"type":"Polygon","coordinates":[[[512000,6243000],[512010,6243000],[512010,6243010],[512000,6243000]],[[512005,6243001],[512006,6243001],[512006,6243002],[512005,6243001]]]}"""),
            Feature("""{"type":"MultiPolygon","coordinates":[[[[512000,6243000],[512010,6243000],[512010,6243010],[512000,6243000]]]]}"""),
            Feature("""{"type":"GeometryCollection","geometries":[{"type":"Point","coordinates":[512009,6243009]},{"type":"LineString","coordinates":[[512000,6243000],[512000,6243009]]}]}"""),
            Feature("null"), Feature("""{"type":"Point","coordinates":[]}""")));
        Assert.Equal(["peg 1", "feature 2", "feature 2 (2)", "feature 7"], design.Points.Select(point => point.Name));
        Assert.Equal(["PG", "pegs", "4", "peg 1"], design.Points[0].Words);
        Assert.Equal([7.0, null, null, null], design.Points.Select(point => point.Height));
        Assert.Equal(["kerb", "feature 4", "feature 4 (2)", "feature 5", "feature 5 (2)", "feature 6", "feature 7 (2)"], design.Lines.Select(line => line.Name));
        Assert.Equal(5.0, design.Lines[0].Path.PlanLength);
        Assert.Equal(2.0, design.Lines[0].Path.Vertices[1].Height);
        Assert.All(design.Lines[3..6], line => Assert.True(line.Path.IsClosed));
        Assert.Contains("Coordinates were taken as the site grid", design.Skipped[0], StringComparison.Ordinal);
        Assert.Equal(["feature skipped: it has no geometry.", "geometry of the file skipped: it is empty."], design.Skipped[1..]);
    }

    [Theory]
    [InlineData("""{"type":"LineString","coordinates":[[512000,6243000],[512003,6243004]]}""")]
    [InlineData("""{"properties":{},"geometry":{"coordinates":[[512000,6243000],[512003,6243004]],"type":"LineString"},"id":12,"type":"Feature"}""")]
    [InlineData("""{"geometries":[{"type":"LineString","coordinates":[[512000,6243000],[512003,6243004]]}],"type":"GeometryCollection"}""")]
    [InlineData("\uFEFF \r\n {\"f\\u0065atures\":[{\"type\":\"Feature\",\"geometry\":{\"type\":\"LineString\",\"coordinates\":[[512000,6243000],[512003,6243004]]}}],\"type\":\"FeatureCollection\"}")]
    public void Read_AnyRoot_GivesItsLine(string text) => Assert.Equal(5.0, Assert.Single(Design(text).Lines).Path.PlanLength);

    [Fact]
    public void Read_IdAndCollectionName_Serve()
    {
        var design = Design("""{"type":"FeatureCollection","features":[{"type":"Feature","id":"k-7","geometry":{"type":"Point","coordinates":[512000,6243000]},"properties":{"name":" "}}],"name":"kerbs"}""");
        Assert.Equal("k-7", design.Points[0].Name);
        Assert.Equal(["kerbs", "k-7"], design.Points[0].Words);
    }

    [Theory]
    [InlineData("EPSG:25832")]
    [InlineData("urn:ogc:def:crs:EPSG::25832")]
    [InlineData("urn:ogc:def:crs:EPSG:9.8.6:25832")]
    [InlineData("http://www.opengis.net/def/crs/EPSG/0/25832")]
    [InlineData("LOCAL_CS[\\\"Site grid\\\",UNIT[\\\"metre\\\",1]]")]
    public void Read_SystemOfTheSite_IsTaken(string name)
    {
        const string line = """ "type":"LineString","coordinates":[[512000,6243000],[512003,6243004]] """;
        var crs = "\"crs\":{\"type\":\"name\",\"properties\":{\"name\":\"" + name + "\"}}";
        foreach (var text in (string[])["{" + crs + "," + line + "}", "{\"type\":\"FeatureCollection\",\"features\":[" + Feature("{" + line + "}") + "]," + crs + "}"])
        {
            var design = Design(text, Site);
            Assert.Equal(new(512_003, 6_243_004), design.Lines[0].Path.Vertices[1].At);
            Assert.Empty(design.Skipped);
        }
    }

    [Fact]
    public void Read_SystemSaidToBeNone_IsTheSiteGridWhateverItsSize()
    {
        var design = Design("""{"type":"LineString","crs":null,"coordinates":[[12,43],[15,47]]}""", Site);
        Assert.Equal(5.0, design.Lines[0].Path.PlanLength);
        Assert.Empty(design.Skipped);
    }

    [Theory]
    [InlineData("")]
    [InlineData("""
        "crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:OGC:1.3:CRS84"}},
        """)]
    [InlineData("""
        "crs":{"type":"name","properties":{"name":"EPSG:4326"}},
        """)]
    public void Read_Degrees_AreBroughtToTheGrid(string member)
    {
        var grid = GridToGeographic.For(Site);
        var (from, to) = (grid.Of(new(512_000, 6_243_000)), grid.Of(new(512_030, 6_243_040)));
        var design = Design(string.Create(CultureInfo.InvariantCulture, $"{{{member}\"type\":\"LineString\",\"coordinates\":[[{from.Longitude:R},{from.Latitude:R},4],[{to.Longitude:R},{to.Latitude:R},5]]}}"), Site);
        Assert.InRange(design.Lines[0].Path.Vertices[0].At.DistanceTo(new(512_000, 6_243_000)), 0, 1e-4);
        Assert.InRange(design.Lines[0].Path.Vertices[1].At.DistanceTo(new(512_030, 6_243_040)), 0, 1e-4);
        Assert.Equal(5.0, design.Lines[0].Path.Vertices[1].Height);
        Assert.Contains("plate motion", design.Skipped[0], StringComparison.Ordinal);
        Assert.Contains("above the ellipsoid", design.Skipped[1], StringComparison.Ordinal);
    }

    private const string Degrees = """{"type":"Point","coordinates":[9.2,56.3]}""";
    private const string Grid = """{"type":"Point","coordinates":[512000,6243000]}""";

    [Theory]
    [InlineData(Degrees, null, "every coordinate lies within 180 and 90, as degrees do, and the site names no coordinate system")]
    [InlineData(Grid, Site, "line 1: feature 1: 512000, 6243000 is no longitude and latitude in degrees")]
    [InlineData("""{"type":"Point","coordinates":[99.2,56.3]}""", Site, "lies too far from ETRS89 / UTM zone 32N")]
    [InlineData(Degrees, "EPSG:2154", "cannot be brought to that of the site, EPSG:2154")]
    [InlineData("""{"type":"Point","crs":{"type":"name","properties":{"name":"EPSG:25833"}},"coordinates":[512000,6243000]}""", Site, "'EPSG:25833' is the coordinate system of the file, and that of the site is EPSG:25832")]
    [InlineData("""{"type":"Point","crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:OGC:1.3:CRS84"}},"coordinates":[9,56]}""", null, "'WGS 84' is the coordinate system of the file, and the site names none")]
    [InlineData("""{"type":"Point","crs":{"type":"name","properties":{"name":"lunar"}},"coordinates":[9,56]}""", Site, "'lunar' is the coordinate system of the file")]
    [InlineData("""{"type":"Point","crs":{"type":"link","properties":{"href":"x"}},"coordinates":[9,56]}""", Site, "'crs' names no coordinate system")]
    [InlineData("""{"type":"Point","crs":4326,"coordinates":[9,56]}""", Site, "'crs' names no coordinate system")]
    public void Read_AnotherSystem_IsRefused(string text, string? system, string told) => Assert.Contains(told, Refused(text, system), StringComparison.Ordinal);

    [Theory]
    [InlineData("""{"type":"Point","coordinates":[NaN,6243000]}""", "line 1: the text is not well-formed from byte 32 of the line on")]
    [InlineData("""{"type":"Point","coordinates":[1e300,6243000]}""", "line 1: feature 1: 1E+300, 6243000 is a place on no grid")]
    [InlineData("""{"type":"Point","coordinates":[1e999,6243000]}""", "is a place on no grid")]
    [InlineData("""{"type":"Point","coordinates":[512000,6243000,1e9]}""", "1000000000 is a height of no site")]
    [InlineData("""{"type":"Point","coordinates":[512000]}""", "a position has one number")]
    [InlineData("""{"type":"Point","coordinates":[512000,"6243000"]}""", "a position holds '6243000' where a number was expected")]
    [InlineData("""{"type":"Point","coordinates":[512000,6243000,null]}""", "a position holds 'null' where a number was expected")]
    [InlineData("""{"type":"LineString","coordinates":[512000,6243000]}""", "its coordinates hold '512000' where an array was expected")]
    [InlineData("""{"type":"LineString","coordinates":[[512000,6243000],[]]}""", "a position is empty")]
    [InlineData("""{"type":"LineString","coordinates":{}}""", "its geometry has no array coordinates")]
    [InlineData("""{"type":"LineString"}""", "its geometry has no array coordinates")]
    [InlineData("""{"type":"LineString","coordinates":[[512000,6243000],[512001,6243000]],"coordinates":[]}""", "member coordinates stands twice")]
    [InlineData("""{"type":"LineString","type":"Point","coordinates":[]}""", "'type' stands twice in the file's outermost object")]
    [InlineData("""{"type":"Topology","coordinates":[]}""", "the file's type is Topology; FeatureCollection")]
    [InlineData("""{"type":7,"coordinates":[]}""", "'type' is no text")]
    [InlineData("""{"coordinates":[]}""", "has no member type")]
    [InlineData("""{"type":"FeatureCollection"}""", "has no member features")]
    [InlineData("""{"type":"FeatureCollection","features":{}}""", "'features' is no array")]
    [InlineData("""{"type":"FeatureCollection","features":[7]}""", "feature 1: something else stands where an object was expected")]
    [InlineData("""{"type":"FeatureCollection","features":[{"type":"Point","coordinates":[512000,6243000]}]}""", "feature 1: its type is Point; Feature was expected")]
    [InlineData("""{"type":"Feature","geometry":{"coordinates":[512000,6243000]}}""", "its geometry has no type")]
    [InlineData("""{"type":"Feature","geometry":[512000,6243000]}""", "something else stands where an object was expected")]
    [InlineData("""{"type":"Feature","geometry":null,"properties":[]}""", "its properties are no object")]
    [InlineData("""{"type":"Feature","geometry":null,"properties":{"code":"a","code":"b"}}""", "property code stands twice")]
    [InlineData("""{"type":"Feature","geometry":null,"properties":{"code":"\ud800"}}""", "a text holds bytes or escapes that are no letters")]
    [InlineData("""{"type":"Feature","geometry":null} {}""", "not well-formed")]
    [InlineData("""{"type":"Feature","geometry":null,}""", "not well-formed")]
    [InlineData("""{"type":"Feature","geometry":null""", "not well-formed")]
    [InlineData("{", "not well-formed")]
    public void Read_WhatIsWrong_IsRefused(string text, string told)
    {
        var message = Refused(text);
        Assert.Contains(told, message, StringComparison.Ordinal);
        Assert.EndsWith(".", message, StringComparison.Ordinal);
        Assert.DoesNotContain("..", message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_FaultFarDown_NamesItsLine()
    {
        var good = Feature("""{"type":"Point","coordinates":[512000,6243000]}""");
        var many = Enumerable.Repeat(good, 5_000).ToArray(); // some hundreds of kilobytes: several fillings of the buffer
        many[4_321] = "{\"type\":\"Feature\",\n\"geometry\":{\"type\":\"LineString\",\"coordinates\":[[512000,6243000],\n[512000,\"a\"]]}}";
        Assert.StartsWith("design.geojson line 4324: feature 4322: a position holds 'a'", Refused(Collection(many)), StringComparison.Ordinal);
        many[4_321] = good[..^1];
        Assert.StartsWith("design.geojson line 4323: the text is not well-formed", Refused(Collection(many)), StringComparison.Ordinal);
        many[4_321] = good;
        Assert.Equal(5_000, Design(Collection(many)).Points.Length);
    }

    [Fact]
    public void Read_OddThings_AreSkippedWithAReason()
    {
        var design = Design(Collection(
            Feature("""{"type":"Helix","coordinates":[1]}"""), Feature("""{"type":"Helix"}"""),
            Feature("""{"type":"LineString","coordinates":[]}"""), Feature("""{"type":"LineString","coordinates":[[512000,6243000],[512000,6243000]]}"""),
            Feature("""{"type":"Polygon","coordinates":[[[512000,6243000],[512001,6243000],[512001,6243001]]]}"""), Feature("""{"type":"GeometryCollection","geometries":[]}""")));
        Assert.Empty(design.Lines);
        Assert.Equal(["2 × geometry of type Helix skipped: GeoJSON knows no such.", "2 × geometry of the file skipped: it is empty.", "line of the file skipped: it has no length.",
            "ring of the file skipped: its last position is not its first."], design.Skipped[1..]);
    }

    [Fact]
    public void Read_Nesting_IsBounded()
    {
        var nest = Grid;
        for (var i = 0; i < 9; i++) nest = $$"""{"type":"GeometryCollection","geometries":[{{nest}}]}""";
        Assert.Contains("more than 8 deep", Refused(nest), StringComparison.Ordinal);
        Assert.Contains("nested more than 64 deep", Refused("{\"type\":\"Point\",\"coordinates\":" + new string('[', 100_000)), StringComparison.Ordinal);
    }

    [Fact]
    public void Read_OneFeatureOfMoreThan64Megabytes_IsRefused()
    {
        var text = new byte[66 << 20];
        Array.Fill(text, (byte)' ');
        """{"type":"FeatureCollection","features":[{"type":"Feature","x":" """u8.CopyTo(text);
        "\"}]}"u8.CopyTo(text.AsSpan(text.Length - 4));
        Assert.Contains("a single feature or text of more than 64 MB stands here", Read(text).Refused!.Message("design.geojson"), StringComparison.Ordinal);
    }

    [Fact]
    public void Recognises_ByBeginningAndName()
    {
        var text = Encoding.UTF8.GetBytes(Grid);
        Assert.NotNull(Read(text, name: "design.txt").Design);
        Assert.Contains("is no kind of file", Read("[1]"u8.ToArray()).Refused!.Message("design.json"), StringComparison.Ordinal);
        Assert.Contains("has no member type", Read("{}"u8.ToArray(), name: "design.json").Refused!.Message("design.json"), StringComparison.Ordinal);
        Assert.Contains("is no kind of file", Read("{}"u8.ToArray(), name: "design.txt").Refused!.Message("design.txt"), StringComparison.Ordinal);
    }

    [Fact]
    public void Read_ManyFeatures_KeepsOneInMemory()
    {
        using var endless = new Repeated("""{"type":"FeatureCollection","features":[""", Feature("""{"type":"LineString","coordinates":[]}""") + ",\n", 300_000, Feature("null") + "]}");
        var intake = DesignReaders.Read(endless, new("design.geojson"));
        Assert.Equal(["300000 × geometry of the file skipped: it is empty.", "feature skipped: it has no geometry."], intake.Design!.Skipped);
        Assert.InRange(endless.MostAsked, 1, 1 << 17); // bytes, of a text of 26 MB
    }

    /// <summary>A text of which the middle comes again and again, never whole in memory.</summary>
    private sealed class Repeated(string head, string middle, int times, string tail) : Stream
    {
        private readonly byte[] start = Encoding.UTF8.GetBytes(head), again = Encoding.UTF8.GetBytes(middle), end = Encoding.UTF8.GetBytes(tail);

        /// <summary>The most bytes that were asked for at once: the room the reader keeps.</summary>
        public int MostAsked { get; private set; }

        public override bool CanRead => true;
        public override bool CanSeek => true;
        public override bool CanWrite => false;
        public override long Length => start.Length + (long)again.Length * times + end.Length;
        public override long Position { get; set; }

        public override int Read(byte[] buffer, int offset, int count)
        {
            MostAsked = Math.Max(MostAsked, count);
            var got = 0;
            for (; got < count && Position < Length; got++, Position++)
            {
                var (inMiddle, inEnd) = (Position - start.Length, Position - (Length - end.Length));
                buffer[offset + got] = inMiddle < 0 ? start[Position] : inEnd >= 0 ? end[inEnd] : again[inMiddle % again.Length];
            }

            return got;
        }

        public override void Flush() { }
        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();
        public override void SetLength(long value) => throw new NotSupportedException();
        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }

    [Fact]
    public void Read_FilesWrittenByGdal_AreTheSamePlaces()
    {
        using var source = new TemporaryFile(".csv");
        using var plain = new TemporaryFile(".geojson");
        using var older = new TemporaryFile(".geojson");
        File.WriteAllText(source.Name, "x,y,z,name\n512000,6243000,4.5,a\n512345.678,6243210.987,5.5,b\n400000,6243000,6,c\n600000,6200000,7,d\n");
        string[] from = ["-oo", "X_POSSIBLE_NAMES=x", "-oo", "Y_POSSIBLE_NAMES=y", "-oo", "Z_POSSIBLE_NAMES=z", "-a_srs", "EPSG:32632", "-nln", "pegs"];
        ForeignTool.Run("ogr2ogr", ["-f", "GeoJSON", older.Name, source.Name, .. from]);
        ForeignTool.Run("ogr2ogr", ["-f", "GeoJSON", "-lco", "RFC7946=YES", "-lco", "COORDINATE_PRECISION=11", plain.Name, source.Name, .. from]);
        foreach (var (file, within) in (ReadOnlySpan<(string, double)>)[(older.Name, 1e-9), (plain.Name, 0.001)])
        {
            using var stream = new FileStream(file, FileMode.Open, FileAccess.Read);
            var intake = DesignReaders.Read(stream, new("design.geojson", null, "EPSG:32632"));
            Assert.Null(intake.Refused?.Message("design.geojson"));
            var points = intake.Design!.Points.ToDictionary(point => point.Name);
            Assert.Equal(5.5, points["b"].Height);
            foreach (var (name, at) in (ReadOnlySpan<(string, Point2)>)[("a", new(512_000, 6_243_000)), ("b", new(512_345.678, 6_243_210.987)), ("c", new(400_000, 6_243_000)), ("d", new(600_000, 6_200_000))])
                Assert.InRange(points[name].At.DistanceTo(at), 0, within); // m
        }
    }

    [Fact]
    public void Read_Degrees_AgreeWithProjToAMillimetre()
    {
        string[] zones = ["EPSG:32632", "EPSG:25832", "EPSG:25838", "EPSG:32756"];
        var compared = 0;
        foreach (var zone in zones)
        {
            var middle = zone switch { "EPSG:25838" => 45, "EPSG:32756" => 153, _ => 9 };
            (double Longitude, double Latitude)[] places = [(middle, 56.3), (middle + 2.9, 48.123456789), (middle - 2.9, 60.5), (middle + 0.2, -33.25)];
            using var list = new TemporaryFile(".txt");
            File.WriteAllLines(list.Name, places.Select(place => string.Create(CultureInfo.InvariantCulture, $"{place.Longitude:R} {place.Latitude:R}")));
            var geographic = zone.StartsWith("EPSG:258", StringComparison.Ordinal) ? "EPSG:4258" : "EPSG:4326";
            var theirs = ForeignTool.Run("cs2cs", "-f", "%.6f", $"+init={geographic.ToLowerInvariant()}", "+to", $"+init={zone.ToLowerInvariant()}", list.Name)
                .Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => line.Split((char[])['\t', ' '], StringSplitOptions.RemoveEmptyEntries)).ToArray();
            var text = "{\"type\":\"MultiPoint\",\"coordinates\":[" + string.Join(',', places.Select(place => string.Create(CultureInfo.InvariantCulture, $"[{place.Longitude:R},{place.Latitude:R}]"))) + "]}";
            var ours = Design(text, zone).Points;
            for (var i = 0; i < places.Length; i++, compared++)
                Assert.InRange(ours[i].At.DistanceTo(new(Number(theirs[i][0]), Number(theirs[i][1]))), 0, 0.001); // m
        }

        Assert.Equal(16, compared);
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    [Fact]
    public void Read_TextsChangedByChance_AreTakenOrRefused()
    {
        byte[][] good = Array.ConvertAll((string[])[
            Collection(Feature("""{"type":"Point","coordinates":[512001,6243001,7]}""", """{"name":"peg","code":"PG"}"""), Feature("""{"type":"LineString","coordinates":[[512000,6243000,1],[512003,6243004,2]]}""")),
            """{"crs":{"type":"name","properties":{"name":"EPSG:25832"}},"type":"Polygon","coordinates":[[[512000,6243000],[512010,6243000],[512010,6243010],[512000,6243000]]]}""",
            """{"type":"GeometryCollection","geometries":[{"type":"MultiPoint","coordinates":[[9.1,56.2],[9.2,56.3]]},{"type":"MultiLineString","coordinates":[[[9.1,56.2],[9.2,56.3]]]}]}""",
            """{"type":"Feature","id":7,"properties":{"desc":"kerb \u00e5"},"geometry":{"type":"MultiPolygon","coordinates":[[[[512000,6243000],[512010,6243000],[512010,6243010],[512000,6243000]]]]}}"""], Encoding.UTF8.GetBytes);
        string[] pieces = ["[", "]", "{", "}", ",", "null", "\"", "\\ud800", "1e300", "-", "[[[[", "\"type\":", "\"coordinates\":", "true", "1e999", "\n", "\uFEFF", "\"Point\"", "0.1", "180"];
        var chance = new Random(20310504);
        var taken = 0;
        for (var round = 0; round < 20_000; round++)
        {
            var text = new List<byte>(good[chance.Next(good.Length)]);
            for (var times = chance.Next(1, 4); times > 0; times--)
            {
                var at = chance.Next(1, text.Count);
                switch (chance.Next(5))
                {
                    case 0: text[at] ^= (byte)(1 << chance.Next(8)); break;
                    case 1: text[at] = (byte)chance.Next(256); break;
                    case 2: text.RemoveRange(at, Math.Min(chance.Next(1, 9), text.Count - at)); break;
                    case 3: text.InsertRange(at, Encoding.UTF8.GetBytes(pieces[chance.Next(pieces.Length)])); break;
                    default: text.InsertRange(at, text.GetRange(chance.Next(text.Count / 2), chance.Next(text.Count / 2))); break;
                }
            }

            var intake = Read([.. text], chance.Next(2) == 0 ? Site : null);
            Assert.True(intake.Design is null != intake.Refused is null);
            if (intake.Refused is { } refused) Assert.NotEmpty(refused.Message("design.geojson"));
            else taken++;
        }

        Assert.InRange(taken, 200, 19_000); // both happen
    }
}
