using System.Collections.Immutable;

namespace Aslaid.Tests;

public sealed class PathTests
{
    /// <summary>Straights and arcs, a fitted arc among them, with heights: a legs' list of turns and lengths walked from the site.</summary>
    internal static readonly Gen<Path> Paths = Gen.Select(ArcGen.Place(200), Gen.Double[0, double.Tau], Gen.Select(Gen.Double[1, 40], Gen.Double[-4, 4], Gen.Double[-1, 1]).Array[1, 40], (start, heading, legs) =>
    {
        var vertices = new List<PathVertex> { new(start, 5, false) };
        var at = start;
        var ahead = heading;
        foreach (var (length, sweep, climb) in legs)
        {
            var height = vertices[^1].Height!.Value + climb;
            if (Math.Abs(sweep) < 1)
            {
                at += length * Bearing.FromRadians(ahead).Unit;
                ahead += sweep;
            }
            else
            {
                var bend = Math.Abs(sweep) - 0.9;
                var truth = Ahead(at, ahead, length / bend, bend, sweep > 0 ? Turn.Right : Turn.Left);
                vertices.Add(new(truth.At(0.4), height - climb / 3, true));
                if (sweep > 2) vertices.Add(new(truth.At(0.6, 1e-3 * truth.Sagitta), height, true));
                at = truth.At(1);
                ahead += Math.CopySign(bend, sweep) + 0.1;
            }
            vertices.Add(new(at, height, false));
        }
        return Build([.. vertices]);
    });

    [Fact]
    public void PointAt_AnyChainage_LocatesBack() => Gen.Select(Paths, Gen.Double[0, 1]).Sample((path, f) =>
    {
        var chainage = f * path.PlanLength;
        var place = path.PointAt(chainage);
        var locus = path.Locate(place);
        Assert.Equal(0, locus.Distance, 1e-6);
        // A path may cross itself: the chainage found may be another, its place is not.
        Assert.InRange(path.PointAt(locus.Along).DistanceTo(place), 0, 1e-6);
    });

    [Fact]
    public void Locate_AnyPlace_IsNoFartherThanAnyPointOfThePath() => Gen.Select(Paths, ArcGen.Place(400), Gen.Double[0, 1]).Sample((path, place, f) =>
    {
        var locus = path.Locate(place, out var piece);
        Assert.Equal(locus.Distance, place.DistanceTo(path.PointAt(locus.Along)), 1e-6);
        Assert.InRange(locus.Along, path.StartOf(piece), path.StartOf(piece + 1) + 1e-9);
        Assert.True(locus.Distance <= place.DistanceTo(path.PointAt(f * path.PlanLength)) + 1e-6);
        Assert.True(Math.Abs(locus.Offset) <= locus.Distance + 1e-6);
        Assert.Equal(path.Span.Locate(place, out _).Distance, locus.Distance, 1e-9); // through the index or not
    });

    [Fact]
    public void Reverse_AnyPath_TurnsOffsetsAndKeepsLengths() => Gen.Select(Paths, ArcGen.Place(400), Gen.Double[0, 1]).Sample((path, place, f) =>
    {
        var back = path.Reverse();
        Assert.Equal(path.PlanLength, back.PlanLength, 1e-8);
        Assert.Equal(path.SlopeLength!.Value, back.SlopeLength!.Value, 1e-6);
        Assert.Equal(path.Box, back.Box);
        Assert.InRange(path.PointAt(f * path.PlanLength).DistanceTo(back.PointAt(back.PlanLength - f * path.PlanLength)), 0, 1e-6);
        Locus a = path.Locate(place), b = back.Locate(place);
        Assert.Equal(a.Distance, b.Distance, 1e-7);
        if (a.Foot.DistanceTo(b.Foot) < 1e-7 && Math.Abs(a.Along + b.Along - path.PlanLength) < 1e-6) Assert.Equal(a.Offset, -b.Offset, 1e-5);
    });

    [Fact]
    public void Chainages_AtEveryVertex_NeverFallAndEndAtTheLength() => Paths.Sample(path =>
    {
        var chainages = path.Chainages;
        Assert.Equal(path.Vertices.Length, chainages.Length);
        Assert.Equal(path.PlanLength, chainages[^1]);
        for (var i = 1; i < chainages.Length; i++) Assert.True(chainages[i] >= chainages[i - 1]);
        for (var i = 0; i < chainages.Length; i++)
        {
            Assert.InRange(path.PointAt(chainages[i]).DistanceTo(path.Vertices[i].At), 0, path.Vertices[i].Through ? 0.2 : 1e-7);
            Assert.Equal(path.Vertices[i].Height!.Value, path.HeightAt(chainages[i])!.Value, 1e-9);
        }
    });

    [Fact]
    public void Chords_AtASagitta_LeaveThePathByNoMore() => Gen.Select(Paths, Gen.Double[0.001, 0.5]).Sample((path, sagitta) =>
    {
        var chords = path.Chords(sagitta);
        Assert.Equal(path.PointAt(0), chords[0].At);
        Assert.Equal(path.PointAt(path.PlanLength), chords[^1].At);
        for (var i = 1; i < chords.Length; i++)
        {
            var chord = new Straight(chords[i - 1].At, chords[i].At);
            for (var part = 1; part < 8; part++)
            {
                var chainage = chords[i - 1].Chainage + (chords[i].Chainage - chords[i - 1].Chainage) * part / 8;
                Assert.InRange(chord.Locate(path.PointAt(chainage)).Distance, 0, sagitta + 1e-7);
            }
        }
    }, iter: 40);

    [Fact]
    public void PlanLength_SplitAtAChainage_AddsUp() => Gen.Select(ArcGen.Round, Gen.Double[0.05, 0.95]).Sample((t, f) =>
    {
        var arc = t.Arc;
        var cut = arc.PointAt(f * arc.PlanLength);
        Arc first = Arc.Through(arc.From, arc.PointAt(f / 2 * arc.PlanLength), cut, 0), second = Arc.Through(cut, arc.PointAt((1 + f) / 2 * arc.PlanLength), arc.To, 0);
        Assert.Equal(arc.PlanLength, first.PlanLength + second.PlanLength, 1e-6);
        var triangle = (cut - arc.From).Cross(arc.To - arc.From) / 2;
        Assert.Equal(arc.SegmentArea, first.SegmentArea + second.SegmentArea + triangle, 1e-6 * t.Radius);
    });

    [Fact]
    public void SlopeLength_OfAHelix_IsExact()
    {
        // Climbing evenly along a circle of radius R by h over a sweep θ: √((Rθ)² + h²).
        var t = new ArcGen.Truth(ArcGen.Site, 12, 0.3, 4, Turn.Left);
        var path = Build([new(t.At(0), 5, false), new(t.At(0.25), 5.75, true), new(t.At(1), 8, false)]);
        Assert.Equal(Math.Sqrt(48 * 48 + 9), path.SlopeLength!.Value, 1e-7);
        Assert.Equal(48, path.PlanLength, 1e-8);
        Assert.Equal(6.5, path.HeightAt(24)!.Value, 1e-8);
    }

    [Fact]
    public void HeightAt_MissingHeights_RunsBetweenKnownAndEndsWithThem()
    {
        var a = ArcGen.Site;
        var path = Build([new(a, null, false), new(a + new Step(10, 0), 5, false), new(a + new Step(20, 0), null, false), new(a + new Step(30, 0), 7, false), new(a + new Step(40, 0), null, false)]);
        Assert.Null(path.SlopeLength);
        Assert.Null(PathMeasures.SlopeLength(path));
        Assert.Null(path.HeightAt(5));
        Assert.Equal(5, path.HeightAt(10));
        Assert.Equal(6, path.HeightAt(20));
        Assert.Equal(6.5, path.HeightAt(25));
        Assert.Null(path.HeightAt(30.1));
    }

    [Theory]
    [InlineData(3)]
    [InlineData(7)]
    public void TryBuild_ThroughPlacesRoundToTheStart_IsAFullCircle(int places)
    {
        var t = new ArcGen.Truth(ArcGen.Site, 4, 0, double.Tau, Turn.Left);
        PathVertex[] vertices = [.. Enumerable.Range(0, places + 1).Select(i => new PathVertex(t.At(i % places / (double)places), 5, i > 0 && i < places))];
        var path = Build(vertices);
        Assert.True(path.Pieces.Single().Arc.IsFullCircle);
        Assert.True(path.IsClosed);
        Assert.Equal(8 * Math.PI, path.PlanLength, 1e-7);
        Assert.Equal(16 * Math.PI, path.SignedArea!.Value, 1e-7);
        Assert.Equal(-16 * Math.PI, path.Reverse().SignedArea!.Value, 1e-7);
        Assert.Equal(path.PlanLength / places, path.Chainages[1], 1e-7);
    }

    [Fact]
    public void Of_CircleOfTwoPlaces_MeasuresButAnswersToNoShots()
    {
        Point2 start = ArcGen.Site, opposite = start + new Step(8, 0);
        var path = Path.Of([new(start, null, false), new(opposite, null, true), new(start, null, false)],
            [new(PieceKind.Arc, 0, 2, Arc.FullCircle(start, opposite, Turn.Right))]);
        Assert.True(path.IsClosed);
        Assert.Equal(8 * Math.PI, path.PlanLength, 1e-9);
        Assert.Equal(-16 * Math.PI, path.SignedArea!.Value, 1e-8);
        Assert.Equal(4 * Math.PI, path.Chainages[1], 1e-9);
        Assert.Throws<ArgumentException>(() => PathMeasures.PlanLength(path));
    }

    [Fact]
    public void TryBuild_FlatTriple_BecomesTwoStraightsAndIsReported()
    {
        var a = ArcGen.Site;
        Assert.True(Path.TryBuild([new(a, 5, false), new(a + new Step(5, 0.002), 5, true), new(a + new Step(10, 0), 5, false)], 0.03, out var path, out var notes));
        Assert.Equal([PieceKind.Straight, PieceKind.Straight], path.Pieces.Select(p => p.Kind));
        Assert.Equal(new PathNote(PathFault.Straight, 0, 2), Assert.Single(notes));
        Assert.True(Path.TryBuild([.. path.Vertices], (first, last) => first == 0 && last == 2 ? 0.001 : 1, out var bent, out notes));
        Assert.Equal(PieceKind.Arc, bent.Pieces.Single().Kind);
        Assert.Empty(notes);
    }

    [Fact]
    public void TryBuild_OddVertices_AreReportedNotRefused()
    {
        Point2 a = ArcGen.Site, b = a + new Step(5, 1);
        Assert.True(Path.TryBuild([new(a, 5, false), new(b, 5, true), new(a, 5, false)], 0.01, out var thereAndBack, out var notes));
        Assert.Equal(PathFault.Coincident, notes.Single().Fault);
        Assert.Equal(2, thereAndBack.Pieces.Length);
        Assert.False(thereAndBack.IsClosed);
        Assert.Null(thereAndBack.SignedArea);
        Assert.True(Path.TryBuild([new(a, 5, true), new(b, 5, false), new(b, 5, false), new(a + new Step(9, 0), 5, true)], 0.01, out _, out notes));
        Assert.Equal([PathFault.ThroughAtEnd, PathFault.Coincident, PathFault.ThroughAtEnd], notes.Select(n => n.Fault));
        Assert.False(Path.TryBuild([new(a, 5, false)], 0.01, out _, out _));
    }

    [Fact]
    public void Of_PiecesThatDoNotJoin_Throws()
    {
        Point2 a = ArcGen.Site, b = a + new Step(5, 1), c = a + new Step(10, 0);
        ImmutableArray<PathVertex> v = [new(a, null, false), new(b, null, true), new(c, null, false)];
        var arc = Arc.Through(a, b, c, 0);
        Assert.Equal(arc.PlanLength, Path.Of(v, [new(PieceKind.Arc, 0, 2, arc)]).PlanLength);
        Assert.Throws<ArgumentException>(() => Path.Of(v, []));
        Assert.Throws<ArgumentException>(() => Path.Of(v, [new(PieceKind.Straight, 0, 1, default)]));
        Assert.Throws<ArgumentException>(() => Path.Of(v, [new(PieceKind.Straight, 0, 2, default)]));
        Assert.Throws<ArgumentException>(() => Path.Of(v, [new(PieceKind.Straight, 0, 1, default), new(PieceKind.Straight, 0, 2, default)]));
        Assert.Throws<ArgumentException>(() => Path.Of(v, [new(PieceKind.Arc, 0, 2, arc.Reverse())]));
    }

    [Fact]
    public void Locate_OutsideASharpCorner_OffsetIsTheDistanceOnTheOuterSide()
    {
        var a = ArcGen.Site;
        var path = Build([new(a, null, false), new(a + new Step(10, 0), null, false), new(a + new Step(1, 2), null, false)]); // turns left by 167°
        var beyond = path.Locate(a + new Step(13, 0.4));
        Assert.Equal(10, beyond.Along);
        Assert.Equal(beyond.Distance, beyond.Offset); // right, though left of the first straight produced
    }

    [Fact]
    public void Locate_BeyondAnOpenEnd_OffsetIsTheSquarePart()
    {
        var a = ArcGen.Site;
        var path = Build([new(a, null, false), new(a + new Step(10, 0), null, false)]);
        var locus = path.Locate(a + new Step(13, -4));
        Assert.Equal(new Locus(10, 4, 5, a + new Step(10, 0)), locus);
    }

    [Fact]
    public void SignedArea_OpenPath_IsNull()
    {
        var a = ArcGen.Site;
        var path = Build([new(a, null, false), new(a + new Step(10, 0), null, false), new(a + new Step(0, 10), null, false)]);
        Assert.Null(path.SignedArea);
        Assert.Throws<ArgumentException>(() => PathMeasures.Area(path));
        Assert.Throws<ArgumentException>(() => PathMeasures.Radius(path, 0));
    }

    internal static Path Build(PathVertex[] vertices)
    {
        Assert.True(Path.TryBuild(vertices, 1e-6, out var path, out _));
        return path;
    }

    private static ArcGen.Truth Ahead(Point2 from, double bearing, double radius, double sweep, Turn turn)
    {
        var left = Bearing.FromRadians(bearing).Unit.Left;
        var toCentre = turn == Turn.Left ? radius * left : -radius * left;
        return new(from + toCentre, radius, Math.Atan2(-toCentre.North, -toCentre.East), sweep, turn);
    }
}
