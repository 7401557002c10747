using Aslaid.Record;
using Aslaid.Testing;
using CsCheck;

namespace Aslaid.Tests;

public class NodeTests
{
    /// <summary>Whatever is measured: the levels of one pipe are the same, and each is its size from the next.</summary>
    [Fact]
    public void Levels_FromAnyPointMeasured_AreThoseOfOnePipe() =>
        Gen.Select(Gen.Double[-5, 60], Gen.Double[0.1, 2], Gen.Double[0.003, 0.05], Gen.Double[0.05, 0.3]).Sample(drawn =>
        {
            var (under, size, wall, encasement) = drawn;
            (string At, double Height)[] shots = [("top", under + size), ("centre", under + size / 2), ("underside", under), ("invert", under + wall), ("soffit", under + size - wall)];
            foreach (var (at, height) in shots)
            {
                var levels = Levels.Of(at, height, size, wall, encasement);
                Assert.Equal(under + size, levels.Top!.Value, 1e-9);
                Assert.Equal(under + size / 2, levels.Centre!.Value, 1e-9);
                Assert.Equal(under, levels.Underside!.Value, 1e-9);
                Assert.Equal(under + wall, levels.Invert!.Value, 1e-9);
                Assert.Equal(under + size - wall, levels.Soffit!.Value, 1e-9);
                Assert.Equal(under - encasement, levels.EncasedUnderside!.Value, 1e-9);
                Assert.Equal(under + size + encasement, levels.EncasedTop!.Value, 1e-9);
            }
        });

    private static class Levels
    {
        public static Aslaid.Record.Levels Of(string? at, double height, double? size, double? wall, double? encasement) => LevelsOfRuns.Of(at, height, size, wall, encasement, 0.01);
    }

    [Fact]
    public void Levels_WithoutSizes_AreOnlyWhatWasMeasured()
    {
        Assert.Equal(new Aslaid.Record.Levels(null, null, 3, null, null, null, null, 0.01), Levels.Of("invert", 3, 0.3, null, null));
        Assert.Equal(new Aslaid.Record.Levels(3, null, null, 2.99, null, null, null, 0.01), Levels.Of("top", 3, null, 0.01, null));
        Assert.Equal(default, Levels.Of("face", 3, 0.3, 0.01, 0.1));
        Assert.Equal(default, Levels.Of(null, 3, 0.3, 0.01, 0.1));
    }

    [Fact]
    public void Levels_AttributesOverrideTheBook()
    {
        var inputs = ShotsOf.Lines("1 0 0 5 DUCT D1 - od_m=0.2\n2 8 0 5 DUCT D1 - od_m=0.2\n3 16 0 5 DUCT D1 - od_m=0.2");
        inputs = inputs with { Codes = new([.. ShotsOf.Codes.Entries.Select(entry => entry.Code == "DUCT" ? entry with { MeasuredAt = "top", OutsideDiameter = 0.11, Wall = 0.005 } : entry)]) };
        Aslaid.Record.Levels At(RecordInputs of) => Derivation.Derive(of) is var record ? new LevelsOfRuns(record.Site).Of(record.Runs[0], 0) : default;
        Assert.Equal(4.8, At(inputs).Underside!.Value, 1e-9);
        Assert.Equal(4.7, At(inputs.Then(new AttributeSet("DUCT/D1", "od_m", "0.3"))).Underside!.Value, 1e-9);
        Assert.Equal(5.15, At(inputs.Then(new AttributeSet("DUCT/D1", "od_m", "0.3")).Then(new AttributeSet("DUCT/D1", "measured_at", "centre"))).Top!.Value, 1e-9);
        Assert.Equal(5.1, At(inputs.Then(new AttributeSet("DUCT/D1", "encasement_m", "0.1"))).EncasedTop!.Value, 1e-9);
    }

    /// <summary>Two by two ducts of 0.1 m, 0.15 m from middle to middle, in a bank 0.1 m thick all round.</summary>
    [Fact]
    public void Levels_OfABank_AreEncasedTogether()
    {
        var lines = new List<string>();
        foreach (var (duct, east, top) in new[] { (1, 0.0, 5.0), (2, 0.15, 5.0), (3, 0.0, 4.85), (4, 0.15, 4.85) })
            for (var shot = 0; shot < 3; shot++) lines.Add(FormattableString.Invariant($"{10 * duct + shot} {east} {10 * shot} {top} DUCT D{duct} - od_m=0.1 measured_at=top encasement_m=0.1"));
        var inputs = ShotsOf.Lines(string.Join('\n', lines));
        foreach (var duct in (int[])[2, 3, 4]) inputs = inputs.Then(new RelationSet("DUCT/D1", RunRelation.Bank, $"DUCT/D{duct}"));
        var record = Derivation.Derive(inputs);
        for (var duct = 0; duct < 4; duct++)
        {
            var levels = new LevelsOfRuns(record.Site).Of(record.Runs[duct], 1);
            Assert.Equal(5.1, levels.EncasedTop!.Value, 1e-9);
            Assert.Equal(4.85 - 0.1 - 0.1, levels.EncasedUnderside!.Value, 1e-9);
        }

        var unknown = Derivation.Derive(inputs.Then(new AttributeSet("DUCT/D3", "measured_at", "face")));
        Assert.Null(new LevelsOfRuns(unknown.Site).Of(unknown.Runs[0], 1).EncasedUnderside); // of one duct nothing tells how deep it lies
    }

    /// <summary>A chamber at the origin; a duct into it from the west, one out of it to the north, which falls.</summary>
    internal const string Chamber = """
        1 0 0 6 CHAMBER
        2 -20 0 4.4 DUCT IN
        3 -10 0 4.2 DUCT IN
        4 -0.4 0 4.0 DUCT IN
        5 0 0.4 3.9 DUCT OUT
        6 0 10 3.7 DUCT OUT
        7 0 20 3.5 DUCT OUT
        """;

    internal static RecordInputs Inputs(params Change[] changes)
    {
        var inputs = ShotsOf.Lines(Chamber) with { Codes = new([.. ShotsOf.Codes.Entries.Select(entry => entry.Code == "DUCT" ? entry with { MeasuredAt = "invert", OutsideDiameter = 0.11, Wall = 0.005 } : entry)]) };
        return changes.Aggregate(inputs, (now, change) => now.Then(change));
    }

    internal static ConnectionSet In(double? invert = 4.0, double? clock = 9, RunEnd? end = RunEnd.End) => new(new(1, 2), "A", invert, 0.1, clock, "DUCT/IN", end);

    internal static ConnectionSet Out(double? invert = 3.9, double? clock = 0) => new(new(1, 2), "B", invert, 0.1, clock, "DUCT/OUT", RunEnd.Start);

    [Fact]
    public void Nodes_HaveTheEndsThatLieInThem_AndTheirConnections()
    {
        var record = Derivation.Derive(Inputs(In(), Out(), In(3.98)));
        var node = Assert.Single(record.Site.Nodes.All);
        Assert.Equal([3.9, 3.98], node.Connections.Select(connection => connection.What.Invert!.Value).Order());
        Assert.Equal([("DUCT/IN", RunEnd.End), ("DUCT/OUT", RunEnd.Start)], node.Ends.Select(end => (record.Runs[end.Run].Key, end.End)));
        Assert.Equal([false, true], node.Ends.Select(end => NodeFacts.FlowsOut(record.Shots, record.Runs[end.Run], end.End)));
        Assert.Equal([9.0, 0.0], node.Ends.Select(end => NodeFacts.Clock(record.Runs[end.Run], end.End)!.Value));
        var ready = NodeFacts.Ready(record.Site, node, node.Ends[0]);
        Assert.Equal(4.0, ready.Invert!.Value, 1e-9);
        Assert.Equal(0.1, ready.Size!.Value, 1e-9);
    }

    [Fact]
    public void ATiedEnd_BelongsToItsNode_AndIsNoLooseEnd()
    {
        var far = Inputs() with { };
        var lines = ShotsOf.Lines(Chamber.Replace("4 -0.4 0", "4 -0.9 0", StringComparison.Ordinal)) with { Codes = far.Codes };
        Assert.Single(lines.Find("end-short"));
        Assert.Single(Assert.Single(Derivation.Derive(lines).Site.Nodes.All).Ends);
        var tied = lines.Then(new NodeTied("DUCT/IN", RunEnd.End, new(1, 2)));
        Assert.Empty(tied.Find("end-short"));
        Assert.Equal(2, Assert.Single(Derivation.Derive(tied).Site.Nodes.All).Ends.Length);
        Assert.Single(Assert.Single(Derivation.Derive(tied.Then(new Withdrawn(1))).Site.Nodes.All).Ends);
    }

    [Fact]
    public void EntriesWithoutTheirSubject_AreUnresolved()
    {
        Assert.Contains("there is no shot 1:99", Assert.Single(Derivation.Derive(Inputs(new ConnectionSet(new(1, 99), "A", null, null, null, null, null))).Unresolved), StringComparison.Ordinal);
        Assert.Contains("there is no run DUCT/X", Assert.Single(Derivation.Derive(Inputs(new NodeTied("DUCT/X", RunEnd.End, new(1, 2)))).Unresolved), StringComparison.Ordinal);
    }

    /// <summary>Depth of an invert below the cover, drawn 100 000 times: within 2 % of what is propagated, though both shots share a session.</summary>
    [Fact]
    public void DepthOfAnInvert_HasTheUncertaintyOfAMonteCarlo()
    {
        var record = Derivation.Derive(Inputs());
        var depth = Measures.HeightDifference(record.Shots, 3, 0)!;
        Assert.Equal(2.0, depth.Value, 1e-9);
        var (draws, sum) = (new MonteCarlo(record, 3), 0.0);
        for (var draw = 0; draw < MonteCarlo.Draws; draw++)
        {
            draws.Draw();
            // invert by the sizes from the top, and the cover's own shot
            var off = draws.Height[0] - LevelsOfRuns.Of("top", draws.Height[3] + 0.105, 0.11, 0.005, null, null).Invert!.Value - 2;
            sum += off * off;
        }

        Assert.Equal(1, Math.Sqrt(sum / MonteCarlo.Draws) / depth.U(record.Shots)!.Value, 0.02);
    }
}
