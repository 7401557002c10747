using System.Globalization;
using System.Text;

namespace Aslaid.Benchmarks;

/// <summary>The page about speed: what was measured, on what, and what the figures leave out.</summary>
internal static class PerformancePage
{
    /// <summary>Markdown. Times are medians; ratios are of medians.</summary>
    /// <param name="options">Options of the command that made it.</param>
    /// <param name="load">Load of the machine before anything ran; null where unknown.</param>
    public static string Write(WholeRuns runs, string options, double? load)
    {
        var text = new StringBuilder();
        var start = Median(runs.Start);
        Say(text, $"# Performance");
        Say(text, $"");
        Say(text, $"Made on {DateTimeOffset.UtcNow:yyyy-MM-dd} with Aslaid {runs.Version} by");
        Say(text, $"`dotnet run -c Release --project benchmarks/Aslaid.Benchmarks -- {options}`,");
        Say(text, $"after `./aslaid --version` had published the program.");
        Say(text, $"");
        Say(text, $"Machine: {Machine.Description}.");
        if (load is { } busy) Say(text, $"Load before the first run: {busy:0.0}. Above half a processor, other work slowed the figures.");
        Say(text, $"");
        Say(text, $"| shots | take, s | check, s | both, s | least–most, s | growth | growth on the row above | take, MB | check, MB | project, MB |");
        Say(text, $"| ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |");
        var first = runs.Sizes[0];
        SizeRuns? above = null;
        foreach (var size in runs.Sizes)
        {
            var both = Median(size.Together);
            Say(text, $"| {Count(size.Shots)} | {Median(size.Take):0.000} | {Median(size.Check):0.000} | {both:0.000} | {size.Together.Min():0.000}–{size.Together.Max():0.000} | {Ratio(Growth(size, first, 0))} | {(above is null ? "–" : Ratio(Growth(size, above, 2 * start)))} | {Megabytes(size.TakePeak)} | {Megabytes(size.CheckPeak)} | {Megabytes(size.ProjectBytes)} |");
            above = size;
        }

        Say(text, $"");
        Say(text, $"The program takes {start:0.000} s to start and say its version.");
        Goals(text, runs);
        Say(text, $"");
        text.Append("""
            ## What the figures are

            - Wall time of whole processes, from before the start until the exit: `take` of all shot files, then `check`, on a
              project made anew each time by `new` and `control`. Medians of all repeats; *both* is the median of the sums.
            - *Growth* is time ÷ (n log₂ n) over the same at the smallest size: 1 is a growth of n log n, more is worse. What a
              process costs whatever the size weighs most on the smallest and flatters the others. The stricter *growth on the
              row above* leaves the two starts out (twice the time of `--version`) and compares with the next smaller size.
            - Memory is the most that the process held in physical memory, from a run of its own that is not timed and that
              fills the file cache. It is asked every 5 ms and misses growth in the last of them. A megabyte is 1 000 000 bytes.
            - The sites are invented, from a fixed seed: runs of about 20 shots along streets, a third with arcs, up to three
              crews with a file each, one mistake to a hundred runs, or to five
              where 1 000 mistakes are asked.

            ## What they are not

            - Not `new` and `control`; not the making of the site; not a cold file cache.
            - Not a bound: disks, processors and other work differ. No test depends on a time.
            - Not the parts: those are in `benchmarks/results`, made by
              `dotnet run -c Release --project benchmarks/Aslaid.Benchmarks -- --filter "*"`.

            """);
        return text.ToString();
    }

    private static void Goals(StringBuilder text, WholeRuns runs)
    {
        if (runs.Sizes.FirstOrDefault(size => size.Shots == 100_000) is { } middle)
            Say(text, $"Goal, 100 000 shots taken in and checked in under 1 s on two processors: {Median(middle.Together):0.00} s here.");
        var spoilt = runs.Spoilt;
        Say(text, $"Goal, 100 000 shots with 1 000 mistakes checked in under 0.5 s: `check` of {Count(spoilt.Shots)} shots with {Count(spoilt.Mistakes)} mistakes takes {Median(spoilt.Check):0.00} s as a whole process ({spoilt.Check.Min():0.000}–{spoilt.Check.Max():0.000}), reading the project and starting included.");
        var worst = runs.Sizes.Skip(1).Zip(runs.Sizes, (size, above) => Growth(size, above, 2 * Median(runs.Start))).Max();
        Say(text, $"Goal, a growth no worse than n log n (1.00): {worst:0.00} on the row above, at worst.");
    }

    private static double Growth(SizeRuns size, SizeRuns first, double less) => Cost(size, less) / Cost(first, less);

    private static double Cost(SizeRuns size, double less) => (Median(size.Together) - less) / (size.Shots * Math.Log2(size.Shots));

    private static double Median(double[] values)
    {
        double[] sorted = [.. values.Order()];
        var middle = sorted.Length / 2;
        return sorted.Length % 2 == 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
    }

    private static string Ratio(double growth) => growth.ToString("0.00", CultureInfo.InvariantCulture);

    private static string Count(int shots) => shots.ToString("N0", CultureInfo.InvariantCulture).Replace(',', ' ');

    private static string Megabytes(long? bytes) => bytes is { } known ? (known / 1e6).ToString("0", CultureInfo.InvariantCulture) : "–";

    private static void Say(StringBuilder text, FormattableString line) => text.Append(line.ToString(CultureInfo.InvariantCulture)).Append('\n');
}
