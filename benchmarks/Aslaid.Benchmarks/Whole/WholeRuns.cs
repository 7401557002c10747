using System.Globalization;
using System.IO;

namespace Aslaid.Benchmarks;

/// <summary>What was measured at one size.</summary>
/// <param name="Mistakes">Mistakes among the shots.</param>
/// <param name="Take">Seconds of each timed <c>take</c>.</param>
/// <param name="Check">Seconds of each timed <c>check</c>, in the same order.</param>
/// <param name="TakePeak">Bytes; null where the system does not tell.</param>
/// <param name="CheckPeak">Bytes; null where the system does not tell.</param>
internal sealed record SizeRuns(int Shots, int Mistakes, long FileBytes, long ProjectBytes, double[] Take, double[] Check, long? TakePeak, long? CheckPeak)
{
    /// <summary>Seconds of <c>take</c> and <c>check</c> of the same project.</summary>
    public double[] Together { get; } = [.. Take.Zip(Check, (take, check) => take + check)];
}

/// <summary>All sizes, and what the program takes to start and answer nothing.</summary>
/// <param name="Spoilt">100 000 shots with a mistake in every fifth run.</param>
internal sealed record WholeRuns(string Version, double[] Start, IReadOnlyList<SizeRuns> Sizes, SizeRuns Spoilt)
{
    public static WholeRuns Time(PublishedProgram program, IReadOnlyList<int> sizes, int repeats, TextWriter progress)
    {
        var version = program.Ask("--version"); // also brings the program into the file cache
        double[] start = [.. Enumerable.Range(0, repeats).Select(_ => program.Time("--version"))];
        return new(version, start, [.. sizes.Select(size => OfSize(program, size, 100, repeats, progress))], OfSize(program, 100_000, 5, repeats, progress));
    }

    private static SizeRuns OfSize(PublishedProgram program, int shots, int runsToAMistake, int repeats, TextWriter progress)
    {
        using var site = new SiteFolder(shots, runsToAMistake);
        string[] taking = ["take", site.Project, .. site.Shots];
        string[] checking = ["check", site.Project];
        var (take, check) = (new double[repeats], new double[repeats]);
        NewProject(program, site);
        var (takePeak, checkPeak) = (program.Peak(taking), program.Peak(checking)); // this run warms the file cache too
        var projectBytes = new FileInfo(site.Project).Length;
        for (var repeat = 0; repeat < repeats; repeat++)
        {
            NewProject(program, site);
            take[repeat] = program.Time(taking);
            check[repeat] = program.Time(checking);
            progress.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{shots} shots, run {repeat + 1}: take {take[repeat]:0.000} s, check {check[repeat]:0.000} s"));
        }

        return new(shots, site.Mistakes, site.Bytes, projectBytes, take, check, takePeak, checkPeak);
    }

    private static void NewProject(PublishedProgram program, SiteFolder site)
    {
        File.Delete(site.Project);
        program.Ask("new", site.Project);
        program.Ask("control", site.Project, site.Control);
    }
}
