using System.IO;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Tests;

/// <summary>
/// A project of each format is kept as a fixture and must open, verify and show what it showed when it was made.
/// <c>project-1.gpkg</c> holds the trench sample with an entry of nearly every kind.
/// </summary>
public sealed class FixtureTests
{
    [Fact]
    public void Format1_OpensAndShowsWhatItShowed()
    {
        using var folder = new TempFolder();
        var project = folder.Write("project-1.gpkg", File.ReadAllBytes(System.IO.Path.Combine(AppContext.BaseDirectory, "fixtures", "project-1.gpkg")));
        using var session = ProjectSession.Open(project, TimeProvider.System);
        Assert.Equal(17, session.Position);
        Assert.Equal("bc4e18aa4563ec9d0afe5aaa03280c1a02bbc960acdb143d3a8da6a49d15661b", session.HeadHash(17));
        Assert.Equal(13, session.Journal.Select(entry => entry.What.GetType()).Distinct().Count());

        var run = session.Record().Runs.Find("POWER-DUCT/PD-1@North")!.Value;
        Assert.Equal(86.03928208471507, run.PlanLength, 1e-9);
        Assert.Equal(0.01434842947951655, run.UPlanLength!.Value, 1e-9);
        Assert.Equal("103 104 105 106 107 ~108 109 110 202 203 111 ~112 113 114 115 116 117", PathNotation.Write(run));
        Assert.Equal([HoldState.Covered, HoldState.Complete, HoldState.Open], session.Record().Holds.Select(hold => hold.State));
        Assert.Equal(45.5, session.Record().Inputs.Settings.GapDistance);
        Assert.Equal([8], session.Record(8).Shots.BecauseOf(session.Record(8).Shots.Raw.Find(new(1, 6))));

        session.Append(new SetAside([new(1, 8)]), Actor.Typed("Tester"), "it can be written to");
        session.Publish();
        Assert.True(session.IsPublished);
    }

    [Fact]
    public void EveryFormat_HasItsFixture()
    {
        for (var format = 1; format <= ProjectTables.Format; format++)
            Assert.True(File.Exists(System.IO.Path.Combine(AppContext.BaseDirectory, "fixtures", $"project-{format}.gpkg")), $"Format {format} has no fixture.");
    }
}
