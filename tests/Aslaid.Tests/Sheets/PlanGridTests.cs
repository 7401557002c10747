using Aslaid.Sheets;
using SkiaSharp;

namespace Aslaid.Tests;

public class PlanGridTests
{
    private static readonly SKRect Window = new(20, 23, 326, 221);

    private static readonly string[] Round = ["1.0", "2.0", "5.0"];

    private static PlanView At(double scale, double turn = 0) => new(Window, new(512000, 6243000), scale, turn);

    [Theory]
    [InlineData(100), InlineData(200), InlineData(250), InlineData(500), InlineData(1000), InlineData(2000), InlineData(2500), InlineData(5000)]
    [InlineData(10_000), InlineData(20_000), InlineData(25_000), InlineData(50_000), InlineData(100_000)]
    public void BarField_StandardScale_TakesFourToTenMillimetres(double scale)
    {
        var view = At(scale);
        var field = PlanGrid.BarField(view);
        Assert.InRange(field * view.PerMetre, 4, 10 + 1e-9);
        var first = field.ToString("E15", System.Globalization.CultureInfo.InvariantCulture)[..3];
        Assert.Contains(first, Round);
    }

    [Fact]
    public void FurniturePlaces_AnyTurn_LieInTheWindowApart() => Gen.Double[-90, 90].Sample(turn =>
    {
        foreach (var (north, bar) in PlanGrid.FurniturePlaces(At(250, turn)))
        {
            Assert.True(Window.Contains(north) && Window.Contains(bar));
            Assert.False(SKRect.Inflate(north, -0.01f, -0.01f).IntersectsWith(SKRect.Inflate(bar, -0.01f, -0.01f)));
        }
    });

    [Fact]
    public void NorthLetter_AnyTurn_StandsWhereNorthLies() => Gen.Double[-90, 90].Sample(turn =>
    {
        var view = At(1000, turn);
        var (centre, north) = (view.At(view.Centre), view.At(view.Centre + new Step(0, 7))); // 7 m are 7 mm
        Assert.True(SKPoint.Distance(north, PlanGrid.NorthLetter(centre, turn)) < 0.01);
    });
}
