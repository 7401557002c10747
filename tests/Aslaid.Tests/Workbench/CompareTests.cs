using System.IO;
using Aslaid.Workbench;

namespace Aslaid.Tests;

public sealed class CompareTests
{
    private const string Shots = """
        id,east,north,height,code,run,u_plan,u_height,time,pole
        1,512000.000,6243000.000,5.000,WATER-MAIN,WM-1,0.012,0.015,2026-03-10T08:00:00Z,2.0
        2,512008.000,6243000.000,5.000,WATER-MAIN,WM-1,0.012,0.015,2026-03-10T08:01:00Z,2.0
        3,512016.000,6243001.000,5.000,WATER-MAIN,WM-1,0.012,0.015,2026-03-10T08:02:00Z,2.0
        """;

    private static TempFolder Site()
    {
        var folder = new TempFolder();
        CommandLine.Fine("new", folder["site.gpkg"], "--name", "One main", "--by", "Tester");
        CommandLine.Fine("take", folder["site.gpkg"], folder.Write("day.csv", Shots), "--crew", "North", "--by", "Tester");
        return folder;
    }

    [Fact]
    public void Compare_PositionsAndPackages_TellsWhatChanged()
    {
        using var folder = Site();
        var project = folder["site.gpkg"];
        int Position()
        {
            using var session = ProjectSession.Open(project, TimeProvider.System, readOnly: true);
            return session.Position;
        }

        var before = Position();
        CommandLine.Fine("handover", project, "--out", folder["first"], "--by", "Tester");
        Assert.Contains("Both say the same.", CommandLine.Fine("compare", folder["first"], project).Out, StringComparison.Ordinal);
        CommandLine.Fine("correct", project, "set-aside", "3", "--by", "Tester", "--why", "pole slipped");
        CommandLine.Fine("correct", project, "attribute", "WM-1@North", "material", "PE", "--by", "Tester", "--why", "read from the pipe");
        foreach (var first in (string[])[folder["first"], $"{project}@{before}"])
        {
            var told = CommandLine.Run("compare", first, project);
            Assert.Equal(1, told.Exit);
            Assert.Contains("run      WATER-MAIN/WM-1@North: 16.062 m, then 8.000 m (-8.062 m)", told.Out, StringComparison.Ordinal);
            Assert.Contains("end not said; then flow unknown, start not said, end not said; material=PE", told.Out, StringComparison.Ordinal);
            Assert.Contains("shot     1:4: set aside", told.Out, StringComparison.Ordinal);
            Assert.Contains("quantity WATER-MAIN plan-length m: 16.062, then 8.000 (-8.062)", told.Out, StringComparison.Ordinal);
        }

        File.AppendAllText(folder["first/runs.csv"], "x");
        Assert.Contains("is not as its manifest says", CommandLine.Run("compare", folder["first"], project).Error, StringComparison.Ordinal);
    }

    [Fact]
    public void DayAndMorning_AreToldAndWritten()
    {
        using var folder = Site();
        var day = CommandLine.Fine("day", folder["site.gpkg"], "--out", folder["day.txt"]).Out;
        foreach (var said in (string[])["Crew North, 2026-03-10, 08:00 to 08:02; 3 shots", "WATER-MAIN", "16.062", "nothing of today is proven on control", "Signed for the crew", "Head "])
            Assert.Contains(said, day, StringComparison.Ordinal);
        Assert.Equal(day, File.ReadAllText(folder["day.txt"]));
        Assert.Contains("measure the pole: it was last entered as 2.000 m (shot 3)", CommandLine.Fine("morning", folder["site.gpkg"]).Out.Replace(" of gnss", "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains("Nothing was shot on 2026-03-11", CommandLine.Run("day", folder["site.gpkg"], "--date", "2026-03-11").Error, StringComparison.Ordinal);
        Assert.Contains("is not a day", CommandLine.Run("day", folder["site.gpkg"], "--date", "11.3.2026").Error, StringComparison.Ordinal);
        CommandLine.Fine("day", folder["site.gpkg"], "--json");
        CommandLine.Fine("morning", folder["site.gpkg"], "--json");
    }

    [Fact]
    public void Claim_IsMadeOnceAPeriod()
    {
        using var folder = Site();
        Assert.Contains("16.062", CommandLine.Fine("claim", folder["site.gpkg"], "2026-03", "--by", "Tester").Out, StringComparison.Ordinal);
        Assert.Contains("claimed already", CommandLine.Run("claim", folder["site.gpkg"], "2026-03", "--by", "Tester").Error, StringComparison.Ordinal);
        CommandLine.Fine("correct", folder["site.gpkg"], "set-aside", "3", "--by", "Tester", "--why", "pole slipped");
        var told = CommandLine.Fine("show", folder["site.gpkg"], "claims").Out;
        Assert.Contains("correction", told, StringComparison.Ordinal);
        Assert.Contains("through chambers", told, StringComparison.Ordinal);
        CommandLine.Fine("show", folder["site.gpkg"], "claims", "--json");
    }
}
