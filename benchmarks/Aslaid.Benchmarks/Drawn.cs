using Aslaid.Geometry;

namespace Aslaid.Benchmarks;

/// <summary>Places drawn from a fixed seed, near the sample site.</summary>
internal static class Drawn
{
    /// <summary>How many operands a benchmark in nanoseconds goes through, so that none is learnt by heart.</summary>
    public const int Operands = 1024;

    /// <summary>Metres: what an arc must rise above its chord. Every arc drawn here rises at least 0.09 m.</summary>
    public const double Flatness = 0.02;

    private static readonly Point2 Origin = new(512_000, 6_243_000);

    /// <summary>A place in the square of a side in metres.</summary>
    public static Point2 Place(Random random, double side) => Origin + new Step(random.NextDouble() * side, random.NextDouble() * side);

    /// <summary>Places in order along an arc of 2 to 150 m radius and 0.6 to 2.5 rad, each up to 5 mm off it.</summary>
    public static Point2[] AlongArc(Random random, int places)
    {
        var (centre, radius) = (Place(random, 1000), 2 + 148 * random.NextDouble());
        var (start, sweep) = (random.NextDouble() * double.Tau, 0.6 + 1.9 * random.NextDouble());
        var along = new Point2[places];
        for (var i = 0; i < places; i++)
        {
            var reach = radius + 0.005 * (2 * random.NextDouble() - 1);
            along[i] = centre + reach * Bearing.FromRadians(start + sweep * i / (places - 1)).Unit;
        }

        return along;
    }

    /// <summary>Places at one to four square metres, as shots lie: the more, the larger the site.</summary>
    public static Point2[] Scattered(Random random, int count)
    {
        var places = new Point2[count];
        for (var i = 0; i < count; i++) places[i] = Place(random, 2 * Math.Sqrt(count));
        return places;
    }
}
