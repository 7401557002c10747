using CsCheck;
using NetTopologySuite.Geometries;

namespace Aslaid.Tests;

public class PathDepartureTests
{
    private static readonly Point2 Somewhere = new(512_000, 6_243_000);

    private static Path Made(params (double East, double North, bool Through)[] places)
    {
        Assert.True(Path.TryBuild([.. places.Select(place => new PathVertex(Somewhere + new Step(place.East, place.North), null, place.Through))], 1e-9, out var path, out _));
        return path;
    }

    [Fact]
    public void Departure_ChordOfAnArc_IsItsSagitta()
    {
        var design = Made((0, 0, false), (10 * Math.Sin(0.5), 10 - 10 * Math.Cos(0.5), true), (10 * Math.Sin(1), 10 - 10 * Math.Cos(1), false));
        var built = Made((0, 0, false), (10 * Math.Sin(1), 10 - 10 * Math.Cos(1), false));
        var departure = built.Departure(0, design);
        Assert.Equal(10 * (1 - Math.Cos(0.5)), departure.Distance, 1e-7);
        Assert.Equal(built.PlanLength / 2, departure.Here, 1e-3);
    }

    [Fact]
    public void Departure_AcrossACorner_IsOnItsBisector()
    {
        var departure = Made((5, 0, false), (10, 5, false)).Departure(0, Made((0, 0, false), (10, 0, false), (10, 10, false)));
        Assert.Equal(2.5, departure.Distance, 1e-4);
    }

    [Fact]
    public void Departure_OnItself_IsNothing()
    {
        var path = Made((0, 0, false), (10, 2, false), (15, 7, true), (14, 15, false));
        for (var piece = 0; piece < path.Pieces.Length; piece++) Assert.Equal(0, path.Departure(piece, path).Distance, 1e-7);
    }

    [Fact]
    public void Departure_AnyPaths_IsThatOfDenseSampling() => Gen.Select(Gen.Double[-4, 4].Array[8], Gen.Bool.Array[2]).Sample((off, through) =>
    {
        var design = Made((0, 0, false), (10, off[0], false), (16, off[1] + 1, true), (22, off[2] + 4, false), (32, off[3] + 6, false));
        var built = Made((1, off[4], false), (12, off[5], through[0]), (20, off[6] + 3, false), (26, off[7] + 3, through[1]), (31, 6, false));
        for (var piece = 0; piece < built.Pieces.Length; piece++)
        {
            var most = 0.0;
            var (from, to) = (built.StartOf(piece), built.StartOf(piece + 1));
            for (var i = 0; i <= 400; i++) most = Math.Max(most, design.Locate(built.PointAt(Math.Min(from + (to - from) * i / 400, to - 1e-9))).Distance);
            var found = built.Departure(piece, design).Distance;
            Assert.True(found >= most - 2e-3 && found <= most + (to - from) / 400, $"{found} {most}");
        }
    }, iter: 500);

    /// <summary>NetTopologySuite on a copy of chords that leave the arcs by no more than a micrometre.</summary>
    [Fact]
    public void Locate_AnyPlace_IsAsFarAsForeignChordsSay()
    {
        var design = Made((0, 0, false), (30, 0, false), (44.142, 5.858, true), (50, 20, false), (50, 40, false), (47, 47, true), (40, 50, false));
        var factory = new GeometryFactory();
        var line = factory.CreateLineString([.. design.Chords(1e-6).Select(point => new Coordinate(point.At.East - Somewhere.East, point.At.North - Somewhere.North))]);
        Gen.Select(Gen.Double[-10, 60], Gen.Double[-10, 60]).Sample((e, n) =>
            Assert.Equal(line.Distance(factory.CreatePoint(new Coordinate(e, n))), design.Locate(Somewhere + new Step(e, n)).Distance, 2e-6), iter: 2000);
    }

    [Fact]
    public void IsClosed_TwoHalfCircles_IsARing()
    {
        var (from, to, centre) = (Somewhere, Somewhere + new Step(2, 0), Somewhere + new Step(1, 0));
        Assert.True(Arc.TryAbout(from, to, centre, Turn.Left, 1e-9, out var there) & Arc.TryAbout(to, from, centre, Turn.Left, 1e-9, out var back));
        var ring = Path.Of([new(from, null, false), new(to, null, false), new(from, null, false)], [new(PieceKind.Arc, 0, 1, there), new(PieceKind.Arc, 1, 2, back)]);
        Assert.True(ring.IsClosed);
        Assert.Equal(Math.PI, ring.SignedArea!.Value, 1e-9);
        Assert.False(Made((0, 0, false), (5, 0, false), (0, 0, false)).IsClosed); // there and back
    }

    [Fact]
    public void OfSweep_AnyArc_IsItsOwn() => Gen.Select(Gen.Double[0.05, 6.2], Gen.Double[0.5, 500], Gen.Bool).Sample((sweep, radius, left) =>
    {
        var centre = Somewhere + new Step(3, 4);
        var from = centre + new Step(radius, 0);
        var (sin, cos) = Math.SinCos(left ? sweep : -sweep);
        var to = centre + radius * new Step(cos, sin);
        var arc = Arc.OfSweep(from, to, sweep, left ? Turn.Left : Turn.Right);
        Assert.True(arc.Centre.DistanceTo(centre) < 1e-6);
        Assert.Equal(radius, arc.Radius, 1e-6);
        Assert.True(Arc.TryAbout(from, to, centre, left ? Turn.Left : Turn.Right, 1e-6, out var about));
        Assert.Equal(sweep, about.Sweep, 1e-7);
        if (from.DistanceTo(to) > 0.1) Assert.False(Arc.TryAbout(from, to, centre + 1 / from.DistanceTo(to) * (to - from), Turn.Left, 1e-3, out _));
    });
}
