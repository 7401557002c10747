using System.Globalization;
using System.IO;
using System.Text.Json;
using Aslaid.Exchange;

namespace Aslaid.Tests;

public class GridToGeographicTests
{
    private static readonly string[] Zones = ["EPSG:32630", "EPSG:32631", "EPSG:32756", "EPSG:25832", "EPSG:25838", "EPSG:32601", "EPSG:32660"];

    private static readonly Gen<Point2> Places =
        Gen.Select(Gen.Double[300_000, 700_000], Gen.Double[5_000_000, 7_000_000], (e, n) => new Point2(e, n));

    [Fact]
    public void Back_OfGeographic_IsTheSamePlace() => Gen.Select(Places, Gen.Int[0, 6]).Sample((place, zone) =>
    {
        var grid = GridToGeographic.For(Zones[zone]);
        return grid.Back(grid.Of(place)).DistanceTo(place) < 1e-3; // m
    }, iter: 2_000);

    [Fact]
    public void Of_UtmZones_AgreesWithProjToAMillimetre()
    {
        Point2[] places = [new(512_000, 6_243_000), new(512_345.678, 6_243_210.987), new(400_000, 6_243_000), new(600_000, 6_243_000)];
        var lines = ForeignTool.Python("""
            import sys
            from osgeo import osr
            osr.UseExceptions()
            for zone in sys.argv[1].split():
                grid, earth = osr.SpatialReference(), osr.SpatialReference()
                grid.ImportFromEPSG(int(zone.split(':')[1])); earth.CopyGeogCSFrom(grid)
                for s in (grid, earth): s.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
                t = osr.CoordinateTransformation(grid, earth)
                for place in sys.argv[2].split():
                    e, n = map(float, place.split(','))
                    print(zone, place, *map(repr, t.TransformPoint(e, n)[:2]))
            """, ["osgeo"], string.Join(' ', Zones), string.Join(' ', places.Select(p => string.Create(CultureInfo.InvariantCulture, $"{p.East:R},{p.North:R}"))));
        var compared = 0;
        foreach (var words in lines.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => line.Split(' ')))
        {
            var place = words[1].Split(',').Select(Number).ToArray();
            var (longitude, latitude) = (Number(words[2]), Number(words[3]));
            var ours = GridToGeographic.For(words[0]).Of(new(place[0], place[1]));
            var metresPerDegree = 6_400_000 * double.DegreesToRadians(1); // a little above the truth
            Assert.True(Math.Abs(ours.Latitude - latitude) * metresPerDegree < 0.001, $"{words[0]} {words[1]}: {ours} and {longitude}, {latitude}");
            Assert.True(Math.Abs(ours.Longitude - longitude) * metresPerDegree * Math.Cos(double.DegreesToRadians(latitude)) < 0.001, $"{words[0]} {words[1]}: {ours}");
            compared++;
        }

        Assert.Equal(Zones.Length * places.Length, compared);
    }

    [Fact]
    public void Back_PublishedTransverseMercator_AsPrinted() // source: reference/03_crs_operations.json, case tm_bng
    {
        var tm = Case("tm_bng");
        var input = tm.GetProperty("input");
        double In(string name) => input.GetProperty(name).GetDouble();
        var wkt = string.Create(CultureInfo.InvariantCulture,
            $"PROJCS[\"published example\",GEOGCS[\"on Airy\",DATUM[\"on Airy\",SPHEROID[\"Airy 1830\",{input.GetProperty("ellipsoid").GetProperty("a_m").GetDouble()},{input.GetProperty("ellipsoid").GetProperty("inv_f").GetDouble()}]],PRIMEM[\"Greenwich\",0],UNIT[\"degree\",0.0174532925199433]],PROJECTION[\"Transverse_Mercator\"],PARAMETER[\"latitude_of_origin\",{In("lat0_deg")}],PARAMETER[\"central_meridian\",{In("lon0_deg")}],PARAMETER[\"scale_factor\",{In("k0")}],PARAMETER[\"false_easting\",{In("FE_m")}],PARAMETER[\"false_northing\",{In("FN_m")}],UNIT[\"metre\",1],AXIS[\"E\",EAST],AXIS[\"N\",NORTH]]");
        var grid = GridToGeographic.For(wkt);
        var place = grid.Back(new(In("lon_deg"), In("lat_deg")));
        var (published, recomputed) = (tm.GetProperty("published"), tm.GetProperty("recomputed"));
        Assert.Equal(published.GetProperty("E_m").GetDouble(), place.East, tm.GetProperty("tolerance").GetProperty("m").GetDouble());
        Assert.Equal(published.GetProperty("N_m").GetDouble(), place.North, tm.GetProperty("tolerance").GetProperty("m").GetDouble());
        Assert.Equal(recomputed.GetProperty("E_m").GetDouble(), place.East, 0.0005);
        Assert.Equal(recomputed.GetProperty("N_m").GetDouble(), place.North, 0.0005);
        Assert.False(grid.ReachesWgs84); // no shift to WGS 84 is given
    }

    [Fact]
    public void Back_PublishedLambertConicInFeet_AsPrintedInMetres() // source: reference/03_crs_operations.json, case lcc2sp_texas
    {
        var published = Case("lcc2sp_texas").GetProperty("published");
        const double foot = 1200.0 / 3937;
        const string wkt = "PROJCS[\"published example\",GEOGCS[\"on Clarke\",DATUM[\"on Clarke\",SPHEROID[\"Clarke 1866\",6378206.4,294.978698213898]],PRIMEM[\"Greenwich\",0],UNIT[\"degree\",0.0174532925199433]],PROJECTION[\"Lambert_Conformal_Conic_2SP\"],PARAMETER[\"standard_parallel_1\",28.3833333333333333],PARAMETER[\"standard_parallel_2\",30.2833333333333333],PARAMETER[\"latitude_of_origin\",27.8333333333333333],PARAMETER[\"central_meridian\",-99],PARAMETER[\"false_easting\",2000000],PARAMETER[\"false_northing\",0],UNIT[\"US survey foot\",0.304800609601219],AXIS[\"E\",EAST],AXIS[\"N\",NORTH]]";
        var place = GridToGeographic.For(wkt).Back(new(-96, 28.5));
        Assert.Equal(published.GetProperty("E_ftUS").GetDouble() * foot, place.East, 0.01 * foot);
        Assert.Equal(published.GetProperty("N_ftUS").GetDouble() * foot, place.North, 0.01 * foot);
    }

    [Theory]
    [InlineData("EPSG:4326", "EPSG:4326 is not known here")]
    [InlineData("EPSG:32661", "expected EPSG:32601")]
    [InlineData("EPSG:25839", "UTM")]
    [InlineData("PROJCRS[\"WKT 2\"]", "beginning with PROJCS")]
    [InlineData("LOCAL_CS[\"site\",UNIT[\"metre\",1]]", "beginning with PROJCS")]
    [InlineData("PROJCS[\"broken\"", "cannot be used")]
    [InlineData("PROJCS[]", "cannot be used")]
    [InlineData("", "EPSG code")]
    public void For_WhatIsNoGrid_SaysWhatWasExpected(string coordinateSystem, string told)
    {
        var error = Assert.Throws<ArgumentException>(() => GridToGeographic.For(coordinateSystem));
        Assert.Contains(told, error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void For_NorthBeforeEast_IsRefused()
    {
        const string wkt = "PROJCS[\"turned\",GEOGCS[\"WGS 84\",DATUM[\"WGS_1984\",SPHEROID[\"WGS 84\",6378137,298.257223563]],PRIMEM[\"Greenwich\",0],UNIT[\"degree\",0.0174532925199433]],PROJECTION[\"Transverse_Mercator\"],PARAMETER[\"latitude_of_origin\",0],PARAMETER[\"central_meridian\",9],PARAMETER[\"scale_factor\",1],PARAMETER[\"false_easting\",500000],PARAMETER[\"false_northing\",0],UNIT[\"metre\",1],AXIS[\"N\",NORTH],AXIS[\"E\",EAST]]";
        Assert.False(GridToGeographic.TryFor(wkt, out _, out var why));
        Assert.Contains("east, then north", why, StringComparison.Ordinal);
    }

    [Fact]
    public void For_TextWrittenByAnotherProgram_IsTheSameGrid()
    {
        var wkt = ForeignTool.Python("""
            from osgeo import osr
            osr.UseExceptions()
            grid = osr.SpatialReference()
            grid.ImportFromEPSG(25832)
            print(grid.ExportToWkt(['FORMAT=WKT1_GDAL']))
            """, ["osgeo"]);
        var (theirs, ours) = (GridToGeographic.For(wkt), GridToGeographic.For("EPSG:25832"));
        Assert.True(theirs.ReachesWgs84);
        Assert.Equal(ours.Of(new(512_000, 6_243_000)), theirs.Of(new(512_000, 6_243_000)));
    }

    [Fact]
    public void For_AnyBeginningOfAGoodText_NeverThrowsAnythingElse()
    {
        const string wkt = "PROJCS[\"WGS 84 / UTM zone 32N\",GEOGCS[\"WGS 84\",DATUM[\"WGS_1984\",SPHEROID[\"WGS 84\",6378137,298.257223563]],PRIMEM[\"Greenwich\",0],UNIT[\"degree\",0.0174532925199433]],PROJECTION[\"Transverse_Mercator\"],PARAMETER[\"latitude_of_origin\",0],PARAMETER[\"central_meridian\",9],PARAMETER[\"scale_factor\",0.9996],PARAMETER[\"false_easting\",500000],PARAMETER[\"false_northing\",0],UNIT[\"metre\",1]]";
        Assert.Equal(GridToGeographic.For("EPSG:32632").Of(new(512_000, 6_243_000)), GridToGeographic.For(wkt).Of(new(512_000, 6_243_000)));
        for (var length = 0; length < wkt.Length - 1; length++)
            Assert.False(GridToGeographic.TryFor(wkt[..length], out _, out var why) || why.Length == 0, wkt[..length]);
    }

    private static JsonElement Case(string id)
    {
        var file = System.IO.Path.Combine(AppContext.BaseDirectory, "reference", "03_crs_operations.json");
        return JsonSerializer.Deserialize<JsonElement>(File.ReadAllText(file)).GetProperty("cases").EnumerateArray().Single(c => c.GetProperty("id").GetString() == id);
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
