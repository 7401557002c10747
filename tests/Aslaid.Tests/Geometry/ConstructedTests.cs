using Aslaid.Geometry;
using CsCheck;

namespace Aslaid.Tests;

public class ConstructedTests
{
    private static readonly Point2 Origin = new(512_000, 6_243_000);

    private static Place3 At(double east, double north, double height) => new(Origin + new Step(east, north), height);

    private static void AssertAt(double east, double north, double height, ConstructedPlace place)
    {
        Assert.Equal(0, (place.At - (Origin + new Step(east, north))).Size, 1e-8);
        Assert.Equal(height, place.Height!.Value, 1e-9);
    }

    [Fact]
    public void Closed_Forms_AreMet()
    {
        AssertAt(3, 4, 4.55, Constructed.Tape(At(3, 4, 5), -0.45));
        AssertAt(3, 4 - 10, 6, Constructed.ByBearing(At(3, 4, 5), Math.PI, 10, 1));
        Assert.True(Constructed.TryOffset(At(0, 0, 5), At(0, 10, 9), 4, 2, 0.5, out var offset, out _));
        AssertAt(2, 4, 5.5, offset!); // looking north, right is east
        Assert.True(Constructed.TryTwoDistances(At(0, 0, 5), At(0, 10, 7), 6, 8, 1, out var two, out _));
        AssertAt(4.8, 3.6, 6, two!); // the triangle 6, 8, 10
        Assert.True(Constructed.TryTwoDistances(At(0, 0, 5), At(0, 10, 7), 6, 8, -1, out two, out _));
        AssertAt(-4.8, 3.6, 6, two!);
        Assert.True(Constructed.TryLineWithLine(At(0, 0, 5), At(10, 0, 6), At(20, -5, 0), At(20, 5, 0), out var meeting, out _));
        AssertAt(20, 0, 7, meeting!);
    }

    [Fact]
    public void Faults_AreTold()
    {
        Assert.False(Constructed.TryOffset(At(0, 0, 5), At(0, 0, 9), 4, 2, 0.5, out _, out var fault));
        Assert.Equal(ConstructionFault.OnePlace, fault);
        Assert.False(Constructed.TryTwoDistances(At(0, 0, 5), At(10, 0, 5), 3, 4, 1, out _, out fault));
        Assert.Equal(ConstructionFault.NoMeeting, fault);
        Assert.False(Constructed.TryTwoDistances(At(0, 0, 5), At(10, 0, 5), 3, 20, 1, out _, out fault));
        Assert.Equal(ConstructionFault.NoMeeting, fault);
        Assert.False(Constructed.TryTwoDistances(At(0, 0, 5), At(10, 0, 5), 4, 6, 1, out _, out fault));
        Assert.Equal(ConstructionFault.NearlyInLine, fault);
        Assert.False(Constructed.TryLineWithLine(At(0, 0, 5), At(10, 0, 5), At(0, 1, 5), At(10, 1.05, 5), out _, out fault));
        Assert.Equal(ConstructionFault.NearlyInLine, fault);
    }

    /// <summary>Derivatives by places and readings are those that small moves show.</summary>
    [Fact]
    public void Answers_AreThoseOfSmallMoves() => Gen.Select(Gen.Double[-20, 20].Array[8], Gen.Double[4, 6].Array[4], Gen.Double[0.5, 12].Array[3], Gen.Int[0, 4]).Sample(drawn =>
    {
        var (xy, heights, readings, kind) = drawn;
        var places = Enumerable.Range(0, 4).Select(i => At(xy[2 * i], xy[2 * i + 1], heights[i])).ToArray();
        if ((places[1].At - places[0].At).Size < 1 || (places[3].At - places[2].At).Size < 1 || Make(kind, places, readings) is not { } here || here.ByPlace.Any(answer => answer.ByEast.Size + answer.ByNorth.Size > 8)) return;
        const double by = 1e-5;
        for (var i = 0; i < here.ByPlace.Length; i++)
        {
            AssertAnswer(here.ByPlace[i].ByEast, here.ByPlace[i].HeightByEast, Moved(i, new(by, 0), 0), Moved(i, new(-by, 0), 0));
            AssertAnswer(here.ByPlace[i].ByNorth, here.ByPlace[i].HeightByNorth, Moved(i, new(0, by), 0), Moved(i, new(0, -by), 0));
            AssertAnswer(default, here.ByPlace[i].HeightByHeight, Moved(i, default, by), Moved(i, default, -by));
        }

        for (var i = 0; i < here.ByReading.Length; i++)
        {
            double[] more = [.. readings], less = [.. readings];
            (more[i], less[i]) = (more[i] + by, less[i] - by);
            if (Make(kind, places, more) is { } up && Make(kind, places, less) is { } down) AssertAnswer(here.ByReading[i].Plan, here.ByReading[i].Height, up, down);
        }

        ConstructedPlace? Moved(int which, Step plan, double height)
        {
            var moved = places.ToArray();
            moved[which] = new(moved[which].At + plan, moved[which].Height + height);
            return Make(kind, moved, readings);
        }

        static void AssertAnswer(Step plan, double height, ConstructedPlace? more, ConstructedPlace? less)
        {
            if (more is null || less is null) return;
            Assert.Equal(0, (1 / (2 * by) * (more.At - less.At) - plan).Size, 2e-3);
            Assert.Equal(height, (more.Height!.Value - less.Height!.Value) / (2 * by), 2e-3);
        }
    }, iter: 3000);

    private static ConstructedPlace? Make(int kind, Place3[] places, double[] readings)
    {
        ConstructedPlace? place = null;
        switch (kind)
        {
            case 0: return Constructed.Tape(places[0], readings[0]);
            case 1: return Constructed.ByBearing(places[0], readings[0], readings[1], readings[2]);
            case 2: Constructed.TryOffset(places[0], places[1], readings[0], readings[1], readings[2], out place, out _); break;
            case 3: Constructed.TryTwoDistances(places[0], places[1], readings[0], readings[1], 1, out place, out _); break;
            default: Constructed.TryLineWithLine(places[0], places[1], places[2], places[3], out place, out _); break;
        }

        return place;
    }
}
