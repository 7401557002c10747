using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class IdTwiceTests
{
    /// <summary>Also where ids rise for a while, which spares the search.</summary>
    [Fact]
    public void Look_AnyIds_FindsThoseThatCountingFinds() => Gen.Int[1, 30].Array[1, 30].Sample(ids =>
    {
        var inputs = ShotsOf.Lines(string.Join('\n', ids.Select((id, i) => FormattableString.Invariant($"{id} {9 * i} 0 5 GROUND"))));
        var expected = ids.GroupBy(id => id).Where(group => group.Count() > 1).Select(group => (group.Key, group.Count()));
        return inputs.Find("id-twice").Select(finding => (int.Parse(finding.ShotIds[0], System.Globalization.CultureInfo.InvariantCulture), finding.Shots.Length)).SequenceEqual(expected);
    }, iter: 300);

    [Fact]
    public void Look_TwoPlaces_IsFoundAsALook()
    {
        var finding = CheckAssert.Single(ShotsOf.Lines("7 0 0 5 GROUND\n8 4 0 5 GROUND\n7 3 4 5 GROUND"), "id-twice", Severity.Look, "7", "7");
        Assert.Equal("Id 7 names 2 shots, 5.000 m apart (1:2, 1:4).", finding.Message);
        Assert.Null(finding.Correction);
    }

    [Fact]
    public void Look_OnePlace_IsFoundAsANoteAndCured()
    {
        var inputs = ShotsOf.Lines("7 0 0 5 GROUND\n7 0.004 0 5.003 GROUND");
        CheckAssert.Single(inputs, "id-twice", Severity.Note, "7", "7");
        CheckAssert.CuredByItsCorrection(inputs, "id-twice");
    }

    [Fact]
    public void Look_IdUsedAgain_IsFoundAsAStop() => CheckAssert.Single(
        ShotsOf.Lines("7 0 0 5 KERB K1\n8 4 0 5 KERB K1\n7 4 4 5 KERB K1\n7 - - - KERB K1"), "id-twice", Severity.Stop, "7", "7");

    [Fact]
    public void Look_OneHeightApart_IsFoundAsALook() =>
        CheckAssert.Single(ShotsOf.Lines("7 0 0 5 GROUND\n7 0 0 6 GROUND"), "id-twice", Severity.Look, "7", "7");

    [Fact]
    public void Look_TwoCrewsOrTwoBatches_IsSilent()
    {
        CheckAssert.Silent(ShotsOf.Lines("7 0 0 5 GROUND crew=North\n7 9 0 5 GROUND crew=South"), "id-twice");
        CheckAssert.Silent(ShotsOf.Lines("--- North\n7 0 0 5 GROUND\n--- North\n7 9 0 5 GROUND"), "id-twice");
    }

    [Fact]
    public void Look_ShotUsedAgain_IsSilent() =>
        CheckAssert.Silent(ShotsOf.Lines("1 0 0 5 ISLAND I1\n2 4 0 5 ISLAND I1\n3 4 4 5 ISLAND I1\n1 - - - ISLAND I1"), "id-twice");
}
