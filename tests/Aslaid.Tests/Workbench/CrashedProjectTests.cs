using System.IO;
using Aslaid.Exchange;
using Aslaid.Workbench;
using Microsoft.Data.Sqlite;

namespace Aslaid.Tests;

/// <summary>A project beside whose file a crash left the journal of a half written transaction.</summary>
public sealed class CrashedProjectTests
{
    [Fact]
    public void Check_HalfWrittenFile_ShowsTheAcknowledgedState()
    {
        using var folder = new TempFolder();
        TrenchSampleTests.Take(folder["whole.gpkg"]);
        var before = CommandLine.Run("check", folder["whole.gpkg"], "--json");
        var crashed = Crashed(folder);
        Assert.Equal(8, Assert.Throws<SqliteException>(() => CountOfShots(crashed)).SqliteErrorCode); // as it was met: nobody may write, so nobody can read
        var check = CommandLine.Run("check", crashed, "--json");
        Assert.Empty(check.Error);
        Assert.Equal((before.Exit, before.Out), (check.Exit, check.Out));
        Assert.False(File.Exists(crashed + "-journal"));
    }

    [Fact]
    public void Visit_HalfWrittenFile_Runs()
    {
        using var folder = new TempFolder();
        TrenchSampleTests.Take(folder["whole.gpkg"]);
        var before = CommandLine.Run("visit", folder["whole.gpkg"]);
        Assert.Equal(before, CommandLine.Run("visit", Crashed(folder)));
    }

    [Fact]
    public void Open_HalfWrittenFileThatCannotBeWritten_SaysWhereTheWholeStateIs()
    {
        Assert.SkipWhen(Environment.IsPrivilegedProcess || OperatingSystem.IsWindows(), "needs a user whom a file mode can keep from writing");
        using var folder = new TempFolder();
        TrenchSampleTests.Take(folder["whole.gpkg"]);
        var crashed = Crashed(folder);
        File.SetAttributes(crashed, FileAttributes.ReadOnly);
        var check = CommandLine.Run("check", crashed);
        Assert.Equal(2, check.Exit);
        Assert.Contains("left half written", check.Error, StringComparison.Ordinal);
        File.SetAttributes(crashed, FileAttributes.Normal);
        Assert.NotEqual(2, CommandLine.Run("check", crashed).Exit);
    }

    [Fact]
    public void Check_DamagedFile_SaysThatItMayBeDamaged()
    {
        using var folder = new TempFolder();
        TrenchSampleTests.Take(folder["site.gpkg"]);
        var bytes = File.ReadAllBytes(folder["site.gpkg"]);
        var page = 4096 * (RootPage(folder["site.gpkg"], "raw_shots") - 1);
        bytes.AsSpan(page, 4096).Fill(0xEE);
        var check = CommandLine.Run("check", folder.Write("damaged.gpkg", bytes));
        Assert.Equal(2, check.Exit);
        Assert.Contains("damaged.gpkg could not be read", check.Error, StringComparison.Ordinal);
        Assert.Contains("go back to a copy", check.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", check.Error, StringComparison.Ordinal);
    }

    /// <summary>Copies file and journal out of the middle of a transaction whose pages no longer fit the cache.</summary>
    private static string Crashed(TempFolder folder)
    {
        using var connection = new SqliteConnection($"Data Source={folder["whole.gpkg"]};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "PRAGMA cache_size = 5; PRAGMA cache_spill = 1; BEGIN IMMEDIATE; UPDATE raw_shots SET height = 0, note = hex(zeroblob(4000)); DELETE FROM journal WHERE id > 1";
        command.ExecuteNonQuery();
        File.Copy(folder["whole.gpkg"], folder["crashed.gpkg"]);
        File.Copy(folder["whole.gpkg-journal"], folder["crashed.gpkg-journal"]);
        command.CommandText = "ROLLBACK";
        command.ExecuteNonQuery();
        return folder["crashed.gpkg"];
    }

    private static long CountOfShots(string path) => Number(path, "SELECT count(*) FROM raw_shots");

    private static int RootPage(string path, string table) => (int)Number(path, $"SELECT rootpage FROM sqlite_master WHERE name = '{table}'");

    private static long Number(string path, string sql)
    {
        using var connection = new SqliteConnection($"Data Source={path};Pooling=False;Mode=ReadOnly");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        return (long)command.ExecuteScalar()!;
    }
}
