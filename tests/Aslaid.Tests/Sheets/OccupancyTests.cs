using Aslaid.Sheets;
using SkiaSharp;

namespace Aslaid.Tests;

public class OccupancyTests
{
    private static readonly SKRect Window = new(20, 23, 326, 221);

    [Fact]
    public void Place_ManyLabels_NeverOverlapNorLeaveTheWindow() =>
        Gen.Select(Gen.Single[20, 326], Gen.Single[23, 221], Gen.Single[3, 40]).Array[1, 150].Sample(labels =>
        {
            var taken = new Occupancy(Window);
            var placed = new List<SKRect>();
            foreach (var (x, y, width) in labels)
                if (taken.Place(new(width, 3), [new(x, y)], [2, 6, 12]) is { } place) placed.Add(place.Box);
            Assert.All(placed, box => Assert.True(Window.Contains(box)));
            for (var i = 0; i < placed.Count; i++)
                for (var j = 0; j < i; j++) Assert.False(placed[i].IntersectsWith(placed[j]));
        });

    [Fact]
    public void Place_FreeSide_IsTakenRatherThanALine()
    {
        var taken = new Occupancy(Window);
        for (var y = 100f; y < 110; y += 0.7f) taken.TakeLine(new SKPoint(101, y), new SKPoint(140, y)); // all to the right is drawn on
        var place = taken.Place(new(20, 3), [new(100, 105)], [2f]);
        Assert.NotNull(place);
        Assert.True(place.Value.Box.MidX < 101);
    }

    [Fact]
    public void Place_AnotherRunNearer_KeepsToItsOwn()
    {
        var taken = new Occupancy(Window);
        taken.TakeLine(new SKPoint(60, 100), new SKPoint(200, 100), owner: 0);
        taken.TakeLine(new SKPoint(60, 107), new SKPoint(200, 107), owner: 1); // words of 3 mm between the two would be nearer to the one or the other
        var place = taken.Place(new(20, 3), [new(120, 100)], [3f], owner: 0);
        Assert.NotNull(place);
        Assert.True(place.Value.Box.Bottom < 100);
    }

    [Fact]
    public void Cost_WhereWordsStand_IsNull()
    {
        var taken = new Occupancy(Window);
        taken.Take(new(100, 100, 110, 104));
        Assert.Null(taken.Cost(new(109, 103, 120, 107)));
        Assert.Equal(0, taken.Cost(new(112, 106, 120, 110)));
    }
}
