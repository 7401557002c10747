using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class LabelOfTwoCrewsTests
{
    private const string Check = "label-of-two-crews";

    private static string TwoCrews(string south) => $"""
        --- North
        1 0 0 5 DUCT PD-1
        2 8 0 5 DUCT PD-1
        3 16 0 5 DUCT PD-1
        --- South
        {south}
        """;

    [Theory]
    [InlineData("1 16.01 0 5 DUCT PD-1\n2 24 0 5 DUCT PD-1\n3 32 0 5 DUCT PD-1", "1 2 3 1 2 3")]
    [InlineData("1 32 0 5 DUCT PD-1\n2 24 0 5 DUCT PD-1\n3 16.01 0 5 DUCT PD-1", "1 2 3 3 2 1")]
    [InlineData("1 -16 0 5 DUCT PD-1\n2 -8 0 5 DUCT PD-1", "1 2 1 2 3")]
    [InlineData("1 -8 0 5 DUCT PD-1\n2 -16 0 5 DUCT PD-1", "2 1 1 2 3")]
    public void Look_TwoCrewsMeet_IsFoundAndJoined(string south, string path)
    {
        var inputs = ShotsOf.Lines(TwoCrews(south));
        var finding = Assert.Single(inputs.Find(Check));
        Assert.Equal(Severity.Look, finding.Severity);
        Assert.Equal(new RunJoined("DUCT/PD-1@South", "DUCT/PD-1@North"), finding.Correction);
        CheckAssert.CuredByItsCorrection(inputs, Check);
        var record = Derivation.Derive(inputs.Then(finding.Correction!));
        Assert.Equal(1, record.Runs.Count);
        Assert.Equal(path, PathNotation.Write(record.Runs[0]));
        Assert.Empty(record.Unresolved);
    }

    [Fact]
    public void Look_SameLabelFarApart_IsSilent() => CheckAssert.Silent(ShotsOf.Lines(TwoCrews("1 60 0 5 DUCT PD-1\n2 68 0 5 DUCT PD-1")), Check);

    [Fact]
    public void Look_SideBySide_IsSilent() => CheckAssert.Silent(ShotsOf.Lines(TwoCrews("1 0 4 5 DUCT PD-1\n2 8 4 5 DUCT PD-1")), Check);

    [Fact]
    public void Look_OneCrewInTwoFiles_IsSilent() => CheckAssert.Silent(ShotsOf.Lines(TwoCrews("1 16.01 0 5 DUCT PD-1\n2 24 0 5 DUCT PD-1").Replace("South", "North", StringComparison.Ordinal)), Check);
}
