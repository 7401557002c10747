using System.Globalization;
using System.Xml.Linq;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Tests;

/// <summary>The schema itself is not at hand here: what it demands of the elements written is checked one by one.</summary>
public class LandXmlDeliverableTests
{
    private static readonly XNamespace Ns = "http://www.landxml.org/schema/LandXML-1.2";

    /// <summary>Attributes that each element must have, and those that it may have besides.</summary>
    private static readonly Dictionary<string, (string[] Must, string[] May)> Attributes = new()
    {
        ["LandXML"] = (["version", "date", "time"], ["language", "readOnly", "xmlns"]),
        ["Units"] = ([], []),
        ["Metric"] = (["areaUnit", "linearUnit", "volumeUnit", "temperatureUnit", "pressureUnit"], ["angularUnit", "directionUnit"]),
        ["CoordinateSystem"] = ([], ["name", "epsgCode", "ogcWktCode"]),
        ["Project"] = (["name"], ["desc"]),
        ["Application"] = (["name"], ["desc"]),
        ["CgPoints"] = ([], ["name", "state"]),
        ["CgPoint"] = (["name"], ["desc", "code"]),
        ["PlanFeatures"] = ([], ["name"]),
        ["PlanFeature"] = (["name"], ["desc", "state"]),
        ["CoordGeom"] = ([], []),
        ["Line"] = ([], ["length"]),
        ["Curve"] = (["rot"], ["crvType", "radius", "delta", "length", "chord"]),
        ["Start"] = ([], []),
        ["Center"] = ([], []),
        ["End"] = ([], []),
        ["Feature"] = ([], ["code"]),
        ["Property"] = (["label", "value"], []),
    };

    [Fact]
    public void Write_DecimalCommaCulture_SameBytes() => DeliveryFolder.AssertSameBytes(new LandXmlDeliverable(), () => ExchangeSite.Small("EPSG:25832"));

    [Fact]
    public void Write_SampleSite_AsTheSchemaDemands()
    {
        var root = Read(ExchangeSite.Sample(SampleSites.WithMistakes(4)));
        Assert.Equal(Ns + "LandXML", root.Name);
        Assert.Equal(["Units", "Project", "Application", "CgPoints", "PlanFeatures"], root.Elements().Select(e => e.Name.LocalName));
        Assert.All(root.DescendantsAndSelf(), element =>
        {
            Assert.Equal(Ns, element.Name.Namespace);
            var (must, may) = Attributes[element.Name.LocalName];
            var has = element.Attributes().Select(a => a.Name.LocalName).ToArray();
            Assert.Empty(must.Except(has));
            Assert.Empty(has.Except(must).Except(may));
        });
        Assert.All(root.Descendants(Ns + "Line"), line => Assert.Equal(["Start", "End"], line.Elements().Select(e => e.Name.LocalName)));
        Assert.All(root.Descendants(Ns + "Curve"), curve => Assert.Equal(["Start", "Center", "End"], curve.Elements().Select(e => e.Name.LocalName)));
        Assert.All(root.Descendants(Ns + "PlanFeature"), feature => Assert.Equal(["CoordGeom", "Feature"], feature.Elements().Select(e => e.Name.LocalName)));
        var names = root.Descendants(Ns + "CgPoint").Select(point => point.Attribute("name")!.Value).ToArray();
        Assert.Equal(names.Length, names.Distinct().Count());
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void Write_SampleSite_ChainsJoinCurvesAreRoundAndLengthsAreTheRecords(int seed)
    {
        var handover = ExchangeSite.Sample(SampleSites.Clean(seed));
        AssertGeometry(handover, Read(handover));
    }

    [Fact]
    public void Write_SmallSite_ChainsJoinCurvesAreRoundAndLengthsAreTheRecords()
    {
        var handover = ExchangeSite.Small();
        AssertGeometry(handover, Read(handover));
    }

    [Fact]
    public void Write_FullCircle_IsTwoCurves()
    {
        var circle = Read(ExchangeSite.Small()).Descendants(Ns + "PlanFeature").Single(f => f.Attribute("name")!.Value == "TREE-PIT/T-1@North");
        var curves = circle.Descendants(Ns + "Curve").ToArray();
        Assert.Equal(2, curves.Length);
        Assert.All(curves, curve => Assert.Equal(("ccw", 1.0, 180.0), (curve.Attribute("rot")!.Value, Number(curve.Attribute("radius")!), Number(curve.Attribute("delta")!))));
    }

    [Fact]
    public void Write_Points_AreNorthEastHeightAndNamedForGood()
    {
        var root = Read(ExchangeSite.Small());
        var points = root.Descendants(Ns + "CgPoint").ToDictionary(p => p.Attribute("name")!.Value);
        Assert.Equal("6243000.000000000 512010.000000000 5.100000000", points["1:3"].Value);
        Assert.Equal(("2", "WATER-MAIN"), (points["1:3"].Attribute("desc")!.Value, points["1:3"].Attribute("code")!.Value));
        Assert.Equal("6242990.000000000 512000.000000000", points["1:21"].Value); // no height is no number
        Assert.DoesNotContain("1:25", points); // set aside
        var told = root.Descendants(Ns + "Feature").Single(f => f.Elements().Any(p => p.Attribute("label")!.Value == "point" && p.Attribute("value")!.Value == "1:3"))
            .Elements().ToDictionary(p => p.Attribute("label")!.Value, p => p.Attribute("value")!.Value);
        Assert.Equal(("stated", "0.0120", "gnss"), (told["accuracy"], told["u_plan_m"], told["method"]));
    }

    [Fact]
    public void Write_CoordinateSystem_IsNamed()
    {
        var system = Read(ExchangeSite.Small("EPSG:25832")).Element(Ns + "CoordinateSystem")!;
        Assert.Equal(("ETRS89 / UTM zone 32N", "25832"), (system.Attribute("name")!.Value, system.Attribute("epsgCode")!.Value));
    }

    [Fact]
    public void Write_SmallSite_ForeignReaderFindsItWellFormed()
    {
        using var folder = DeliveryFolder.With(new LandXmlDeliverable(), ExchangeSite.Small());
        Assert.Equal("", ForeignTool.Run("xmllint", "--noout", "--nonet", folder.PathOf("record.xml")));
    }

    private static XElement Read(Handover handover)
    {
        using var folder = DeliveryFolder.With(new LandXmlDeliverable(), handover);
        return XDocument.Parse(folder.Text("record.xml")).Root!;
    }

    private static void AssertGeometry(Handover handover, XElement root)
    {
        var record = handover.Record;
        var features = root.Descendants(Ns + "PlanFeature").ToDictionary(f => f.Attribute("name")!.Value);
        Assert.Equal(record.Runs.Count, features.Count);
        for (var number = 0; number < record.Runs.Count; number++)
        {
            var run = record.Runs[number];
            var (length, last) = (0.0, default(Point2?));
            foreach (var piece in features[run.Key].Element(Ns + "CoordGeom")!.Elements())
            {
                var (from, to) = (Place(piece, "Start"), Place(piece, "End"));
                if (last is { } end) Assert.Equal(end, from); // to the last digit written
                last = to;
                length += Number(piece.Attribute("length")!);
                if (piece.Name.LocalName != "Curve") continue;
                var (centre, radius) = (Place(piece, "Center"), Number(piece.Attribute("radius")!));
                Assert.Equal(radius, centre.DistanceTo(from), 1e-6);
                Assert.Equal(radius, centre.DistanceTo(to), 1e-6);
                Assert.Equal(radius * double.DegreesToRadians(Number(piece.Attribute("delta")!)), Number(piece.Attribute("length")!), 1e-6);
                var turned = (from - centre).Cross(to - centre) > 0 == (piece.Attribute("rot")!.Value == "ccw"); // less than half a turn
                var delta = Number(piece.Attribute("delta")!);
                Assert.True(delta == 180 || turned == delta < 180);
            }

            Assert.Equal(run.PlanLength, length, 1e-6);
            if (run.IsClosed) Assert.Equal(Place(features[run.Key].Descendants().First(e => e.Name.LocalName is "Line" or "Curve"), "Start"), last);
        }
    }

    private static Point2 Place(XElement piece, string name)
    {
        var words = piece.Element(Ns + name)!.Value.Split(' ');
        return new(double.Parse(words[1], CultureInfo.InvariantCulture), double.Parse(words[0], CultureInfo.InvariantCulture));
    }

    private static double Number(XAttribute attribute) => double.Parse(attribute.Value, CultureInfo.InvariantCulture);
}
