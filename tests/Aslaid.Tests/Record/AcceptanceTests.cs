using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public sealed class AcceptanceTests
{
    private static readonly RecordInputs Worse = ShotsOf.Lines("1 0 0 5 GROUND u_plan=0.04\n2 9 0 5 GROUND");

    private static Finding Only(RecordInputs inputs, string check) => Assert.Single(inputs.Find(check));

    private static FindingAccepted Accept(Finding finding) => new(finding.Id, finding.Check.Name, finding.Severity, finding.Measured, finding.Allowed);

    [Fact]
    public void Accepted_EvidenceTheSame_Stands() =>
        Assert.Equal(FindingState.Accepted, Only(Worse.Then(Accept(Only(Worse, "accuracy-over-limit"))), "accuracy-over-limit").State);

    [Fact]
    public void Accepted_Withdrawn_StandsNoMore() =>
        Assert.Equal(FindingState.Standing, Only(Worse.Then(Accept(Only(Worse, "accuracy-over-limit"))).Then(new Withdrawn(1)), "accuracy-over-limit").State);

    [Fact]
    public void Accepted_LimitDrawnTighter_Lapses()
    {
        var accepted = Worse.Then(Accept(Only(Worse, "accuracy-over-limit")));
        var tighter = accepted with { Codes = new([.. accepted.Codes.Entries.Select(entry => entry.Code == "GROUND" ? entry with { Plan95Max = 0.02 } : entry)]) };
        Assert.All(tighter.Find("accuracy-over-limit").Where(finding => finding.AcceptedAt > 0), finding => Assert.Equal(FindingState.Lapsed, finding.State));
    }

    [Fact]
    public void Accepted_LookThatBecameAStop_Lapses()
    {
        var inputs = ShotsOf.Lines("1 0 0 5 KERB K\n2 8 0 5 KERB K");
        var look = Only(inputs, "no-check-shot");
        Assert.Equal(Severity.Look, look.Severity);
        var stop = Only(inputs.Then(Accept(look)).WithControl(("M1", 50, 50, 5)), "no-check-shot");
        Assert.Equal(Severity.Stop, stop.Severity);
        Assert.True(stop.Holds);
    }

    [Fact]
    public void Accepted_UnderAnotherChecksName_CountsNot()
    {
        var accept = Accept(Only(Worse, "accuracy-over-limit")) with { Check = "id-twice" };
        Assert.Equal(FindingState.Standing, Only(Worse.Then(accept), "accuracy-over-limit").State);
    }
}
