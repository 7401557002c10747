using System.Globalization;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class DesignTests
{
    private static AsBuiltRecord Of(RecordInputs inputs) => Derivation.Derive(inputs);

    private static string[] LinesOf(AsBuiltRecord record, int run = 0) =>
        [.. Enumerable.Range(0, record.Runs[run].MemberCount).Select(member => record.Site.Match.Of(record.Runs[run], member)?.Line.Name ?? "-")];

    [Fact]
    public void Match_OneRunOverTwoLines_ChangesAtTheJoint() => Assert.Equal(["W1", "W1", "W1", "W2", "W2"],
        LinesOf(Of(DesignOf.Lines("1 0 0 5 PIPE P1\n2 10 0 5 PIPE P1\n3 20 0 5 PIPE P1\n4 30 0 5 PIPE P1\n5 40 0 5 PIPE P1").WithDesign("PIPE W1 0 0 5; 20 0 5\nPIPE W2 20 0 5; 40 0 5"))));

    [Fact]
    public void Match_ABranch_StaysOnItsOwnLineAtTheTee()
    {
        var record = Of(DesignOf.Lines("1 0 0 5 PIPE P1\n2 10 0 5 PIPE P1\n3 20 0 5 PIPE P1\n2 - - - PIPE P2\n4 10 8 5 PIPE P2").WithDesign("PIPE W1 0 0 5; 20 0 5\nPIPE W2 10 0 5; 10 8 5"));
        Assert.Equal(["W1", "W1", "W1"], LinesOf(record));
        Assert.Equal(["W2", "W2"], LinesOf(record, 1));
        Assert.All(record.Site.Coverage.Lines, line => Assert.Empty(line.Missing));
    }

    [Fact]
    public void Match_BeyondReach_IsOnNone() => Assert.Equal(["W1", "-"], LinesOf(Of(DesignOf.Lines("1 0 0 5 PIPE P1\n2 10 3.1 5 PIPE P1").WithDesign("PIPE W1 0 0 5; 20 0 5"))));

    [Fact]
    public void Coverage_PartsAndRings_AreByStations()
    {
        var record = Of(DesignOf.Lines("1 0 0 5 PIPE P1\n2 10 0 5 PIPE P1\n3 30 0 5 PIPE P2\n4 20 0 5 PIPE P2").WithDesign("PIPE W1 0 0 5; 40 0 5"));
        var line = Assert.Single(record.Site.Coverage.Lines);
        Assert.Equal([(10.0, 20.0), (30, 40)], line.Missing.Select(range => (range.From, range.To)));
        Assert.Equal(0.5, line.Share, 1e-9);
        var ring = Of(DesignOf.Lines("1 0 0 5 FACE F1\n2 10 0 5 FACE F1\n3 10 10 5 FACE F1\n4 0 10 5 FACE F1\n1 - - - FACE F1").WithDesign("FACE K1 10 0 5; 10 10 5; 0 10 5; 0 0 5; 10 0 5"));
        Assert.Empty(Assert.Single(ring.Site.Coverage.Lines).Missing);
    }

    [Fact]
    public void Map_NamesCodesLevelsAndWhatIsThere()
    {
        var inputs = DesignOf.Lines("1 0 0 5 PIPE P1\n2 20 0 5 PIPE P1").WithDesign("Water_200 W1 0 0 4.9; 20 0 4.9\nOld G1 0 5 4; 20 5 4\nNothing N1 0 9 4; 20 9 4");
        var unmapped = Of(inputs).Site.Design;
        Assert.Equal(["Nothing", "Old", "Water_200"], unmapped.Unmapped.Select(word => word.Word));
        var record = Of(inputs with { DesignMap = new([new("water_200", "PIPE", "centre", null), new("Old", "GAS", null, RunStatus.Existing), new("W9", "PIPE", null, null)]) });
        Assert.Equal(["Nothing"], record.Site.Design.Unmapped.Select(word => word.Word));
        Assert.True(record.Site.Design.Find("G1")!.IsExisting);
        Assert.Equal(0, record.Site.Match.Of(record.Runs[0], 0)!.Value.Height!.Value, 1e-9); // top 5.0, centre 4.9
    }

    [Fact]
    public void Cover_BetweenShots_IsLeastWhereTheGroundDips()
    {
        SurfacePoint Corner(double east, double north, double height) => new(new(ShotsOf.East + east, ShotsOf.North + north), height);
        Assert.True(Tin.TryOf([Corner(0, -50, 6), Corner(40, -50, 6), Corner(17, 50, 4), Corner(-40, 50, 6), Corner(80, 50, 6)], [0, 1, 2, 0, 2, 3, 1, 4, 2], out var tin, out _));
        var inputs = DesignOf.Lines("1 5 0 4 PIPE P1\n2 30 2 4.1 PIPE P1").WithDesign("PIPE W1 0 0 4; 40 0 4");
        inputs = inputs with { Designs = [inputs.Designs[0] with { File = inputs.Designs[0].File with { Surfaces = [new("ground", tin)] } }] };
        var record = Of(inputs);
        var (run, path) = (record.Runs[0], record.Runs[0].Path);
        var points = new CoverAlong(record.Site).Of(run);
        var (least, dense) = (points.Min(point => point.Cover!.Value), double.PositiveInfinity);
        for (var along = 0.0; along <= path.PlanLength; along += 0.001) dense = Math.Min(dense, tin.HeightAt(path.PointAt(along))!.Value - path.HeightAt(along)!.Value);
        Assert.Equal(dense, least, 1e-4);
        Assert.True(points.MinBy(point => point.Cover)!.Chainage is > 1 and < 24);
    }

    [Fact]
    public void Surfaces_TheBestThatReaches_IsTaken()
    {
        var inputs = DesignOf.Lines("1 0 0 5 PIPE P1\n2 20 0 5 PIPE P1").WithDesign("PIPE W1 0 0 5; 20 0 5", 6).WithDesign("PIPE W2 0 90 5; 20 90 5", 7, "built.csv").WithDesign("PIPE W3 0 99 5; 20 99 5", 9, "heap.csv");
        inputs = inputs with { Designs = [inputs.Designs[0], inputs.Designs[1] with { What = inputs.Designs[1].What with { SurfaceKind = SurfaceKind.AsBuilt, SurfaceDate = new(2026, 3, 9) } }, inputs.Designs[2] with { What = inputs.Designs[2].What with { SurfaceKind = SurfaceKind.Temporary } }] };
        var record = Of(inputs);
        var point = new CoverAlong(record.Site).Of(record.Runs[0])[0];
        Assert.Equal((2, SurfaceKind.AsBuilt), (Math.Round(point.Cover!.Value, 9), point.Surface!.Kind));
        Assert.Null(new CoverAlong(record.Site).U(record.Runs[0], point)); // its accuracy is not stated
        Assert.Equal(Verdict.NotProven, Judgements.Of(record).Single(judged => judged.Requirement.Name == "cover").Judgement.Verdict);
    }

    [Fact]
    public void Clearance_ACrossing_IsUndersideLessTop()
    {
        var record = Of(DesignOf.Lines("1 0 0 5.0 PIPE P1\n2 20 0 5.4 PIPE P1\n3 10 -10 5.9 CABLE C1\n4 10 10 5.9 CABLE C1"));
        var clear = Assert.Single(record.Site.Clearances.All);
        Assert.Equal((ClearanceKind.Crossing, "C1"), (clear.Kind, record.Runs[clear.One].Label));
        Assert.Equal(5.8 - 5.2, clear.Vertical!.Value, 1e-9);
        Assert.Equal(-0.15, clear.Plan, 1e-9);
    }

    /// <summary>Against places by the thousand on both, in space, outside to outside.</summary>
    [Fact]
    public void Clearance_AlongArcsOfTheSameCentre_IsWhatDenseSamplingSays()
    {
        string Arc(string code, string label, double radius, double height, int id) => string.Join('\n', Enumerable.Range(0, 3).Select(i => string.Create(CultureInfo.InvariantCulture,
            $"{id + i} {radius * Math.Sin(0.5 * i):F4} {radius * Math.Cos(0.5 * i):F4} {height:F3} {code} {label}{(i == 1 ? " through" : "")}")));
        var record = Of(DesignOf.Lines(Arc("PIPE", "P1", 20, 5, 1) + "\n" + Arc("CABLE", "C1", 20.35, 5.1, 4)));
        var clear = Assert.Single(record.Site.Clearances.All);
        Assert.Equal(ClearanceKind.Alongside, clear.Kind);
        var (one, two) = (record.Runs[0].Path, record.Runs[1].Path);
        var least = double.PositiveInfinity;
        for (var along = 0.0; along < one.PlanLength; along += 0.01) least = Math.Min(least, double.Hypot(two.Locate(one.PointAt(along)).Distance, 5.05 - 4.9) - 0.15);
        Assert.Equal(least, clear.Space!.Value, 1e-4);
    }

    [Fact]
    public void Departure_BetweenShots_IsFound()
    {
        var record = Of(DesignOf.Lines("1 0 0 5 PIPE P1\n2 10 0 5 PIPE P1\n3 20 10 5 PIPE P1\n4 20 20 5 PIPE P1").WithDesign("PIPE W1 0 0 5; 10 0 5; ~17.0710678 2.9289322 5; 20 10 5; 20 20 5"));
        var found = Departures.Of(record.Site, record.Runs[0])!;
        Assert.Equal(10 - 10 / Math.Sqrt(2), found.At.Distance, 1e-6);
        Assert.Equal(10 + Math.Sqrt(50), found.At.Here, 1e-3);
        // The middle of the chord moves by half of each end; both are of one session, whose common part stays whole.
        var (own, common) = (record.Shots.SigmaPlan[1], record.Shots.Sessions[0].UPlan);
        Assert.Equal(Math.Sqrt(own * own / 2 + common * common), found.U!.Value, 1e-6);
        var judged = Judgements.Of(record).Single(one => one.Requirement.Name == "design-departure").Judgement;
        Assert.Equal(Verdict.DoesNotConform, judged.Verdict);
    }

    [Fact]
    public void Release_OfALineThatIsDesignedAnew_Lapses()
    {
        var inputs = DesignOf.Lines("1 0 0 5 FACE F1\n2 10 0 5 FACE F1").WithDesign("FACE K1 0 0 5; 10 0 5");
        var record = Of(inputs);
        var released = inputs.Then(new LengthReleased(record.Runs[0].Key, 0, 10, Release.InputsHash(record.Site, record.Runs[0], 0, 10), Release.Vertices(record.Runs[0], 0, 10)));
        Assert.Empty(Of(released).Holds[0].Lapsed);
        Assert.Empty(Of(released.WithDesign("FACE K2 0 50 5; 10 50 5", null, "other.csv")).Holds[0].Lapsed); // another file touches it not
        Assert.NotEmpty(Of(released.WithDesign("FACE K1 0 0.02 5; 10 0.02 5")).Holds[0].Lapsed);
    }

    [Fact]
    public void LongSection_HasSurfaceDesignBuiltCoverAndFall()
    {
        var record = Of(DesignOf.Lines("1 0 0.02 5 PIPE P1\n2 10 0.02 4.9 PIPE P1\n3 20 0.02 4.85 PIPE P1").WithDesign("PIPE W1 0 0 5; 20 0 4.8", 6));
        var rows = LongSection.Of(record, record.Runs[0], 5).Where(row => row.Chainage is 0 or > 1).ToArray(); // the ground has an edge at 0.02 m
        Assert.Equal([0.0, 5, 10, 15, 20], rows.Select(row => Math.Round(row.Chainage, 9)));
        Assert.Equal((6, 4.95, 1.05, 4.95, -0.02), (rows[1].Surface!.Value, Math.Round(rows[1].Top!.Value, 9), Math.Round(rows[1].Cover!.Value, 9), Math.Round(rows[1].Designed!.Value, 9), Math.Round(rows[1].Offset!.Value, 9)));
        Assert.Equal([null, 0.01, 0.005], rows.Where(row => row.Shot is not null).Select(row => row.Fall is { } fall ? Math.Round(fall, 9) : (double?)null));
        Assert.NotNull(rows[2].UFall);
    }

    [Fact]
    public void SetOut_HasTangentPointsBendsIntervalsAndStations()
    {
        var record = Of(DesignOf.Lines("1 0 0 5 PIPE P1\n2 10 0 5 PIPE P1").WithDesign("PIPE W1 0 0 5; 10 0 5; ~17.0710678 2.9289322 5; 20 10 5; 20 20 5; 30 20 5"));
        var points = SetOut.Of(record.Site.Design.Lines[0], 10, [12.5], -0.5);
        Assert.Equal(["start", "tangent point", "asked", "interval", "tangent point", "interval", "bend", "interval", "end"], points.Select(point => point.What));
        Assert.Equal((ShotsOf.East, ShotsOf.North + 0.5), (points[0].At.East, points[0].At.North)); // left of its start
        Assert.Equal(12.5, points[2].Station);
        Assert.Equal(9.5, points[2].At.DistanceTo(new(ShotsOf.East + 10, ShotsOf.North + 10)), 1e-6); // inside the curve
    }

    [Fact]
    public void Deviations_Summaries_AreThoseOfTheirValues()
    {
        var summaries = Deviations.Summaries([.. Deviations.Of(Of(DesignOf.Lines("1 0 0.01 5 PIPE P1\n2 10 -0.03 5.02 PIPE P1\n3 20 0.02 5 PIPE P1").WithDesign("PIPE W1 0 0 5; 20 0 5")))]);
        var plan = summaries[0].Plan!.Value;
        Assert.Equal((3, 0), (plan.Count, Math.Round(plan.Mean, 9)));
        Assert.Equal(Math.Sqrt(0.0014 / 3), plan.Rms, 1e-9);
        Assert.Equal((-0.02, 0.03), (Math.Round(plan.Least.Value, 9), Math.Round(plan.Most.Value, 9)));
        Assert.Equal(2, summaries.Length); // the run and its code
    }

    /// <summary>Only the design tells that one batch has its axes exchanged.</summary>
    [Fact]
    public void Batch_WithExchangedAxes_IsToldByTheDesign()
    {
        var swapped = string.Join('\n', Enumerable.Range(0, 12).Select(i => string.Create(CultureInfo.InvariantCulture, $"{i + 1} {6_243_000 - ShotsOf.East} {512_000 + 6 * i - ShotsOf.North} 5 PIPE P1")));
        CheckAssert.Silent(DesignOf.Lines(swapped), "axes-swapped");
        Assert.Single(DesignOf.Lines(swapped).WithDesign("PIPE W1 0 0 5; 70 0 5").Find("axes-swapped"));
    }
}
