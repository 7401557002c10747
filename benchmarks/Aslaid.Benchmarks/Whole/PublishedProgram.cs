using System.Diagnostics;

namespace Aslaid.Benchmarks;

/// <summary>The published program, a new process for each run.</summary>
internal sealed class PublishedProgram(string dll)
{
    /// <summary>Seconds from before the process starts until it has ended.</summary>
    public double Time(params ReadOnlySpan<string> arguments)
    {
        var start = StartOf(arguments);
        var began = Stopwatch.GetTimestamp();
        using var process = Process.Start(start)!;
        End(process, start, () => process.WaitForExit());
        return Stopwatch.GetElapsedTime(began).TotalSeconds;
    }

    /// <summary>The most memory it held, in bytes; null where the system does not tell.</summary>
    /// <remarks>The system keeps the highest value itself, but only while the process lives: what is asked every few
    /// milliseconds misses growth in the last of them. Asking takes time, so that such a run is not timed.</remarks>
    public long? Peak(params ReadOnlySpan<string> arguments)
    {
        var start = StartOf(arguments);
        using var process = Process.Start(start)!;
        var peak = 0L;
        End(process, start, () =>
        {
            while (!process.WaitForExit(5)) peak = Math.Max(peak, PeakNow(process));
        });
        return peak > 0 ? peak : null;
    }

    /// <summary>What it answers.</summary>
    public string Ask(params ReadOnlySpan<string> arguments)
    {
        var start = StartOf(arguments);
        using var process = Process.Start(start)!;
        return End(process, start, () => process.WaitForExit()).Trim();
    }

    private ProcessStartInfo StartOf(ReadOnlySpan<string> arguments)
    {
        var start = new ProcessStartInfo("dotnet") { RedirectStandardOutput = true, RedirectStandardError = true };
        start.ArgumentList.Add(dll);
        foreach (var argument in arguments) start.ArgumentList.Add(argument);
        return start;
    }

    private static long PeakNow(Process process)
    {
        try
        {
            process.Refresh();
            return process.PeakWorkingSet64;
        }
        catch (InvalidOperationException) when (process.HasExited)
        {
            return 0; // ended between the question and the answer
        }
    }

    private static string End(Process process, ProcessStartInfo start, Action wait)
    {
        var (said, told) = (process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
        wait();
        // Exit 1 says that something holds, which a site with mistakes must.
        if (process.ExitCode is not (0 or 1))
            throw new InvalidOperationException($"aslaid {string.Join(' ', start.ArgumentList.Skip(1))} ended with {process.ExitCode}: {told.Result}");
        return said.Result;
    }
}
