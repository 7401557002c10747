using System.IO;
using Aslaid.Cli;

namespace Aslaid.Tests;

/// <summary>A command line run in this process, with a clock that stands still.</summary>
internal sealed record CommandLine(int Exit, string Out, string Error)
{
    public static CommandLine Run(params string[] args)
    {
        var (output, error) = (new StringWriter { NewLine = "\n" }, new StringWriter { NewLine = "\n" });
        var exit = App.Run(args, new(output, error, Interactive: false, new StillClock()));
        return new(exit, output.ToString(), error.ToString());
    }

    /// <summary>Runs and demands exit 0.</summary>
    public static CommandLine Fine(params string[] args)
    {
        var run = Run(args);
        Assert.True(run.Exit == 0, $"aslaid {string.Join(' ', args)} ended with {run.Exit}:\n{run.Out}{run.Error}");
        return run;
    }

    private sealed class StillClock : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => new(2026, 3, 12, 9, 0, 0, TimeSpan.Zero);
    }
}
