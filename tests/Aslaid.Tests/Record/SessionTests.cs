using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

public class SessionTests
{
    private static string Sessions(string lines, Settings? settings = null)
    {
        var inputs = ShotsOf.Lines(lines);
        var shots = Derivation.Derive(settings is null ? inputs : inputs with { Settings = settings }).Shots;
        return string.Join(' ', shots.Session.ToArray());
    }

    [Fact]
    public void APauseLongerThanTheSetting_BeginsAnother()
    {
        const string day = "--- North\n1 0 0 5 GROUND - - time=08:00\n2 9 0 5 GROUND - - time=10:00\n3 18 0 5 GROUND - - time=14:30\n4 27 0 5 GROUND - - time=15:00";
        Assert.Equal("0 0 1 1", Sessions(day));
        Assert.Equal("0 0 0 0", Sessions(day, ShotsOf.Settings with { SessionGapMinutes = 300 }));
        Assert.Equal("0 1 2 2", Sessions(day, ShotsOf.Settings with { SessionGapMinutes = 60 }));
    }

    [Fact]
    public void FilesOfOneCrewAndMorning_ShareIt_InWhicheverOrder()
    {
        Assert.Equal("0 0", Sessions("--- North\n1 0 0 5 GROUND - - time=08:00\n--- North\n2 9 0 5 GROUND - - time=08:30"));
        Assert.Equal("0 0 0", Sessions("--- North\n2 9 0 5 GROUND - - time=09:00\n--- North\n1 0 0 5 GROUND - - time=08:30\n3 18 0 5 GROUND - - time=09:30"));
        Assert.Equal("0 1", Sessions("--- North\n1 0 0 5 GROUND - - time=08:00\n--- South\n1 9 0 5 GROUND - - time=08:30"));
    }

    [Theory]
    [InlineData("instrument")]
    [InlineData("setup")]
    [InlineData("initialisation")]
    public void AnotherInstrumentSetUpOrInitialisation_IsAnother(string column) =>
        Assert.Equal("0 1 0", Sessions($"--- North\n1 0 0 5 GROUND - - time=08:00 {column}=a\n2 9 0 5 GROUND - - time=08:01 {column}=b\n3 18 0 5 GROUND - - time=08:02 {column}=a"));

    /// <summary>Two receivers of whom nothing is said must not prove each other.</summary>
    [Fact]
    public void FilesThatNameNobody_OrHaveNoTimes_AreEachTheirOwn()
    {
        var nobody = ShotsOf.Lines("1 0 0 5 GROUND - - time=08:00\n---\n2 9 0 5 GROUND - - time=08:01");
        Assert.Equal(2, Derivation.Derive(nobody).Shots.SessionCount);
        Assert.Equal("0 1", Sessions("--- North\n1 0 0 5 GROUND - - time=-\n--- North\n2 9 0 5 GROUND - - time=-"));
    }
}
