using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;

namespace Aslaid.Tests;

public sealed class HoldTests
{
    private const string Duct = """
        1 0 0 5 DUCT PD-1
        2 8 0 5 DUCT PD-1
        3 16 0 5 DUCT PD-1
        90 40 40 5 CONTROL - - note=M1
        """;

    /// <summary>The duct, and more; its session is proven on a control point.</summary>
    private static RecordInputs Proven(string more = "") => ShotsOf.Lines(Duct + more).WithControl(("M1", 40, 40, 5));

    private const string Key = "DUCT/PD-1";

    private static List<(double From, double To, HoldState State)> States(RecordInputs inputs) =>
        [.. Derivation.Derive(inputs).Holds.Select(hold => (hold.From, hold.To, hold.State))];

    private static LengthReleased Release(RecordInputs inputs, double from, double to)
    {
        var record = Derivation.Derive(inputs);
        return Releases.Of(record, record.Runs.Find(Key)!.Value, from, to);
    }

    [Fact]
    public void Holds_NothingWrong_IsOpen() => Assert.Equal([(0, 16, HoldState.Open)], States(Proven()));

    [Fact]
    public void Holds_ReleasedLength_IsCompleteAndTheRestOpen()
    {
        var inputs = Proven();
        Assert.Equal([(0, 8, HoldState.Complete), (8, 16, HoldState.Open)], States(inputs.Then(Release(inputs, 0, 8))));
    }

    [Fact]
    public void Holds_ReleaseWithdrawn_IsOpenAgain()
    {
        var inputs = Proven();
        Assert.Equal([(0, 16, HoldState.Open)], States(inputs.Then(Release(inputs, 0, 16)).Then(new Withdrawn(1))));
    }

    [Fact]
    public void Holds_InputOfReleaseChanged_LapsesVisibly()
    {
        var inputs = Proven();
        var changed = Derivation.Derive(inputs.Then(Release(inputs, 0, 16)).Then(new PoleHeightCorrected([new(1, 3)], 2, 1.999)));
        var hold = Assert.Single(changed.Holds);
        Assert.Equal(HoldState.Open, hold.State);
        Assert.Equal([1], hold.Lapsed);
    }

    [Fact]
    public void Holds_ValueMovedByLessThanATenthOfAMillimetre_StaysReleased()
    {
        var inputs = Proven();
        var moved = inputs.Then(Release(inputs, 0, 16)).Then(new PoleHeightCorrected([new(1, 3)], 2, 1.99995));
        Assert.Equal(HoldState.Complete, Assert.Single(Derivation.Derive(moved).Holds).State);
    }

    [Fact]
    public void Holds_LimitOfCodeChanged_LapsesVisibly()
    {
        var inputs = Proven();
        var codes = new CodeBook([.. inputs.Codes.Entries.Select(entry => entry.Code == "DUCT" ? entry with { CoverMin = 0.6 } : entry)]);
        Assert.Equal([1], Derivation.Derive(inputs.Then(Release(inputs, 0, 16)) with { Codes = codes }).Holds[0].Lapsed);
    }

    [Fact]
    public void Holds_ShotElsewhereChanged_LeavesTheReleaseStanding()
    {
        var inputs = Proven("\n9 50 50 5 GROUND");
        Assert.Equal(HoldState.Complete, States(inputs.Then(Release(inputs, 0, 16)).Then(new SetAside([new(1, 6)])))[0].State);
    }

    [Fact]
    public void Holds_Covered_PrevailsOverReleased()
    {
        var inputs = Proven();
        Assert.Equal(
            [(0, 4, HoldState.Complete), (4, 16, HoldState.Covered)],
            States(inputs.Then(Release(inputs, 0, 16)).Then(new LengthCovered(Key, 4, 16))));
    }

    [Fact]
    public void Release_HeldLength_IsRefusedWithTheReason()
    {
        var inputs = ShotsOf.Lines("1 0 0 5 DUCT PD-1\n2 8 0 5 DUCT PD-1 fix=float\n3 16 0 5 DUCT PD-1");
        var refusal = Assert.Throws<ProjectException>(() => Release(inputs, 0, 16));
        Assert.Contains("is held: F-", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void HoldTotals_CodesWithAndWithoutRole_CountOnlyWhatSomebodyReleases()
    {
        var inputs = Proven("\n7 0 9 5 EDGE E-1\n8 9 9 5 EDGE E-1");
        Assert.Equal(25, HoldTotals.Of(Derivation.Derive(inputs))[(int)HoldState.Open], 1e-9);
        var codes = new CodeBook([.. inputs.Codes.Entries.Select(entry => entry.Code == "DUCT" ? entry with { Releases = "engineer" } : entry)]);
        Assert.Equal(16, HoldTotals.Of(Derivation.Derive(inputs with { Codes = codes }))[(int)HoldState.Open], 1e-9);
    }

    [Fact]
    public void Release_NoAccuracyWhereProofIsNeeded_IsRefused()
    {
        var inputs = ShotsOf.Lines("1 0 0 5 DUCT PD-1\n2 8 0 5 DUCT PD-1 u_plan=-\n90 40 40 5 CONTROL - - note=M1").WithControl(("M1", 40, 40, 5));
        Assert.Contains("shot 2 states no accuracy", Assert.Throws<ProjectException>(() => Release(inputs, 0, 8)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Release_SessionThatMetNoControl_IsRefused() =>
        Assert.Contains("met no control point", Assert.Throws<ProjectException>(() => Release(ShotsOf.Lines(Duct), 0, 16)).Message, StringComparison.Ordinal);

    [Fact]
    public void Holds_CoveredWhileHeld_IsCoveredAndSaysByWhat()
    {
        var record = Derivation.Derive(ShotsOf.Lines("1 0 0 5 DUCT PD-1\n2 8 0 5 DUCT PD-1 fix=float\n3 16 0 5 DUCT PD-1").Then(new LengthCovered(Key, 0, 16)));
        Assert.All(record.Holds, hold => Assert.True(hold.State == HoldState.Covered && !hold.By.IsEmpty));
        Assert.Equal(16, HoldTotals.CoveredUnproven(record), 1e-9);
    }

    [Theory]
    [InlineData("1 0 0 5 DUCT A\n2 8 0 5 DUCT A fix=float\n2 - - - KERB B\n3 16 0 5 KERB B")]
    [InlineData("1 0 0 5 DUCT A\n2 8 0 5 DUCT A\n8 50 0 5 CABLX A\n9 58 0 5 CABLX A\n8 - - - CABLX B\n7 50 9 5 CABLX B")]
    public void Holds_DoubtedShotInTwoRuns_HoldsBoth(string lines)
    {
        var record = Derivation.Derive(ShotsOf.Lines(lines));
        var held = record.Holds.Where(hold => hold.State == HoldState.Held).Select(hold => hold.Run).Distinct();
        Assert.Equal(2, held.Count());
    }
}
