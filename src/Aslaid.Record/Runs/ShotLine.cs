using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Shots joined by straights, before arcs are made: enough to tell where along them something lies.</summary>
internal sealed class ShotLine
{
    private readonly List<Point2> places = [];
    private readonly List<double> chainages = [];
    private readonly List<int> near = [];
    private BoxIndex? legs;

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

    /// <summary>Whether a shot lies within reach beside the line, and not ahead of one of its ends.</summary>
    public bool IsBeside(int shot, double reach)
    {
        if (places.Count < 2) return false;
        legs ??= BoxIndex.Of([.. Enumerable.Range(0, places.Count - 1).Select(leg => Box2.Of(places[leg], places[leg + 1]))]);
        near.Clear();
        var at = Shots.At(shot);
        legs.Near(at, reach, near);
        foreach (var leg in near)
        {
            var locus = new Straight(places[leg], places[leg + 1]).Locate(at);
            var atEnd = leg == 0 && locus.Along <= 0 || leg == places.Count - 2 && locus.Along >= places[leg].DistanceTo(places[leg + 1]);
            if (locus.Distance <= reach && (!atEnd || locus.Distance <= LabelComesAgain.OnIt || Math.Abs(locus.Offset) >= LabelComesAgain.Square * locus.Distance)) return true;
        }

        return false;
    }

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
