using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class RevisionsMixedTests
{
    private const string Check = "revisions-mixed";

    private const string Two = "--- North\n1 0 0 5 PIPE P1\n2 10 0 5 PIPE P1\n--- North\n3 20 0 5 PIPE P1\n4 30 0 5 PIPE P1";

    private static RecordInputs Taken(string second) => DesignOf.Lines(Two).WithDesign("PIPE W1 0 0 5; 30 0 5").Then(Batch(1)).WithDesign(second).Then(Batch(2));

    private static BatchTaken Batch(int number) => new(number, $"shots-{number}.csv", "", "", 2, "North", default);

    [Fact]
    public void Look_LineChangedBetween_IsFound() => Assert.Equal(
        "P1: 2 shots (1, 2) were taken in before the revision of W1 that holds (journal 3), 2 shots after it; all are held against the later one.",
        CheckAssert.Single(Taken("PIPE W1 0 0.5 5; 30 0.5 5"), Check, Severity.Look, "1", "2").Message);

    [Fact]
    public void Look_LineStayedAsItWas_IsSilent() => CheckAssert.Silent(Taken("PIPE W1 0 0 5; 30 0 5\nPIPE W2 0 9 5; 30 9 5"), Check);

    [Fact]
    public void Look_OneRevision_IsSilent() => CheckAssert.Silent(DesignOf.Lines(Two).WithDesign("PIPE W1 0 0 5; 30 0 5").Then(Batch(1)).Then(Batch(2)), Check);
}
