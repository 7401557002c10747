namespace Aslaid.Tests;

/// <summary>The small job of <c>samples/trench</c>, command by command as its page tells it.</summary>
public sealed class TrenchSampleTests
{
    private const string WholePath = "103 104 105 106 107 ~108 109 110 202 203 111 ~112 113 114 115 116 117";

    [Fact]
    public void FirstVisit_GapInTheTrench_HoldsItAndSaysWhatToShoot()
    {
        using var folder = new TempFolder();
        var project = folder["trench.gpkg"];
        Take(project);

        var (exit, output, _) = CommandLine.Run("check", project);

        Assert.Equal(1, exit);
        Assert.Contains("1 stop, 0 look, 0 note.", output, StringComparison.Ordinal);
        Assert.Contains("on PD-1 from 43.3 m to 63.6 m (110 to 111), limit 10.000 m.", output, StringComparison.Ordinal);
        Assert.Contains("Shoot 2 more between 110 and 111.", CommandLine.Fine("visit", project).Out, StringComparison.Ordinal);
    }

    [Fact]
    public void SecondVisit_PathSetAndReleased_NothingHoldsAndThePackageVerifies()
    {
        using var folder = new TempFolder();
        var (project, package) = (folder["trench.gpkg"], folder["package"]);
        Take(project);
        CommandLine.Fine("take", project, Sample("trench-again.csv"), "--crew", "North");
        CommandLine.Fine("correct", project, "apply", "F-TQ1C52P", "--by", "A. Person", "--why", "two shots where the first visit left a gap");
        Assert.Contains(WholePath, CommandLine.Fine("why", project, "PD-1").Out, StringComparison.Ordinal);

        Assert.Contains("0 stop, 0 look, 0 note.", CommandLine.Fine("check", project).Out, StringComparison.Ordinal);
        CommandLine.Fine("correct", project, "release", "PD-1", "--by", "A. Person", "--why", "checked against the open trench");
        Assert.Contains("0.0 open, 0.0 held, 86.0 complete, 0.0 covered", CommandLine.Fine("check", project).Out, StringComparison.Ordinal);
        CommandLine.Fine("handover", project, "--out", package);
        Assert.Contains("Unaltered", CommandLine.Fine("verify", package).Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Page_TellsTheVeryCommandsThatAreTested()
    {
        var page = System.IO.File.ReadAllText(Sample("README.md"));
        Assert.Contains("correct trench.gpkg apply F-TQ1C52P", page, StringComparison.Ordinal);
        Assert.Contains("take trench.gpkg samples/trench/trench.csv --crew North", page, StringComparison.Ordinal);
        Assert.Contains("take trench.gpkg samples/trench/trench-again.csv --crew North", page, StringComparison.Ordinal);
    }

    internal static void Take(string project)
    {
        CommandLine.Fine("new", project, "--name", "Trench at stand 3");
        CommandLine.Fine("control", project, Sample("control.csv"));
        CommandLine.Fine("take", project, Sample("trench.csv"), "--crew", "North");
    }

    internal static string Sample(string name) => Repository.PathOf("samples", "trench", name);
}
