using System.Text.Json;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Tests;

public sealed class DeclareTests
{
    private const string Shots = """
        id,east,north,height,code,run,u_plan,u_height
        1,512000.000,6243000.000,5.000,WATER-MAIN,WM-1,0.012,0.015
        2,512008.000,6243000.000,5.000,WATER-MAIN,WM-1,0.012,0.015
        3,512016.000,6243001.000,5.000,WATER-MAIN,WM-1,0.012,0.015
        """;

    private static TempFolder Site()
    {
        var folder = new TempFolder();
        CommandLine.Fine("new", folder["site.gpkg"], "--name", "Two pipes", "--by", "Tester");
        CommandLine.Fine("take", folder["site.gpkg"], folder.Write("day.csv", Shots), "--by", "Tester");
        return folder;
    }

    private static CommandLine Declare(string project, params string[] said) =>
        CommandLine.Run(["correct", project, "declare", "WM-1", .. said, "--by", "Tester", "--why", "seen in the trench"]);

    [Fact]
    public void Declare_AllFour_IsOneEntryEachAndTheRunHasThem()
    {
        using var folder = Site();
        var project = folder["site.gpkg"];
        Assert.Equal(0, Declare(project, "--status", "existing", "--flow", "against", "--start", "cap", "--end", "limit of works").Exit);
        using var json = JsonDocument.Parse(CommandLine.Fine("show", project, "runs", "--json").Out);
        var text = json.RootElement.GetRawText().Replace(" ", "", StringComparison.Ordinal);
        foreach (var said in (string[])["\"status\":\"existing\"", "\"flow\":\"against\"", "\"start\":\"cap\"", "\"end\":\"limitofworks\""])
            Assert.Contains(said, text, StringComparison.Ordinal);
        using (var session = ProjectSession.Open(project, TimeProvider.System, readOnly: true)) Assert.Empty(session.Record().Quantities);
        Assert.Contains("declared already", Declare(project, "--flow", "against").Error, StringComparison.Ordinal);
        Assert.Equal(0, Declare(project, "--flow", "against", "--status", "new").Exit);
        using var again = ProjectSession.Open(project, TimeProvider.System, readOnly: true);
        Assert.Equal(new RunFacts(RunStatus.New, FlowSense.Against, "cap", "limit of works"), again.Record().Runs[0].Facts);
        Assert.Equal(5, again.Record().Inputs.Journal.Count(entry => entry.What is AttributeSet));
    }

    [Fact]
    public void Declare_NothingOrAnotherWord_WritesNothing()
    {
        using var folder = Site();
        Assert.Contains("Declare what? Give one of --status, --flow, --start, --end.", Declare(folder["site.gpkg"]).Error, StringComparison.Ordinal);
        var wrong = Declare(folder["site.gpkg"], "--status", "old");
        Assert.Equal(2, wrong.Exit);
        Assert.Contains("'old'", wrong.Error, StringComparison.Ordinal);
        Assert.Contains("superseded", wrong.Error, StringComparison.Ordinal);
        using var session = ProjectSession.Open(folder["site.gpkg"], TimeProvider.System, readOnly: true);
        Assert.DoesNotContain(session.Record().Inputs.Journal, entry => entry.What is AttributeSet);
    }
}
