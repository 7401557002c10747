using System.IO;
using System.Text.Json;

namespace Aslaid.Tests;

/// <summary>Designs on the command line.</summary>
public class DesignVerbTests
{
    private const string Codes = "code,kind,service,measured_at,od_m,wall_m,tol_plan_m,tol_height_m,cover_min_m\nPIPE,line,water,top,0.2,0.01,0.1,0.05,0.75\nCABLE,line,power,top,0.1,,0.1,0.1,0.6\n";
    private const string Shots = "id,east,north,height,code,run,leg,u_plan,u_height\n1,512000,6243000,5,PIPE,P1,,0.01,0.01\n2,512010,6243000.3,5,PIPE,P1,,0.01,0.01\n3,512020,6243000,5,PIPE,P1,,0.01,0.01\n";
    private const string Design = "id,east,north,height,code,run,leg\n1,512000,6243000,5,Water,W1,\n2,512040,6243000,5,Water,W1,\n";

    private static string Project(TempFolder folder)
    {
        CommandLine.Fine("new", folder["site.gpkg"], "--codes", folder.Write("codes.csv", Codes));
        CommandLine.Fine("take", folder["site.gpkg"], folder.Write("shots.csv", Shots), "--crew", "North");
        return folder["site.gpkg"];
    }

    [Fact]
    public void Design_WithAMap_IsHeldAgainst()
    {
        using var folder = new TempFolder();
        var project = Project(folder);
        var plain = CommandLine.Fine("design", project, folder.Write("design.csv", Design)).Out;
        Assert.Contains("design.csv holds from now on (journal 4): 1 line, 0 points, 0 surfaces.", plain.Replace(folder["design.csv"], "design.csv", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains("'Water' stands for no code: 1 line, 0 points. Give it one with --map.", plain, StringComparison.Ordinal);
        Assert.Contains("Nothing changed.", CommandLine.Fine("design", project, folder["design.csv"], "--map", folder.Write("map.csv", "design,code\nwater,PIPE\n")).Out, StringComparison.Ordinal);
        var check = CommandLine.Run("check", project);
        Assert.Equal(1, check.Exit);
        Assert.Contains("lies 0.300 m", check.Out, StringComparison.Ordinal);
        using var deviations = JsonDocument.Parse(CommandLine.Fine("show", project, "deviations", "--json").Out);
        var second = deviations.RootElement[1];
        Assert.Equal(-0.3, second.GetProperty("offset_m").GetDouble(), 1e-9);
        Assert.Equal("does-not-conform", second.GetProperty("plan").GetProperty("verdict").GetString());
        Assert.Contains("All: 20.0 of 40.0 m measured, 50.0 %.", CommandLine.Fine("show", project, "coverage").Out, StringComparison.Ordinal);
        CommandLine.Fine("correct", project, "built", "W1", "--from", "0", "--to", "40", "--by", "A. Person", "--why", "seen");
        Assert.Contains("is said to be built", CommandLine.Run("check", project).Out, StringComparison.Ordinal);
        Assert.Contains("The design has no line W7", CommandLine.Run("correct", project, "built", "W7", "--by", "A. Person", "--why", "seen").Error, StringComparison.Ordinal);
        CommandLine.Fine("handover", project, "--out", folder["package"]);
        Assert.Contains("W1,PIPE,design.csv,40.0000,20.0", File.ReadAllText(System.IO.Path.Combine(folder["package"], "coverage.csv")), StringComparison.Ordinal);
        CommandLine.Fine("verify", folder["package"]);
    }

    [Fact]
    public void Design_ASecondRevision_TakesThePlaceOfTheFirst()
    {
        using var folder = new TempFolder();
        var project = Project(folder);
        var path = folder.Write("design.csv", Design.Replace("Water", "PIPE", StringComparison.Ordinal));
        CommandLine.Fine("design", project, path);
        File.WriteAllText(path, Design.Replace("Water", "PIPE", StringComparison.Ordinal).Replace("6243000,5", "6243000.1,5", StringComparison.Ordinal));
        CommandLine.Fine("design", project, path);
        var shown = CommandLine.Fine("show", project, "design").Out;
        Assert.Contains("an earlier revision, no longer in force", shown, StringComparison.Ordinal);
        Assert.Single(shown.Split('\n'), line => line.StartsWith("W1", StringComparison.Ordinal));
        Assert.Contains("P1", CommandLine.Fine("show", project, "deviations").Out, StringComparison.Ordinal);
        Assert.Equal("0.3", JsonDocument.Parse(CommandLine.Fine("show", project, "deviations", "--at", "4", "--json").Out).RootElement[1].GetProperty("offset_m").GetDouble().ToString("0.0##", System.Globalization.CultureInfo.InvariantCulture).TrimStart('-'));
    }

    [Fact]
    public void Design_ThatCannotBeRead_ChangesNothing()
    {
        using var folder = new TempFolder();
        var project = Project(folder);
        var refused = CommandLine.Run("design", project, folder.Write("design.xml", "<LandXML><Units><Metric linearUnit=\"meter\"/></Units><CgPoints><CgPoint name=\"1\">0 x 3</CgPoint></CgPoints></LandXML>"));
        Assert.Equal(2, refused.Exit);
        Assert.Contains("'x' is no finite number", refused.Error, StringComparison.Ordinal);
        Assert.Contains("was not adopted. Nothing changed.", refused.Error, StringComparison.Ordinal);
        Assert.Contains("No design is adopted", CommandLine.Fine("show", project, "design").Out, StringComparison.Ordinal);
    }

    [Fact]
    public void SetOutAndLongSection_GoToFiles()
    {
        using var folder = new TempFolder();
        var project = Project(folder);
        CommandLine.Fine("design", project, folder.Write("design.csv", Design.Replace("Water", "PIPE", StringComparison.Ordinal)));
        CommandLine.Fine("set-out", project, "W1", "--every", "10", "--station", "12.5", "--offset", "0.5", "--out", folder["w1.csv"]);
        Assert.Equal("id,east,north,height,code,station_m,offset_m,what\nS1,512000.0000,6242999.5000,5.0000,PIPE,0.000,0.500,start", string.Join('\n', File.ReadAllText(folder["w1.csv"]).Split('\n').Take(2)));
        CommandLine.Fine("set-out", project, "W1", "--every", "10", "--out", folder["w1.xml"]);
        using var stream = File.OpenRead(folder["w1.xml"]);
        var back = Exchange.DesignReaders.Read(stream, new("w1.xml")).Design!;
        Assert.Equal(new Point2(512_010, 6_243_000), back.Points[1].At);
        Assert.Equal("PIPE", back.Points[1].Words[0]);
        CommandLine.Fine("long-section", project, "P1", "--every", "5", "--out", folder["p1.csv"]);
        Assert.Equal(8, File.ReadAllText(folder["p1.csv"]).Split('\n', StringSplitOptions.RemoveEmptyEntries).Length);
        Assert.Contains("has no station 99", CommandLine.Run("set-out", project, "W1", "--station", "99").Error, StringComparison.Ordinal);
        Assert.Equal(2, CommandLine.Run("set-out", project, "W9").Exit);
    }

    [Fact]
    public void Separation_ATable_HoldsFromThenOn()
    {
        using var folder = new TempFolder();
        var project = Project(folder);
        CommandLine.Fine("take", project, folder.Write("more.csv", "id,east,north,height,code,run,u_plan,u_height\n7,512005,6242990,5.8,CABLE,C1,0.01,0.01\n8,512005,6243010,5.8,CABLE,C1,0.01,0.01\n"), "--crew", "North");
        Assert.Contains("conforms", CommandLine.Fine("show", project, "clearances").Out, StringComparison.Ordinal);
        CommandLine.Fine("separation", project, folder.Write("separation.csv", "service,other,alongside_m,crossing_m,source\nwater,power,1,1,county rules\n"));
        Assert.Contains("county rules", CommandLine.Run("check", project).Out, StringComparison.Ordinal);
        Assert.Contains("each pair once", CommandLine.Run("separation", project, folder.Write("twice.csv", "service,other,alongside_m,crossing_m\nwater,power,1,1\npower,water,1,1\n")).Error, StringComparison.Ordinal);
    }
}
