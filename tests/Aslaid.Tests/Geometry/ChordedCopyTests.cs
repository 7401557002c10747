using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Distance;

namespace Aslaid.Tests;

/// <summary>An independent library on chorded copies: both must tend to the same numbers.</summary>
public sealed class ChordedCopyTests
{
    private const double Sagitta = 1e-5; // m

    private static readonly GeometryFactory Factory = new();

    [Fact]
    public void PlanLength_ChordedCopy_Agrees() => PathTests.Paths.Sample(path =>
    {
        var copy = Line(path);
        Assert.InRange(path.PlanLength - copy.Length, -1e-6, 0.01 * path.Pieces.Length); // chords are shorter, by 8s²/3c each
        Assert.Equal(path.PlanLength, copy.Length, 1e-4 * path.PlanLength);
    }, iter: 50);

    [Fact]
    public void SignedArea_ChordedCopy_Agrees() => ArcGen.Round.Sample(t =>
    {
        Assert.True(Path.TryBuild([new(t.At(0), null, false), new(t.At(0.4), null, true), new(t.At(1), null, false), new(t.Centre, null, false), new(t.At(0), null, false)], 1e-6, out var path, out _));
        var copy = Factory.CreatePolygon(Coordinates(path));
        Assert.Equal(copy.Area, Math.Abs(path.SignedArea!.Value), 1e-4 * (1 + t.Radius));
        Assert.Equal(t.Turn == Turn.Left, path.SignedArea > 0);
    }, iter: 50);

    [Fact]
    public void Nearest_ChordedCopies_Agree() => Gen.Select(PathTests.Paths, PathTests.Paths).Sample((a, b) =>
        Assert.Equal(DistanceOp.Distance(Line(a), Line(b)), a.Nearest(b).Distance, 3 * Sagitta), iter: 25);

    [Fact]
    public void Locate_ChordedCopy_Agrees() => Gen.Select(PathTests.Paths, ArcGen.Place(400)).Sample((path, place) =>
        Assert.Equal(Line(path).Distance(Factory.CreatePoint(new Coordinate(place.East - ArcGen.Site.East, place.North - ArcGen.Site.North))), path.Locate(place).Distance, 2 * Sagitta), iter: 50);

    // The copy is drawn about the site: its area is formed from full coordinates.
    private static Coordinate[] Coordinates(Path path) =>
        [.. path.Chords(Sagitta).Select(p => new Coordinate(p.At.East - ArcGen.Site.East, p.At.North - ArcGen.Site.North))];

    private static LineString Line(Path path) => Factory.CreateLineString(Coordinates(path));
}
