using System.IO;
using System.Text.Json;
using Aslaid.Record;
using Aslaid.Workbench;
using Microsoft.Data.Sqlite;

namespace Aslaid.Tests;

public sealed class ProjectTests
{
    private static TempFolder Site(SampleSite site)
    {
        var folder = new TempFolder();
        var project = folder["site.gpkg"];
        CommandLine.Fine("new", project, "--name", site.Name, "--by", "Tester");
        CommandLine.Fine("control", project, folder.Write("control.csv", site.Control), "--by", "Tester");
        foreach (var file in site.Shots) CommandLine.Fine("take", project, folder.Write(file.Name, file.Text), "--crew", file.Crew, "--by", "Tester");
        return folder;
    }

    [Fact]
    public void Delivery_Adopted_HoldsFromThereOn()
    {
        using var folder = Site(SampleSites.Clean(1));
        var (project, table) = (folder["site.gpkg"], folder.Write("delivery.csv", "code,attribute,required,allowed,colour\nWATER-MAIN,material,yes,PE|PVC,\n"));
        var adopted = CommandLine.Run("delivery", project, table, "--by", "Tester", "--why", "client's register");
        Assert.Contains("Column colour is unknown here and was not read.", adopted.Error, StringComparison.Ordinal);
        Assert.Contains("adopted the delivery table delivery.csv", CommandLine.Fine("show", project, "journal").Out, StringComparison.Ordinal);
        Assert.Contains("requires material of WATER-MAIN", CommandLine.Fine("show", project, "findings").Out, StringComparison.Ordinal);
        using var session = ProjectSession.Open(project, TimeProvider.System, readOnly: true);
        Assert.Equal("material", Assert.Single(session.Record().Inputs.Delivery.Items).Attribute);
        Assert.Empty(session.Record(session.Position - 1).Inputs.Delivery.Items);
    }

    [Fact]
    public void Record_ReadBackFromFile_IsTheOneTakenIn()
    {
        var site = SampleSites.WithMistakes(4);
        using var folder = Site(site);
        using var session = ProjectSession.Open(folder["site.gpkg"], TimeProvider.System, readOnly: true);
        var (fromFile, fresh) = (session.Record(), Derivation.Derive(Testing.SampleInputs.Of(site with { Design = null })));
        Assert.Equal(Ids(fresh), Ids(fromFile));
        Assert.Equal(
            Enumerable.Range(0, fresh.Runs.Count).Select(run => (fresh.Runs[run].Key, fresh.Runs[run].PlanLength, fresh.Runs[run].UPlanLength)),
            Enumerable.Range(0, fromFile.Runs.Count).Select(run => (fromFile.Runs[run].Key, fromFile.Runs[run].PlanLength, fromFile.Runs[run].UPlanLength)));
        for (var row = 0; row < fresh.Shots.Count; row++)
        {
            Assert.Equal(fresh.Shots.Raw.Id(row), fromFile.Shots.Raw.Id(row));
            Assert.Equal(BitConverter.DoubleToInt64Bits(fresh.Shots.Raw.East[row]), BitConverter.DoubleToInt64Bits(fromFile.Shots.Raw.East[row]));
            Assert.Equal(fresh.Shots.Raw[row].Time, fromFile.Shots.Raw[row].Time);
            Assert.Equal(fresh.Shots.Raw.Text("note", row), fromFile.Shots.Raw.Text("note", row));
        }
    }

    [Fact]
    public void Check_SiteWithMistakes_ExitsWithOne()
    {
        using var folder = Site(SampleSites.WithMistakes(1));
        var check = CommandLine.Run("check", folder["site.gpkg"]);
        Assert.Equal(1, check.Exit);
        Assert.Contains("Something holds", check.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_CleanSite_ExitsWithZeroAndDefersToOthers()
    {
        using var folder = Site(SampleSites.Clean(1));
        var check = CommandLine.Fine("check", folder["site.gpkg"]);
        Assert.Contains("no permission to enter, backfill, load or energise", check.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_Json_HasTheStableNamesOfAFinding()
    {
        using var folder = Site(SampleSites.WithMistakes(1));
        using var json = JsonDocument.Parse(CommandLine.Run("check", folder["site.gpkg"], "--json").Out);
        var finding = json.RootElement.GetProperty("findings")[0];
        Assert.Equal(
            ["id", "check", "severity", "shots", "shot_keys", "runs", "range", "at", "measured", "allowed", "unit", "message", "cure", "correction", "reshoot", "state", "under", "folded"],
            finding.EnumerateObject().Select(member => member.Name));
    }

    [Fact]
    public void Correct_AnyEntry_ShowsAtItsPositionAndNotBefore()
    {
        using var folder = Site(SampleSites.Single(1, "unknown-code"));
        var project = folder["site.gpkg"];
        using var json = JsonDocument.Parse(CommandLine.Run("show", project, "findings", "--json").Out);
        var finding = json.RootElement.EnumerateArray().Single(f => f.GetProperty("check").GetString() == "unknown-code").GetProperty("id").GetString()!;
        var before = Position(project);
        var apply = CommandLine.Fine("correct", project, "apply", finding, "--by", "Tester", "--why", "misspelt");
        Assert.Contains($"gone: {finding}", apply.Out, StringComparison.Ordinal);
        Assert.DoesNotContain(finding, CommandLine.Run("show", project, "findings").Out, StringComparison.Ordinal);
        Assert.Contains(finding, CommandLine.Run("show", project, "findings", "--at", $"{before}").Out, StringComparison.Ordinal);
        CommandLine.Fine("correct", project, "withdraw", $"{before + 1}", "--by", "Tester", "--why", "was right");
        Assert.Contains($"gone: {finding}", CommandLine.Fine("correct", project, "--apply", finding, "--by", "Tester", "--why", "misspelt").Out, StringComparison.Ordinal);
        Assert.Contains("A correction is missing", CommandLine.Run("correct", project).Error, StringComparison.Ordinal);
        CommandLine.Fine("correct", project, "withdraw", $"{before + 3}", "--by", "Tester", "--why", "was right");
        Assert.Contains(finding, CommandLine.Run("show", project, "findings").Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("set-aside", "1@Nobody")]
    [InlineData("accept", "F-NOTHERE")]
    [InlineData("withdraw", "99")]
    [InlineData("path", "WM-1", "101 ~")]
    [InlineData("release", "NO-RUN")]
    public void Correct_ThingThatIsNotThere_SaysSoAndWritesNothing(params string[] what)
    {
        using var folder = Site(SampleSites.Clean(1));
        var before = Position(folder["site.gpkg"]);
        var correct = CommandLine.Run(["correct", folder["site.gpkg"], .. what, "--by", "Tester", "--why", "test"]);
        Assert.Equal(2, correct.Exit);
        Assert.NotEmpty(correct.Error);
        Assert.Equal(before, Position(folder["site.gpkg"]));
    }

    [Fact]
    public void Correct_WithoutNameOrReason_IsRefused()
    {
        using var folder = Site(SampleSites.Clean(1));
        Assert.Equal(2, CommandLine.Run("correct", folder["site.gpkg"], "withdraw", "2", "--by", "Tester").Exit);
        Assert.Equal(2, CommandLine.Run("correct", folder["site.gpkg"], "withdraw", "2", "--by", "Tester", "--why", " ").Exit);
    }

    [Theory]
    [InlineData("UPDATE raw_shots SET height = height + 0.1 WHERE id = 5", "raw shots of batch 1")]
    [InlineData("DELETE FROM raw_shots WHERE id = 5", "raw shots of batch 1")]
    [InlineData("UPDATE raw_shots SET again = 999999 WHERE id = 20", "raw shots of batch 1")]
    [InlineData("UPDATE raw_shots SET leg = 77 WHERE id = 5", "raw shots of batch 1")]
    [InlineData("UPDATE raw_shots SET east = NULL WHERE id = 5", "raw shots of batch 1")]
    [InlineData("UPDATE raw_shots SET code = NULL WHERE id = 5", "raw shots of batch 1")]
    [InlineData("UPDATE raw_shots SET line = 1000000 WHERE id = 5", "raw shots of batch 1")]
    [InlineData("UPDATE raw_shots SET shot = 'x' WHERE id = 5", "raw shots of batch 1")]
    [InlineData("UPDATE raw_shots SET time_ticks = 9223372036854775807 WHERE id = 5", "raw shots of batch 1")]
    [InlineData("UPDATE journal SET entry = replace(entry, 'Tester', 'Other') WHERE id = 3", "journal entry 3")]
    [InlineData("DELETE FROM journal WHERE id = 4", "journal")]
    [InlineData("UPDATE files SET bytes = x'00' WHERE name = 'control.csv'", "file")]
    public void Open_FileChangedOutside_IsNoticedAndLocated(string sql, string says)
    {
        using var folder = Site(SampleSites.FirstDay(1));
        using (var connection = new SqliteConnection($"Data Source={folder["site.gpkg"]};Pooling=False"))
        {
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = sql;
            Assert.True(command.ExecuteNonQuery() > 0);
        }

        var check = CommandLine.Run("check", folder["site.gpkg"]);
        Assert.Equal(2, check.Exit);
        Assert.Contains(says, check.Error, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void Open_NewerFormat_IsRefusedClearly()
    {
        using var folder = Site(SampleSites.FirstDay(1));
        using (var connection = new SqliteConnection($"Data Source={folder["site.gpkg"]};Pooling=False"))
        {
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = "UPDATE project SET value = '99' WHERE name = 'format'";
            command.ExecuteNonQuery();
        }

        var check = CommandLine.Run("check", folder["site.gpkg"]);
        Assert.Equal(2, check.Exit);
        Assert.Contains("project format 99", check.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Handover_Package_IsProvenUnalteredAndTamperingShows()
    {
        using var folder = Site(SampleSites.FirstDay(1));
        CommandLine.Fine("handover", folder["site.gpkg"], "--out", folder["package"], "--by", "Tester");
        Assert.Contains("Unaltered", CommandLine.Fine("verify", folder["package"]).Out, StringComparison.Ordinal);
        File.AppendAllText(folder["package/runs.csv"], " ");
        File.WriteAllText(folder["package/added.txt"], "");
        File.Delete(folder["package/shots.csv"]);
        var verify = CommandLine.Run("verify", folder["package"]);
        Assert.Equal(1, verify.Exit);
        foreach (var name in (string[])["runs.csv", "added.txt is not in the manifest", "shots.csv is missing"]) Assert.Contains(name, verify.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Handover_Zip_IsProvenUnaltered()
    {
        using var folder = Site(SampleSites.FirstDay(1));
        CommandLine.Fine("handover", folder["site.gpkg"], "--out", folder["package.zip"], "--by", "Tester");
        Assert.Contains("Unaltered", CommandLine.Fine("verify", folder["package.zip"]).Out, StringComparison.Ordinal);
        Assert.Equal(2, CommandLine.Run("handover", folder["site.gpkg"], "--out", folder["package.zip"]).Exit);
    }

    private static List<string> Ids(AsBuiltRecord record) => [.. Enumerable.Range(0, record.Findings.Count).Select(number => record.Findings[number].Id)];

    private static int Position(string project)
    {
        using var session = ProjectSession.Open(project, TimeProvider.System, readOnly: true);
        return session.Position;
    }
}
