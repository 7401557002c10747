using System.Collections.Immutable;

namespace Aslaid.Workbench;

/// <summary>A small site: one crew, a morning under the ground and an afternoon on it, some eighty shots.</summary>
internal sealed class LotSite
{
    private const double East = Math.PI / 2;
    private readonly SeededNumbers _shape;

    public LotSite(int seed)
    {
        _shape = new(seed, 4);
        Frame = new(_shape.Between(0, Math.Tau));
        var crew = new Crew("North", seed, 60);
        var start = new DateTimeOffset(2026, 3, 17, 7, 30, 0, TimeSpan.FromHours(1));
        Morning = new(crew, "lot-morning.csv", start, Frame);
        Afternoon = new(crew, "lot-afternoon.csv", start.AddHours(5), Frame);
    }

    public SiteFrame Frame { get; }

    public CrewFile Morning { get; }

    public CrewFile Afternoon { get; }

    public ImmutableArray<CrewFile> Files => [Morning, Afternoon];

    public List<(Spot At, SampleShot Shot)> Lamps { get; } = [];

    /// <param name="beforeLeaving">What else happens in the afternoon, before its last check shots.</param>
    public void Shoot(Action beforeLeaving)
    {
        Checked(Morning, () =>
        {
            Water();
            Power();
            Surface(Morning, "GROUND", 26);
        });
        Checked(Afternoon, () =>
        {
            Kerbs();
            Island();
            var middle = new Spot(_shape.Between(44, 48), 50);
            Afternoon.Lay("TREE-PIT", "TP-1", Trace.Circle(middle, _shape.Between(0.6, 0.75), _shape.Between(0, Math.Tau)), Plot.Kerb);
            for (var i = 0; i < 3; i++)
            {
                var at = new Spot(10 + (12 * i), 31);
                Afternoon.Point("SIGN-POST", at, SiteFrame.Ground(at));
            }
            for (var i = 0; i < 4; i++)
            {
                var at = new Spot(8 + (14 * i), 22);
                Lamps.Add((at, Afternoon.Point("LAMP-COLUMN", at, SiteFrame.Ground(at))));
            }
            Surface(Afternoon, "FINISH", 38);
            beforeLeaving();
        });
    }

    private void Checked(CrewFile file, Action work)
    {
        file.Check(Frame.Marks[0]);
        file.Check(Frame.Marks[1]);
        work();
        file.Check(Frame.Marks[1]);
        file.Check(Frame.Marks[0]);
    }

    private void Water()
    {
        var main = new Trace(new(2, -8), East).Straight(_shape.Between(24, 28), 6)
            .Curve(_shape.Between(42, 50), -_shape.Between(0.5, 0.55)).Straight(_shape.Between(16, 20), 6);
        Morning.Lay("WATER-MAIN", "WM-1", main, SiteFrame.Under(1.2), nodes: Interchange.Nodes("WATER-VALVE", 0, main.Stops.Count - 1));
    }

    private void Power()
    {
        var ducts = new Trace(new(2, 14), East).Straight(_shape.Between(16, 18), 6)
            .Curve(_shape.Between(5, 6), Math.PI / 3).Straight(_shape.Between(7, 9), 5)
            .Curve(_shape.Between(5, 6), -Math.PI / 3).Straight(_shape.Between(10, 12), 6);
        Morning.Lay("POWER-DUCT", "PD-1", ducts, SiteFrame.Under(0.75), nodes: Interchange.Nodes("POWER-CHAMBER", 0, ducts.Stops.Count - 1));
    }

    /// <summary>Face and back of one kerb, 0.15 m apart.</summary>
    private void Kerbs()
    {
        var (first, second) = (_shape.Between(20, 24), _shape.Between(8, 9.5));
        var (radius, turn) = (_shape.Between(8, 9), _shape.Between(1.0, 1.2));
        Afternoon.Lay("KERB-FACE", "KF-1", Kerb(0), Plot.Kerb);
        Afternoon.Lay("KERB-BACK", "KB-1", Kerb(0.15), Plot.Kerb);

        Trace Kerb(double back) => new Trace(new(2, 35 + back), East).Straight(first, 5).Curve(radius - back, -turn).Straight(second, 5);
    }

    private void Island()
    {
        double[] radii = [.. Enumerable.Range(0, 3).Select(_ => _shape.Between(0.7, 1.3))];
        var island = Interchange.RoundedTriangle(new(46, 30), East, _shape.Between(12, 14), _shape.Between(0.8, 0.9), _shape.Between(1.0, 1.2), radii);
        Afternoon.Lay("ISLAND-KERB", "IS-1", island, Plot.Kerb);
    }

    private void Surface(CrewFile file, string code, double north)
    {
        for (var i = 0; i < 8; i++)
        {
            var at = new Spot(4 + (14 * (i % 4)) + _shape.Between(-1, 1), north + (4 * (i / 4)) + _shape.Between(-1, 1));
            file.Point(code, at, SiteFrame.Ground(at));
        }
    }
}
