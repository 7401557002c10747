namespace Aslaid.Workbench;

/// <summary>
/// A crew that states its accuracy and meets what looks wrong and is right: a duct that dips under a crossing and comes up again,
/// a kerb dropped at a crossing over one shot or two, one lamp column visited twice within twenty minutes and again hours later, a
/// pipe of straight lengths on a curve, fittings that turn at a point, ducts that turn in a chamber, and one control point only.
/// </summary>
internal sealed class OddDay
{
    private const double East = Math.PI / 2;
    private const double Deep = 0.45; // m, usual cover of the duct
    private readonly SeededNumbers _shape;
    private readonly Mark _mark;

    public OddDay(int seed, SiteFrame frame)
    {
        _shape = new(seed, 5);
        _mark = frame.Marks[2];
        File = new(new("East", seed, 70), "east.csv", new(2026, 3, 12, 7, 0, 0, TimeSpan.FromHours(1)), frame);
    }

    public CrewFile File { get; }

    public SampleFile Shoot()
    {
        File.Check(_mark);
        var column = new Spot(128, 64);
        Column(column);
        File.Wait(5);
        Column(column);
        Dip();
        DroppedKerb();
        JointedPipe();
        Fittings();
        TurnInChamber();
        File.Check(_mark);
        Surface();
        File.Wait(60);
        Column(column);
        File.Check(_mark);
        return File.Write(ShotsForm.Usual(3));
    }

    /// <summary>Most shots of any day are levels.</summary>
    private void Surface()
    {
        for (var i = 0; i < 60; i++)
        {
            var at = new Spot(126 + (6 * (i % 10)) + _shape.Between(-1, 1), 124 + (5 * (i / 10)) + _shape.Between(-1, 1));
            File.Point("FINISH", at, SiteFrame.Ground(at));
        }
    }

    private void Column(Spot at) => File.Point("LAMP-COLUMN", at, SiteFrame.Ground(at));

    /// <summary>Down within one leg, level for two shots or three, up again; what it passes under was there before.</summary>
    private void Dip()
    {
        const double step = 4;
        var depth = _shape.Between(0.5, 0.8);
        var (first, last) = (5, 6 + _shape.Whole(2));
        var duct = new Trace(new(124, 70), East).Straight(12 * step, step);
        File.Lay("TELECOM-DUCT", "TD-1", duct, (at, chainage) => SiteFrame.Ground(at) - Deep - (depth * Share(chainage / step)),
            nodes: Interchange.Nodes("TELECOM-CHAMBER", 0, 12));

        double Share(double stop) => Math.Clamp(Math.Min(stop - first + 1, last + 1 - stop), 0, 1);
    }

    private void DroppedKerb()
    {
        const double upstand = 0.12;
        const double drop = 0.1;
        var (first, last) = (4, 4 + _shape.Whole(2));
        var kerb = new Trace(new(124, 78), East).Straight(_shape.Between(40, 44), 4);
        File.Lay("KERB-FACE", "KF-1", kerb, (at, chainage) =>
        {
            var stop = chainage / kerb.PlanLength * (kerb.Stops.Count - 1);
            return SiteFrame.Ground(at) + upstand - (stop > first - 0.5 && stop < last + 0.5 ? drop : 0);
        });
    }

    private void JointedPipe()
    {
        var pipe = new Trace(new(124, 84), East);
        var bend = 6 / _shape.Between(160, 220);
        for (var i = 0; i < 10; i++)
            pipe.Straight(6, 6).Corner(-bend);
        File.Lay("WATER-MAIN", "WJ-2", pipe, SiteFrame.Under(1.2), nodes: Interchange.Nodes("WATER-VALVE", 0, 10));
    }

    /// <summary>An elbow of 45° or 22.5° in a stiff pipe, which has no radius to speak of, and a branch that turns at its valve.</summary>
    private void Fittings()
    {
        var elbow = _shape.Whole(2) == 0 ? Math.PI / 4 : Math.PI / 8;
        var main = new Trace(new(124, 100), East).Straight(_shape.Between(10, 12), 6).Corner(elbow).Straight(10, 5);
        File.Lay("WATER-MAIN", "WF-1", main, SiteFrame.Under(1.2), nodes: Interchange.Nodes("WATER-VALVE", 0, main.Stops.Count - 1));
        var branch = new Trace(new(124, 108), East).Straight(_shape.Between(10, 12), 6).Corner(elbow).Straight(8, 4);
        File.Lay("WATER-BRANCH", "WF-2", branch, SiteFrame.Under(1.2), nodes: Interchange.Nodes("WATER-VALVE", 0, 2, branch.Stops.Count - 1));
    }

    private void TurnInChamber()
    {
        var duct = new Trace(new(124, 116), East).Straight(_shape.Between(14, 16), 8).Corner(-_shape.Between(0.8, East)).Straight(12, 6);
        File.Lay("POWER-DUCT", "PT-1", duct, SiteFrame.Under(0.75), nodes: Interchange.Nodes("POWER-CHAMBER", 0, 2, 4));
    }
}
