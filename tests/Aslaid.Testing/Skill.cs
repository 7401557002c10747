using System.Collections.Immutable;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Testing;

/// <summary>What came of one seeded mistake.</summary>
/// <param name="Found">Whether its check found it: a finding shares a shot with it, or its run or session where it is an absence.</param>
/// <param name="Named">Whether one finding of its check names all its shots and few others; for an absence, its run or session.</param>
/// <param name="Findings">Stops and looks of all checks that lead; notes are not counted.</param>
public readonly record struct SkillTry(bool Found, bool Named, int Findings);

/// <summary>Alarms of one site that is right.</summary>
/// <param name="Shots">Measured shots.</param>
public readonly record struct AlarmCount(int Shots, int Stops, int Looks);

/// <summary>How well checks find what was seeded, and how often they speak without need: on small sites, by seed.</summary>
public static class Skill
{
    /// <summary>Sizes at which mistakes are seeded, against the default limits.</summary>
    public static ImmutableArray<double> Sizes { get; } = [0.5, 0.75, 1, 1.25, 1.5, 2, 3, 5];

    /// <summary>Those of <see cref="Sizes"/> at which a mistake is still itself; the plain one alone where it has no size.</summary>
    public static ImmutableArray<double> SizesOf(string check) => SampleSites.ScaleOf(check) is { } scale ? [.. Sizes.Where(size => size <= scale.Most)] : [Plain];

    /// <summary>Twice the limit: what must be found.</summary>
    public const double Plain = 2;

    /// <summary>Checks that are there and for which a mistake can be seeded, in the catalogue's order.</summary>
    public static ImmutableArray<string> Checks { get; } = [.. CheckCatalogue.All.Select(check => check.Name).Where(SampleSites.AllMistakes.Contains)];

    /// <summary>One mistake on one small site.</summary>
    public static SkillTry Try(int seed, string check, double size)
    {
        var site = SampleSites.Lot(seed, check, size);
        var mistake = site.Mistakes.Single();
        var (found, named, count) = (false, false, 0);
        foreach (var finding in Findings(site))
        {
            if (Leads(finding)) count++;
            if (finding.Check.Name != check) continue;
            found |= Concerns(finding, mistake);
            named |= Names(finding, mistake);
        }

        return new(found, named, count);
    }

    /// <summary>One mistake on many small sites, seeds from 1.</summary>
    public static SkillTry[] Try(int seeds, string check, double size, int workers)
    {
        var tries = new SkillTry[seeds];
        Parallel.For(0, seeds, new ParallelOptions { MaxDegreeOfParallelism = workers }, seed => tries[seed] = Try(seed + 1, check, size));
        return tries;
    }

    /// <summary>Alarms of sites that are right, seeds from 1.</summary>
    public static AlarmCount[] Alarms(int seeds, Func<int, SampleSite> site, int workers)
    {
        var counts = new AlarmCount[seeds];
        Parallel.For(0, seeds, new ParallelOptions { MaxDegreeOfParallelism = workers }, seed =>
        {
            var made = site(seed + 1);
            var leading = Findings(made).Where(Leads).ToList();
            counts[seed] = new(made.Places.Length, leading.Count(finding => finding.Severity == Severity.Stop), leading.Count(finding => finding.Severity == Severity.Look));
        });
        return counts;
    }

    /// <summary>All that all checks find.</summary>
    public static IEnumerable<Finding> Findings(SampleSite site)
    {
        var table = Derivation.Derive(SampleInputs.Of(site)).Findings;
        return Enumerable.Range(0, table.Count).Select(number => table[number]);
    }

    /// <summary>Whether somebody must deal with it by itself: a stop or a look that folds under no other.</summary>
    public static bool Leads(Finding finding) => finding.Severity != Severity.Note && finding.Under is null;

    /// <summary>Innocent shots that a finding may name: the neighbours of a stretch, the ends of a curve.</summary>
    private const int FewMore = 4;

    private static bool Concerns(Finding finding, SeededMistake mistake) =>
        mistake.Shots.IsEmpty ? Names(finding, mistake) : finding.ShotIds.Any(id => mistake.Shots.Contains(id));

    private static bool Names(Finding finding, SeededMistake mistake)
    {
        if (!mistake.Shots.IsEmpty)
            return mistake.Shots.All(id => finding.ShotIds.Contains(id)) && finding.Shots.Length <= 2 * mistake.Shots.Length + FewMore; // who names all shots names none
        var raw = finding.Table.RunTable.Shots.Raw;
        if (mistake.Run is { } run) return finding.Run?.Label == run;
        return mistake.File is not { } file || (finding.Shots.Length > 0 && raw.BatchOf(finding.Shots[0]).FileName == file);
    }
}
