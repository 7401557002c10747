using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Shots joined by straights, before arcs are made: enough to tell where along them something lies.</summary>
internal sealed class ShotLine
{
    private readonly List<Point2> places = [];
    private readonly List<double> chainages = [];

    public ShotLine(IReadOnlyList<(int Shot, bool Through)> members, CurrentShots shots)
    {
        foreach (var (shot, _) in members)
        {
            var at = shots.At(shot);
            chainages.Add(places.Count == 0 ? 0 : chainages[^1] + places[^1].DistanceTo(at));
            places.Add(at);
        }

        Shots = shots;
    }

    private CurrentShots Shots { get; }

    /// <summary>Metres in plan.</summary>
    public double Length => chainages[^1];

    /// <summary>Metres from the first member.</summary>
    public double Chainage(int member) => chainages[member];

    /// <summary>Chainage of the nearest place, metres, and how far it is.</summary>
    public (double Along, double Distance) Locate(int shot)
    {
        var (at, best) = (Shots.At(shot), (Along: 0.0, Distance: double.PositiveInfinity));
        for (var leg = 0; leg + 1 < places.Count; leg++)
        {
            var locus = new Straight(places[leg], places[leg + 1]).Locate(at);
            if (locus.Distance < best.Distance) best = (chainages[leg] + locus.Along, locus.Distance);
        }

        return best;
    }
}
