using System.IO;
using Aslaid.Cli;
using Microsoft.Data.Sqlite;

namespace Aslaid.Tests;

/// <summary>What nobody foresaw still ends with a sentence and exit code 2.</summary>
public sealed class LastResortTests
{
    [Fact]
    public void Run_FaultNobodyForesaw_AsksToReportItAndShowsIt()
    {
        var (exit, error) = Run(new InvalidTimeZoneException("the clock is broken"));
        Assert.Equal(2, exit);
        Assert.StartsWith("This is a fault of the program.", error, StringComparison.Ordinal);
        Assert.Contains("Please report it", error, StringComparison.Ordinal);
        Assert.Contains("InvalidTimeZoneException: the clock is broken", error, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_FaultOfTheDatabase_SaysWhatToDoWithoutATrace()
    {
        var (exit, error) = Run(new SqliteException("database disk image is malformed.", 11));
        Assert.Equal(2, exit);
        Assert.Contains("go back to a copy", error, StringComparison.Ordinal);
        Assert.Single(error.TrimEnd('\n').Split('\n'));
    }

    private static (int Exit, string Error) Run(Exception fault)
    {
        using var folder = new TempFolder();
        var (output, error) = (new StringWriter { NewLine = "\n" }, new StringWriter { NewLine = "\n" });
        return (App.Run(["new", folder["site.gpkg"]], new(output, error, Interactive: false, new BrokenClock(fault))), error.ToString());
    }

    private sealed class BrokenClock(Exception fault) : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => throw fault;
    }
}
