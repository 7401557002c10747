using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class RelationTests
{
    private const string Lines = """
        1 0 0 5 DUCT D1
        2 8 0 5 DUCT D1
        3 0 1 5 DUCT D2
        4 8 1 5 DUCT D2
        5 0 2 5 DUCT D3
        6 8 2 5 DUCT D3
        7 0 3 5 DUCT D4
        8 8 3 5 DUCT D4
        """;

    private static AsBuiltRecord With(params RelationSet[] relations) => Derivation.Derive(relations.Aggregate(ShotsOf.Lines(Lines), (inputs, relation) => inputs.Then(relation)));

    private static RelationSet In(int run, int of) => new($"DUCT/D{run}", RunRelation.In, $"DUCT/D{of}");

    private static RelationSet Bank(int run, int of) => new($"DUCT/D{run}", RunRelation.Bank, $"DUCT/D{of}");

    [Fact]
    public void In_HoldsAtAnyDepth_AndBanksJoin()
    {
        var relations = With(In(1, 2), In(2, 3), Bank(3, 4)).Site.Relations;
        Assert.Equal(1, relations.In(0));
        Assert.Equal([0], relations.Inside(1));
        Assert.Equal([3], relations.Bank(2));
        Assert.True(relations.MayTouch(0, 2));
        Assert.True(relations.MayTouch(2, 0));
        Assert.True(relations.MayTouch(0, 3)); // a cable in a duct of the bank
        Assert.False(With(In(1, 2)).Site.Relations.MayTouch(0, 3));
        Assert.Equal([1, 2], With(Bank(1, 2), Bank(3, 2)).Site.Relations.Bank(0));
    }

    [Fact]
    public void ACircle_IsUnresolved()
    {
        var record = With(In(1, 2), In(2, 3), In(3, 1));
        Assert.Equal("Journal 3: DUCT/D1 lies in DUCT/D3 already.", Assert.Single(record.Unresolved));
        Assert.Null(record.Site.Relations.In(2));
        Assert.Contains("related to itself", Assert.Single(With(In(1, 1)).Unresolved), StringComparison.Ordinal);
    }

    [Fact]
    public void AnEndInItsDuct_IsNoLooseEnd()
    {
        var inputs = ShotsOf.Lines("1 0 0 5 DUCT D1\n2 8 0 5 DUCT D1\n3 16 0 5 DUCT D1\n4 4 -9 5 DUCT D2\n5 4 -0.3 5 DUCT D2");
        Assert.Single(inputs.Find("end-short"));
        Assert.Empty(inputs.Then(In(2, 1)).Find("end-short"));
        Assert.Single(inputs.Then(In(2, 1)).Then(new Withdrawn(1)).Find("end-short"));
    }
}
