using System.Collections.Immutable;

namespace Aslaid.Workbench;

/// <summary>Crews that do right in their own ways.</summary>
internal sealed class AwkwardSite
{
    private const double East = Math.PI / 2;
    private readonly SeededNumbers _shape;

    public AwkwardSite(int seed)
    {
        _shape = new(seed, 2);
        Frame = new(_shape.Between(0, Math.Tau));
        var day = new DateTimeOffset(2026, 3, 12, 7, 0, 0, TimeSpan.FromHours(1));
        North = new(new("North", seed, 30), "north-so-far.csv", day, Frame);
        South = new(new("South", seed, 40), "south.csv", day, Frame);
    }

    public SiteFrame Frame { get; }

    public CrewFile North { get; }

    public CrewFile South { get; }

    /// <summary>Three files: crew North hands in its morning, then the whole day again with the morning in it.</summary>
    public ImmutableArray<SampleFile> Shoot()
    {
        var unlabelled = new ShotsForm(3, "id", "code", "east", "north", "height", "leg", "time", "u_plan", "u_height", "setup", "fix", "pole", "tilt", "tilt_compensated", "note")
        {
            Separator = ';',
            DecimalComma = true,
        };
        var bare = new ShotsForm(3, "id", "east", "north", "height", "code", "run", "leg", "note");
        Morning();
        Lean(North);
        var morning = North.Write(unlabelled) with { Name = "north-morning.csv" };
        Afternoon();
        Lean(North);
        WithoutQuality();
        return [morning, South.Write(bare), North.Write(unlabelled)];
    }

    private void Morning()
    {
        Begin(North, 0, 1);
        North.Check(Frame.Marks[1]); // once more, to be sure
        InterleavedKerb();
        var island = new Trace(new(60, 30), East).Straight(_shape.Between(6, 8), 9).Corner(-East).Straight(4, 9).Corner(-East);
        var side = island.PlanLength - 4;
        island.Straight(side, 9).Corner(-East).Straight(4, 9).Home();
        Unlabelled("ISLAND-KERB", island, "first", "home");
        var drop = new Spot(75, 30);
        North.Shoot("KERB-FACE", drop, Kerb(drop, 0), leg: "alone");
        End(North, 0, 1);
    }

    /// <summary>Face, back, face, back: the crew walks once.</summary>
    private void InterleavedKerb()
    {
        var radius = _shape.Between(9, 12);
        var turn = _shape.Between(0.9, 1.3);
        Trace[] edges = [Edge(0), Edge(0.15)];
        string[] codes = ["KERB-FACE", "KERB-BACK"];
        List<SampleShot>[] shots = [[], []];
        for (var i = 0; i < edges[0].Stops.Count; i++)
            for (var side = 0; side < 2; side++)
            {
                var stop = edges[side].Stops[i];
                shots[side].Add(North.Shoot(codes[side], stop.At, Kerb(stop.At, 0), leg: Leg(edges[side], i, "first", "last")));
            }
        for (var side = 0; side < 2; side++)
            North.Tell(codes[side], "", new(edges[side], shots[side]));

        Trace Edge(double back) => new Trace(new(10, 10 + back), East)
            .Straight(24, 6).Curve(radius - back, -turn).Straight(18, 6);
    }

    private void Afternoon()
    {
        Begin(North, 1, 0);
        Unlabelled("KERB-FACE", new Trace(new(90, 10), East).Straight(_shape.Between(26, 30), 7), "first", "last");
        Unlabelled("KERB-FACE", new Trace(new(90, 26), East).Straight(_shape.Between(20, 24), 7), "first", "last");
        for (var i = 0; i < 5; i++)
        {
            var at = new Spot(90 + (9 * i), 18);
            North.Point("LAMP-COLUMN", at, SiteFrame.Ground(at));
        }
        End(North, 1, 0);
    }

    private void WithoutQuality()
    {
        South.By = Instrument.TotalStation;
        Begin(South, 2, 3);
        TouchingCables();
        DrainShotUpstream();
        JointedPipe();
        UnfinishedEnds();
        End(South, 2, 3);
    }

    /// <summary>Two cables side by side, skin on skin; the second is shot between the places of the first.</summary>
    private void TouchingCables()
    {
        const double apart = 0.05; // m: their outer diameter
        var top = SiteFrame.Under(0.7);
        var first = new Trace(new(10, -10), East).Straight(48, 8);
        var laid = South.Lay("POWER-CABLE", "PC-1", first, top, nodes: Interchange.Nodes("POWER-CHAMBER", 0, 6));
        var skew = Math.Asin(apart / 4);
        var second = new Trace(new(10, -10), East).Corner(skew).Straight(4, 8).Corner(-skew).Straight(48 - (8 * Math.Cos(skew)), 8).Corner(-skew).Straight(4, 8);
        South.Lay("POWER-CABLE", "PC-2", second, top, Interchange.Known((0, laid.Shots[0]), (second.Stops.Count - 1, laid.Shots[6])));
    }

    private void DrainShotUpstream()
    {
        var rise = _shape.Between(0.008, 0.012);
        var drain = new Trace(new(100, -14), -East).Straight(40, 10);
        var outlet = SiteFrame.Ground(new(100, -14)) - 2;
        South.Lay("STORM-DRAIN", "SU-1", drain, (_, chainage) => outlet + (rise * chainage), nodes: Interchange.Nodes("STORM-CHAMBER", 0, 4));
    }

    /// <summary>Pipes of 6 m that lie as chords on a wide curve, each joint bent by a little.</summary>
    private void JointedPipe()
    {
        var pipe = new Trace(new(10, -24), East);
        var bend = 6 / _shape.Between(160, 220);
        for (var i = 0; i < 12; i++)
            pipe.Straight(6, 6).Corner(bend);
        South.Lay("WATER-MAIN", "WJ-1", pipe, SiteFrame.Under(1.2), nodes: Interchange.Nodes("WATER-VALVE", 0, 12));
    }

    private void UnfinishedEnds()
    {
        var duct = new Trace(new(110, -20), East).Straight(_shape.Between(24, 30), 8);
        South.Lay("TELECOM-DUCT", "TC-1", duct, SiteFrame.Under(0.45), nodes: Interchange.Nodes("TELECOM-CHAMBER", 0)).Shots[^1].Note = "continues";
        var kerb = new Trace(new(110, -26), East).Straight(_shape.Between(18, 24), 7);
        South.Lay("KERB-FACE", "KH-1", kerb, Kerb).Shots[^1].Note = "limit of works";
    }

    private void Unlabelled(string code, Trace trace, string first, string last)
    {
        var shots = new List<SampleShot>();
        var count = trace.Closed ? trace.Stops.Count - 1 : trace.Stops.Count; // "home" leads back to the first by itself
        for (var i = 0; i < count; i++)
        {
            var leg = i == count - 1 ? last : Leg(trace, i, first, last);
            shots.Add(North.Shoot(code, trace.Stops[i].At, Kerb(trace.Stops[i].At, 0), leg: leg));
        }
        if (trace.Closed)
            shots.Add(shots[0]);
        North.Tell(code, "", new(trace, shots));
    }

    private static string Leg(Trace trace, int stop, string first, string last) =>
        stop == 0 ? first : stop == trace.Stops.Count - 1 ? last : trace.Stops[stop].Through ? "through" : "";

    private void Begin(CrewFile file, int first, int second)
    {
        file.Check(Frame.Marks[first]);
        file.Check(Frame.Marks[first]);
        file.Check(Frame.Marks[second]);
    }

    private void End(CrewFile file, int first, int second)
    {
        file.Check(Frame.Marks[second]);
        file.Check(Frame.Marks[first]);
    }

    /// <summary>A pole that may lean: the receiver takes the tilt out and says by how many degrees.</summary>
    private static void Lean(CrewFile file)
    {
        foreach (var shot in file.Rows.Where(r => r.Tilt.Length == 0))
            shot.Tilt = (5 + file.Crew.Pace.Whole(20)).ToString(System.Globalization.CultureInfo.InvariantCulture);
    }

    private static double Kerb(Spot at, double chainage) => SiteFrame.Ground(at) + 0.12;
}
