using Aslaid.Workbench;

namespace Aslaid.Tests;

public sealed class TangentsVerbTests
{
    private static string Kerb()
    {
        var rows = new List<string> { "id,east,north,height,code,run,u_plan,u_height" };
        void Shot(double e, double n) => rows.Add(FormattableString.Invariant($"{rows.Count},{512_000 + e:F3},{6_243_000 + n:F3},5.000,KERB-FACE,KF-1,0.010,0.012"));
        for (var i = 0; i < 8; i++) Shot(-16 + 2 * i, 0.002 * (i % 2));
        for (var i = 1; i < 8; i++) Shot(12 * Math.Sin(i * Math.PI / 16), 12 - 12 * Math.Cos(i * Math.PI / 16));
        for (var i = 1; i < 8; i++) Shot(12 + 0.002 * (i % 2), 12 + 2 * i);
        return string.Join('\n', rows) + "\n";
    }

    [Fact]
    public void Tangents_WritesPointsAndPath_AndTheCommandsShowThem()
    {
        using var folder = new TempFolder();
        var project = folder["site.gpkg"];
        CommandLine.Fine("new", project, "--name", "One kerb", "--by", "Tester");
        CommandLine.Fine("take", project, folder.Write("day.csv", Kerb()), "--by", "Tester");
        int Position()
        {
            using var session = ProjectSession.Open(project, TimeProvider.System, readOnly: true);
            return session.Position;
        }

        var before = Position();
        var told = CommandLine.Fine("correct", project, "tangents", "KF-1", "--by", "Tester", "--why", "laid so").Out;
        Assert.Contains("8 shots on the first straight, 7 on the arc", told, StringComparison.Ordinal);
        Assert.Equal(before + 4, Position());
        Assert.Contains("tangential fit through 22 shots: radius 1", CommandLine.Fine("why", project, "1-TM").Out, StringComparison.Ordinal);
        Assert.Contains("constructed", CommandLine.Fine("show", project, "shots").Out, StringComparison.Ordinal);
        var refused = CommandLine.Run("correct", project, "tangents", "KF-1", "--from-shot", "1", "--to-shot", "22", "--by", "Tester", "--why", "again");
        Assert.Equal(2, refused.Exit); // the path goes by five points now
        Assert.Equal(before + 4, Position());
        CommandLine.Fine("correct", project, "withdraw", $"{before + 4}", "--by", "Tester", "--why", "no");
        Assert.Contains("1 2 3 4", CommandLine.Fine("why", project, "KF-1").Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Tape_ThatCannotBeMade_WritesNothing()
    {
        using var folder = new TempFolder();
        var project = folder["site.gpkg"];
        CommandLine.Fine("new", project, "--name", "One kerb", "--by", "Tester");
        CommandLine.Fine("take", project, folder.Write("day.csv", Kerb()), "--by", "Tester");
        var refused = CommandLine.Run("correct", project, "two-distances", "1", "2", "--first", "0.5", "--second", "0.5", "--side", "left", "--id", "Z", "--code", "LAMP-COLUMN", "--by", "Tester", "--why", "x");
        Assert.Equal(2, refused.Exit);
        Assert.Contains("the two distances do not meet. Nothing was written.", refused.Error, StringComparison.Ordinal);
        CommandLine.Fine("correct", project, "tape", "1", "--id", "T", "--code", "LAMP-COLUMN", "--up", "-0.450", "--by", "Tester", "--why", "below");
        Assert.Contains("reading -0.4500 with u 0.0050", CommandLine.Fine("why", project, "T").Out, StringComparison.Ordinal);
    }
}
