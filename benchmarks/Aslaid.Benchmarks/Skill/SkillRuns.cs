using System.IO;
using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;

namespace Aslaid.Benchmarks;

/// <summary>What a check found of its mistake.</summary>
/// <param name="Check">The check.</param>
/// <param name="Scale">What size means; null where the mistake is there or not.</param>
/// <param name="Tries">All tries, by size; one size only where the mistake has none.</param>
internal sealed record CheckSkill(ICheck Check, MistakeScale? Scale, IReadOnlyList<(double Size, SkillTry[] Tries)> Tries);

/// <summary>Everything measured for the page: the same on every machine, for seeds are fixed and nothing is timed.</summary>
internal sealed record SkillRuns(int Seeds, IReadOnlyList<CheckSkill> Checks, AlarmCount[] Clean, AlarmCount[] Awkward)
{
    /// <param name="progress">Where a line tells what is done.</param>
    public static SkillRuns Measure(int seeds, int sites, int workers, TextWriter progress)
    {
        var checks = new List<CheckSkill>();
        foreach (var name in Skill.Checks)
        {
            progress.Write($"\r{checks.Count + 1} of {Skill.Checks.Length}: {name,-24}");
            checks.Add(new(CheckCatalogue.Find(name)!, SampleSites.ScaleOf(name), [.. Skill.SizesOf(name).Select(size => (size, Skill.Try(seeds, name, size, workers)))]));
        }

        progress.Write($"\r{"sites that are right",-40}");
        var clean = Skill.Alarms(sites, seed => SampleSites.Lot(seed), workers);
        var awkward = Skill.Alarms(sites, SampleSites.Awkward, workers);
        progress.WriteLine();
        return new(seeds, checks, clean, awkward);
    }
}
