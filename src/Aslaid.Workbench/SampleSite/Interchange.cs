using System.Collections.Immutable;

namespace Aslaid.Workbench;

/// <summary>Marlhithe Interchange: two days, two crews. The seed turns the site and stretches its parts.</summary>
internal sealed class Interchange
{
    private const double WaterDepth = 1.55; // m, clear below the power ducts
    private const double AlongStreet = Math.PI / 2; // bearing of the drawing's street
    private const double KerbUpstand = 0.12; // m above the channel
    private static readonly int[] ChambersWithGullies = [0, 1, 4, 5]; // the others lie under the water main
    private static readonly double[] BayStraights = [40, 3, 30, 3, 40];
    private readonly SeededNumbers _shape;
    private readonly DateTimeOffset _morning = new(2026, 3, 10, 7, 30, 0, TimeSpan.FromHours(1));

    public Interchange(int seed)
    {
        _shape = new(seed, 1);
        Frame = new(_shape.Between(0, Math.Tau));
        var north = new Crew("North", seed, 10);
        var south = new Crew("South", seed, 20);
        NorthFirst = new(north, "north-day-1.csv", _morning, Frame);
        SouthFirst = new(south, "south-day-1.csv", _morning.AddMinutes(10), Frame);
        NorthSecond = new(north, "north-day-2.csv", _morning.AddDays(1), Frame);
        SouthSecond = new(south, "south-day-2.csv", _morning.AddDays(1).AddMinutes(15), Frame);
    }

    public SiteFrame Frame { get; }

    public CrewFile NorthFirst { get; }

    public CrewFile SouthFirst { get; }

    public CrewFile NorthSecond { get; }

    public CrewFile SouthSecond { get; }

    /// <summary>Shot early on the second day; someone may well shoot one again on the way home.</summary>
    public List<(Spot At, SampleShot Shot)> Lamps { get; } = [];

    public ImmutableArray<CrewFile> Files => [NorthFirst, SouthFirst, NorthSecond, SouthSecond];

    /// <summary>Shoots both days.</summary>
    /// <param name="beforeLeaving">What else happens on the second day of crew North, before its last check shots.</param>
    public void Shoot(Action beforeLeaving)
    {
        Checked(NorthFirst, 0, 1, () =>
        {
            Water(NorthFirst);
            Power(NorthFirst);
            Surface(NorthFirst, "GROUND", -16, 40, 15, 14);
        });
        Checked(SouthFirst, 2, 3, () =>
        {
            Telecom(SouthFirst);
            StormByTotalStation(SouthFirst);
            Surface(SouthFirst, "GROUND", -30, -20, 12, 10);
        });
        Checked(NorthSecond, 0, 1, () =>
        {
            LampColumns(NorthSecond);
            BusBay(NorthSecond);
            Surface(NorthSecond, "FINISH", 20, 44, 9.5, 8);
            beforeLeaving();
        });
        Checked(SouthSecond, 3, 2, () =>
        {
            SouthKerb(SouthSecond);
            Splitter(SouthSecond);
            RoundIsland(SouthSecond);
            SignPosts(SouthSecond);
            GasFromRecords(SouthSecond);
            EdgeOfWorks(SouthSecond);
            Surface(SouthSecond, "FINISH", -26, 16, 10.5, 8);
        });
    }

    private void Checked(CrewFile file, int first, int second, Action work)
    {
        file.Check(Frame.Marks[first]);
        file.Check(Frame.Marks[second]);
        work();
        file.Check(Frame.Marks[second]);
        file.Check(Frame.Marks[first]);
    }

    private void Water(CrewFile file)
    {
        var top = SiteFrame.Under(WaterDepth);
        var turn = double.DegreesToRadians(_shape.Between(28, 34));
        var main = new Trace(new(2, -8), AlongStreet)
            .Straight(_shape.Between(48, 54), 6.2)
            .Curve(_shape.Between(42, 55), -turn)
            .Straight(_shape.Between(30, 38), 6.2)
            .Curve(_shape.Between(42, 55), turn)
            .Straight(_shape.Between(44, 54), 6.2);
        var last = main.Stops.Count - 1;
        var laid = file.Lay("WATER-MAIN", "WM-1", main, top, nodes: Nodes("WATER-VALVE", 0, last));
        HydrantBranch(file, "WB-1", laid.Shots[4], main.Stops[4].At, Math.PI, _shape.Between(9, 13));
        HydrantBranch(file, "WB-2", laid.Shots[last - 3], main.Stops[last - 3].At, 0, _shape.Between(6, 9));
    }

    private static void HydrantBranch(CrewFile file, string label, SampleShot tee, Spot at, double bearing, double length)
    {
        var top = SiteFrame.Under(WaterDepth);
        var branch = new Trace(at, bearing).Straight(length, 3.5);
        file.Lay("WATER-BRANCH", label, branch, top, Known((0, tee)), Nodes("WATER-HYDRANT", branch.Stops.Count - 1));
    }

    private void Power(CrewFile file)
    {
        var top = SiteFrame.Under(0.9);
        var ducts = new Trace(new(8, 34), AlongStreet)
            .Straight(_shape.Between(30, 36), 6)
            .Curve(_shape.Between(5, 7), Math.PI / 3)
            .Straight(_shape.Between(7, 9), 5)
            .Curve(_shape.Between(5, 7), -Math.PI / 3)
            .Straight(_shape.Between(36, 42), 6);
        var middle = ducts.Stops.Count - 3;
        ducts.Curve(_shape.Between(3, 4), Math.PI / 2)
            .Straight(_shape.Between(20, 24), 6)
            .Curve(_shape.Between(3, 4), -Math.PI / 2)
            .Straight(_shape.Between(26, 32), 6)
            .Curve(_shape.Between(8, 10), -Math.PI / 4)
            .Straight(_shape.Between(3, 5), 5);
        file.Lay("POWER-DUCT", "PD-1", ducts, top, nodes: Nodes("POWER-CHAMBER", 0, middle, ducts.Stops.Count - 1));
    }

    private void Telecom(CrewFile file)
    {
        var top = SiteFrame.Under(0.45);
        var duct = new Trace(new(20, 8), AlongStreet).Straight(_shape.Between(145, 155), 7.5);
        var middle = duct.Stops.Count / 2;
        duct.Curve(_shape.Between(7, 9), -Math.PI / 3).Straight(_shape.Between(8, 12), 6);
        file.Lay("TELECOM-DUCT", "TD-1", duct, top, nodes: Nodes("TELECOM-CHAMBER", 0, middle, duct.Stops.Count - 1));
    }

    /// <summary>Inverts want a better height than a receiver gives: own set-up, own check shots.</summary>
    private void StormByTotalStation(CrewFile file)
    {
        file.By = Instrument.TotalStation;
        file.Walk(300, 600);
        file.Check(Frame.Marks[2]);
        file.Check(Frame.Marks[3]);
        var fall = _shape.Between(0.008, 0.0094);
        const double depth = 2.5; // its top clear of the water main's underside
        var start = new Spot(15, 2);
        Func<Spot, double, double> invert = (at, _) => SiteFrame.Ground(start) - depth - (fall * (at.East - start.East));
        var legs = new List<LaidRun>();
        for (var i = 0; i < 5; i++)
        {
            var leg = new Trace(new(15 + (35 * i), 2), AlongStreet).Straight(35, 11.7);
            var last = leg.Stops.Count - 1;
            legs.Add(i == 0
                ? file.Lay("STORM-DRAIN", "SD-1", leg, invert, nodes: Nodes("STORM-CHAMBER", 0, last))
                : file.Lay("STORM-DRAIN", $"SD-{i + 1}", leg, invert, Known((0, legs[^1].Shots[^1])), Nodes("STORM-CHAMBER", last)));
        }
        SampleShot[] chambers = [legs[0].Shots[0], .. legs.Select(l => l.Shots[^1])];
        var label = 1;
        foreach (var i in ChambersWithGullies)
            Lateral(file, $"SG-{label++}", chambers[i], new(15 + (35 * i), 2), 0);
        var junction = legs[4].Trace.Stops[1];
        Lateral(file, $"SG-{label}", legs[4].Shots[1], junction.At, Math.PI / 12);
        file.Check(Frame.Marks[3]);
        file.Check(Frame.Marks[2]);
        file.By = Instrument.Receiver;
        file.Walk(300, 600);
        file.Check(Frame.Marks[2]);
    }

    /// <summary>From a gully in the north channel down into the drain.</summary>
    private static void Lateral(CrewFile file, string label, SampleShot into, Spot drain, double skew)
    {
        var length = 11.6 / Math.Cos(skew);
        var gullyAt = drain.Ahead(skew, length);
        var outlet = SiteFrame.Ground(gullyAt) - 0.9;
        var pipe = new Trace(gullyAt, skew + Math.PI).Straight(length, 6.5);
        file.Lay("STORM-DRAIN", label, pipe, (_, chainage) => outlet + ((into.TrueHeight - outlet) * chainage / length),
            Known((pipe.Stops.Count - 1, into)), Nodes("GULLY", 0));
    }

    private void LampColumns(CrewFile file)
    {
        var count = 12 + _shape.Whole(7);
        for (var i = 0; i < count; i++)
        {
            var at = new Spot(12 + (190.0 * (i / 2 * 2) / count), i % 2 == 0 ? 21.5 : -2.5);
            Lamps.Add((at, file.Point("LAMP-COLUMN", at, SiteFrame.Ground(at))));
        }
    }

    /// <summary>The bay's kerb by its face, then by its back 0.15 m behind: radii differ by that much, straights do not.</summary>
    private void BusBay(CrewFile file)
    {
        var turn = double.DegreesToRadians(_shape.Between(24, 27));
        double[] radii = [.. Enumerable.Range(0, 4).Select(_ => _shape.Between(16, 20))];
        double[] straights = [.. BayStraights.Select(s => s * _shape.Between(0.9, 1.1))];
        const double width = 0.15;
        file.Lay("KERB-FACE", "KF-1", Kerb(0), Top);
        file.Lay("KERB-BACK", "KB-1", Kerb(width), Top);

        Trace Kerb(double back) => new Trace(new(18, 14 + back), AlongStreet)
            .Straight(straights[0], 5.2)
            .Curve(radii[0] - back, -turn)
            .Straight(straights[1], 5)
            .Curve(radii[1] + back, turn)
            .Straight(straights[2], 5.2)
            .Curve(radii[2] + back, turn)
            .Straight(straights[3], 5)
            .Curve(radii[3] - back, -turn)
            .Straight(straights[4], 5.2);
    }

    private void SouthKerb(CrewFile file)
    {
        var kerb = new Trace(new(10, 0), AlongStreet).Straight(_shape.Between(165, 175), 6).Curve(_shape.Between(8, 10), Math.PI / 2).Straight(12, 6);
        file.Lay("KERB-FACE", "KF-2", kerb, Top);
    }

    /// <summary>A triangle whose corners are rounded; it starts where the last nose ends and goes home by that nose's arc.</summary>
    private void Splitter(CrewFile file)
    {
        var sharp = double.DegreesToRadians(_shape.Between(42, 52));
        var wide = double.DegreesToRadians(_shape.Between(58, 70));
        double[] radii = [.. Enumerable.Range(0, 3).Select(_ => _shape.Between(0.7, 1.3))];
        var island = RoundedTriangle(new(205, 34), AlongStreet + _shape.Between(-0.3, 0.3), _shape.Between(14, 18), sharp, wide, radii);
        file.Lay("ISLAND-KERB", "IS-1", island, Top);
    }

    /// <param name="corner">Where the first two sides would meet were they not rounded.</param>
    /// <param name="side">Metres from corner to corner, first side.</param>
    /// <param name="first">Radians inside the triangle at <paramref name="corner"/>.</param>
    /// <param name="second">Radians inside the triangle at the far end of the first side.</param>
    /// <param name="radii">Of the second, third and first corner: the order in which they are walked.</param>
    internal static Trace RoundedTriangle(Spot corner, double bearing, double side, double first, double second, double[] radii)
    {
        double[] angles = [second, Math.PI - first - second, first];
        double[] sides = [side, side * Math.Sin(first) / Math.Sin(angles[1]), side * Math.Sin(second) / Math.Sin(angles[1])];
        double[] cut = [.. angles.Select((a, i) => radii[i] / Math.Tan(a / 2))];
        var island = new Trace(corner.Ahead(bearing, cut[2]), bearing);
        for (var i = 0; i < 3; i++)
            island.Straight(sides[i] - cut[(i + 2) % 3] - cut[i], 4.5).Curve(radii[i], angles[i] - Math.PI);
        return island.Home();
    }

    private void RoundIsland(CrewFile file)
    {
        var middle = new Spot(60, -34);
        file.Lay("ISLAND-KERB", "IS-2", Trace.Circle(middle, _shape.Between(4.0, 4.5), _shape.Between(0, Math.Tau)), Top);
        for (var i = 0; i < 3; i++)
            TreePit(file, i + 1, middle.Ahead(i * Math.Tau / 3, 2.4));
        for (var i = 3; i < 7; i++)
            TreePit(file, i + 1, new(14 + (10 * (i - 3)), 25));
    }

    private void TreePit(CrewFile file, int number, Spot middle) =>
        file.Lay("TREE-PIT", $"TP-{number}", Trace.Circle(middle, _shape.Between(0.6, 0.75), _shape.Between(0, Math.Tau)), Top);

    private static void SignPosts(CrewFile file)
    {
        for (var i = 0; i < 8; i++)
        {
            var at = new Spot(22 + (21 * i), i % 2 == 0 ? 22.5 : -1.5);
            file.Point("SIGN-POST", at, SiteFrame.Ground(at));
        }
    }

    private void GasFromRecords(CrewFile file)
    {
        file.By = Instrument.Records;
        var main = new Trace(new(4, 48), AlongStreet).Straight(_shape.Between(90, 110), 15).Corner(_shape.Between(-0.05, 0.05)).Straight(80, 15);
        file.Lay("GAS-RECORD", "GM-1", main, SiteFrame.Under(0.8));
        file.By = Instrument.Receiver;
    }

    private static void EdgeOfWorks(CrewFile file)
    {
        const double corner = Math.PI / 2;
        var edge = new Trace(new(-4, -44), AlongStreet).Straight(238, 40).Corner(-corner).Straight(160, 40).Corner(-corner)
            .Straight(238, 40).Corner(-corner).Straight(160, 40).Home();
        file.Lay("EDGE-OF-WORKS", "EW-1", edge, SiteFrame.Under(0));
    }

    private void Surface(CrewFile file, string code, double south, double north, double alongStep, double acrossStep)
    {
        var there = true;
        for (var n = south; n <= north; n += acrossStep, there = !there)
            for (var i = 0; i * alongStep <= 200; i++)
            {
                var along = i * alongStep;
                var at = new Spot(8 + (there ? along : 200 - along) + _shape.Between(-1, 1), n + _shape.Between(-1, 1));
                file.Point(code, at, SiteFrame.Ground(at));
            }
    }

    private static double Top(Spot at, double chainage) => SiteFrame.Ground(at) + KerbUpstand;

    internal static Dictionary<int, SampleShot> Known(params (int Stop, SampleShot Shot)[] stops) =>
        stops.ToDictionary(s => s.Stop, s => s.Shot);

    internal static Dictionary<int, string> Nodes(string code, params int[] stops) => stops.ToDictionary(i => i, _ => code);
}
