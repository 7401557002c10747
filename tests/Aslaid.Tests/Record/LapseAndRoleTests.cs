using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;

namespace Aslaid.Tests;

public class LapseAndRoleTests
{
    private const string Duct = "1 0 0 5 KERB K1\n2 8 0 5 KERB K1\n3 16 0 5 KERB K1\n4 24 0 5 KERB K1";

    private static RecordInputs Released(double from = 0, double to = 16)
    {
        var inputs = ShotsOf.Lines(Duct);
        var run = Derivation.Derive(inputs).Runs[0];
        return inputs.Then(new LengthReleased(run.Key, from, to, Release.InputsHash(Derivation.Derive(inputs).Site, run, from, to), Release.Vertices(run, from, to)));
    }

    private static string? Reason(RecordInputs inputs)
    {
        var record = Derivation.Derive(inputs);
        var reason = LapseReason.Of(record, record.Runs[0], 1);
        Assert.Equal(reason is null, record.Holds.All(hold => hold.Lapsed.IsEmpty)); // the reason is there just where the release lapsed
        return reason;
    }

    [Fact]
    public void Reason_IsWhatChanged()
    {
        Assert.Null(Reason(Released()));
        Assert.Equal("3 shots carried the length, now 2 do", Reason(Released().Then(new SetAside([new(1, 3)]))));
        Assert.Equal("a height changed by 0.200 m", Reason(Released().Then(new PoleHeightCorrected([new(1, 3)], 2, 1.8))));
        var looser = Released() with { Codes = new([.. ShotsOf.Codes.Entries.Select(entry => entry.Code == "KERB" ? entry with { TolerancePlan = 0.2 } : entry)]) };
        Assert.Equal("its code, the limits of its code, the design that it is built to, or which shots lie on arcs changed", Reason(looser));
        Assert.Null(Reason(Released().Then(new SetAside([new(1, 3)])).Then(new Withdrawn(2))));
    }

    private static RecordInputs WithRole(params Change[] changes)
    {
        var inputs = ShotsOf.Lines(Duct) with { Codes = new([.. ShotsOf.Codes.Entries.Select(entry => entry.Code == "KERB" ? entry with { Releases = "engineer" } : entry)]) };
        return changes.Aggregate(inputs, (now, change) => now.Then(change));
    }

    [Fact]
    public void Release_ByAPersonWithoutTheRole_IsRefused()
    {
        var record = Derivation.Derive(WithRole(new RoleGiven("Ada Ferrol", "engineer")));
        Assert.NotNull(Releases.Of(record, record.Runs[0], 0, 16, "ada ferrol"));
        var refused = Assert.Throws<ProjectException>(() => Releases.Of(record, record.Runs[0], 0, 16, "Bo Quillon"));
        Assert.Contains("released by the role engineer, and Bo Quillon does not have it", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Release_WhereNoRoleIsGiven_OrItWasTakenAway()
    {
        var none = Derivation.Derive(WithRole());
        Assert.NotNull(Releases.Of(none, none.Runs[0], 0, 16, "anybody"));
        var taken = Derivation.Derive(WithRole(new RoleGiven("Ada Ferrol", "engineer"), new RoleGiven("Bo Quillon", "engineer"), new RoleGiven("Ada Ferrol", "")));
        Assert.Throws<ProjectException>(() => Releases.Of(taken, taken.Runs[0], 0, 16, "Ada Ferrol"));
        Assert.NotNull(Releases.Of(taken, taken.Runs[0], 0, 16, "Bo Quillon"));
    }
}
