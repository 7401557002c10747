using Aslaid.Sheets;
using SkiaSharp;

namespace Aslaid.Tests;

public class PlanViewTests
{
    private static readonly SKRect Window = new(20, 23, 326, 221);

    private static readonly Gen<Point2[]> Places =
        Gen.Select(Gen.Double[1, 5000], Gen.Double[1, 5000], Gen.Double[0, double.Tau], Gen.Select(Gen.Double[0, 1], Gen.Double[0, 1]).Array[1, 40])
            .Select((length, width, turn, parts) => Array.ConvertAll(parts, part =>
            {
                var (along, across) = (part.Item1 * length, part.Item2 * width);
                return new Point2(
                    512000 + along * Math.Cos(turn) - across * Math.Sin(turn), 6243000 + along * Math.Sin(turn) + across * Math.Cos(turn));
            }));

    private static readonly Gen<Bearing> Work = Gen.Double[0, 359].Select(Bearing.FromDegrees);

    [Fact]
    public void Fitting_AnyPlaces_ShowsThemAll() => Gen.Select(Places, Work).Sample((places, work) =>
    {
        var view = PlanView.Fitting(places, work, Window);
        Assert.All(places, place => Assert.True(Window.Contains(view.At(place))));
    });

    [Fact]
    public void Fitting_AnyPlaces_TakesAStandardScale() => Gen.Select(Places, Work).Sample((places, work) =>
    {
        var scale = PlanView.Fitting(places, work, Window).Scale;
        while (scale >= 1000) scale /= 10;
        Assert.Contains(scale, new[] { 100.0, 200, 250, 500 });
    });

    [Fact]
    public void Fitting_AnyPlaces_TurnsOnlyForALargerScale() => Gen.Select(Places, Work).Sample((places, work) =>
    {
        var view = PlanView.Fitting(places, work, Window);
        var box = Box2.Of(places);
        var upright = 1000 * Math.Max((box.MaxEast - box.MinEast) / (Window.Width - 16), (box.MaxNorth - box.MinNorth) / (Window.Height - 16));
        Assert.True(view.TurnDegrees == 0 || view.Scale < upright);
    });

    [Fact]
    public void PlaceAt_WhatAtGives_ComesBack() => Gen.Select(Places, Work).Sample((places, work) =>
    {
        var view = PlanView.Fitting(places, work, Window);
        Assert.All(places, place => Assert.True(view.PlaceAt(view.At(place)).DistanceTo(place) < 1e-4 / view.PerMetre)); // a ten-thousandth of a millimetre of paper
    });

    [Fact]
    public void At_TurnedByNinety_PutsNorthToTheRight()
    {
        var view = new PlanView(Window, new(512000, 6243000), 1000, 90);
        var (here, north, east) = (view.At(view.Centre), view.At(new(512000, 6243010)), view.At(new(512010, 6243000)));
        Assert.Equal(10, north.X - here.X, 0.001f);
        Assert.Equal(10, east.Y - here.Y, 0.001f); // east then points down
    }

    [Fact]
    public void Fitting_LongSiteAcrossTheSheet_TurnsAlongTheWork()
    {
        Point2[] places = [new(512000, 6243000), new(512000, 6243250), new(512030, 6243250), new(512030, 6243000)];
        var view = PlanView.Fitting(places, Bearing.FromDegrees(0), Window);
        Assert.Equal(1000, view.Scale);
        Assert.Equal(90, Math.Abs(view.TurnDegrees));
    }
}
