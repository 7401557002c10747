using System.Globalization;
using System.Text;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Benchmarks;

/// <summary>The page about skill: what checks find of seeded mistakes, and how often they speak without need.</summary>
internal static class SkillPage
{
    /// <summary>Markdown, the same bytes for the same figures.</summary>
    public static string Write(SkillRuns runs)
    {
        var text = new StringBuilder();
        Say(text, $"# Skill of the checks");
        Say(text, $"");
        Say(text, $"Made by `dotnet run -c Release --project benchmarks/Aslaid.Benchmarks -- skill`; the same on every machine. Tests ask the");
        Say(text, $"figures of twice the limit again (`SkillTests`).");
        Say(text, $"");
        Found(text, runs);
        Least(text, runs);
        Alarms(text, runs);
        Say(text, $"");
        Unmeasured(text, runs);
        text.Append("""

            ## How it was made

            - Each try is a small site of some eighty shots of one crew, a morning and an afternoon, with check shots at both ends of
              both, drawn from its seed; everything is right but for one mistake. Seeds run from 1. The limits are those of the default
              settings and the default code book.
            - Size 1 is at the default limit of the check, size 2 twice as much: twice the gap, half the radius. What exactly it is,
              the mistake itself says (`src/Aslaid.Workbench/SampleSite/Mistakes`). At size 1 half are found at best: noise decides.
            - *Found*: a finding of the check shares a shot with the mistake, or its run or session where something is absent.
              *Named*: one finding of it names every shot that was spoilt and few others; of an absence, the run or the session.
            - *Findings*: stops and looks of all checks on that site that fold under no other, mean of all tries at twice the limit.
            - The smallest size found is interpolated between the sizes tried; it is the least from which on 95 % are found.
            - The upper bound is one-sided, 95 % (Clopper and Pearson 1934).

            ## What it is not

            - Not the world: crews err in ways that nobody seeded, and several mistakes meet. The noise is normal and independent
              from shot to shot, as the stated accuracy says; real receivers err together for minutes.
            - Not other limits: with tighter ones the same mistake is harder to tell from noise.
            - Not mistakes beyond the sizes tried, nor checks without a seeded mistake, which are named above.

            """);
        return text.ToString();
    }

    private static void Found(StringBuilder text, SkillRuns runs)
    {
        Say(text, $"## Found, by size of the mistake");
        Say(text, $"");
        Say(text, $"Per cent of {runs.Seeds} sites each. Where a mistake has no size, it stands under *there*; where it would be another one, –.");
        Say(text, $"");
        Say(text, $"| check | there | {string.Join(" | ", Skill.Sizes.Select(Number))} |");
        Say(text, $"| --- | ---: |{string.Concat(Skill.Sizes.Select(_ => " ---: |"))}");
        foreach (var check in runs.Checks)
        {
            var rates = check.Tries.Select(tries => PerCent(Rate(tries.Tries, one => one.Found))).ToList();
            rates.AddRange(Enumerable.Repeat("–", Skill.Sizes.Length - rates.Count));
            Say(text, $"| {Link(check.Check)} | {(check.Scale is null ? $"{rates[0]} |{string.Concat(Skill.Sizes.Select(_ => "  |"))}" : $" | {string.Join(" | ", rates)} |")}");
        }
    }

    private static void Least(StringBuilder text, SkillRuns runs)
    {
        Say(text, $"");
        Say(text, $"## Smallest mistake found, shots named, findings for one mistake");
        Say(text, $"");
        Say(text, $"| check | found in 95 % from size | that is | shots named at 2, % of found | findings at 2 |");
        Say(text, $"| --- | ---: | --- | ---: | ---: |");
        foreach (var check in runs.Checks)
        {
            var rates = check.Tries.Select(tries => (tries.Size, Rate(tries.Tries, one => one.Found))).ToList();
            var size = check.Scale is null ? null : Shares.SizeFound(rates);
            var plain = check.Tries.Single(tries => tries.Size == Skill.Plain).Tries;
            var found = plain.Count(one => one.Found);
            var named = found == 0 ? "–" : PerCent((double)plain.Count(one => one.Named) / found);
            Say(text, $"| {Link(check.Check)} | {SizeText(check, size, rates)} | {(size is { } known ? $"{check.Scale!.At(known):0.###} {Unit(check.Scale.Unit)}" : "")} | {named} | {plain.Average(one => one.Findings):0.00} |");
        }
    }

    private static string SizeText(CheckSkill check, double? size, List<(double Size, double Share)> rates)
    {
        if (size is { } known) return known.ToString("0.00", CultureInfo.InvariantCulture);
        if (check.Scale is null) return rates[0].Share >= 0.95 ? "there" : "not";
        return rates.TrueForAll(rate => rate.Share >= 0.95) ? $"under {Number(rates[0].Size)}" : "not at all sizes above";
    }

    private static void Alarms(StringBuilder text, SkillRuns runs)
    {
        Say(text, $"");
        Say(text, $"## Alarms on sites that are right");
        Say(text, $"");
        Say(text, $"| sites | how many | shots | with a stop | upper bound | looks | looks per 100 shots | sites with a look |");
        Say(text, $"| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: |");
        Alarms(text, "clean", runs.Clean);
        Alarms(text, "awkward but right", runs.Awkward);
    }

    private static void Alarms(StringBuilder text, string name, AlarmCount[] sites)
    {
        var stopped = sites.Count(site => site.Stops > 0);
        var (shots, looks) = (sites.Sum(site => site.Shots), sites.Sum(site => site.Looks));
        Say(text, $"| {name} | {sites.Length} | {shots} | {stopped} | {Shares.UpperBound(stopped, sites.Length) * 100:0.00} % | {looks} | {100.0 * looks / shots:0.00} | {sites.Count(site => site.Looks > 0)} |");
    }

    private static void Unmeasured(StringBuilder text, SkillRuns runs)
    {
        var names = CheckCatalogue.All.Except(runs.Checks.Select(check => check.Check)).Select(Link).ToList();
        if (names.Count > 0) Say(text, $"Without a seeded mistake, and so not measured here: {string.Join(", ", names)}.");
    }

    private static double Rate(SkillTry[] tries, Func<SkillTry, bool> so) => (double)tries.Count(so) / tries.Length;

    private static string Link(ICheck check) => $"[{check.Name}]({check.Name}.md)";

    private static string Unit(string unit) => unit == "1" ? "" : unit;

    private static string PerCent(double share) => (100 * share).ToString("0.#", CultureInfo.InvariantCulture);

    private static string Number(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    private static void Say(StringBuilder text, FormattableString line) => text.Append(line.ToString(CultureInfo.InvariantCulture).TrimEnd()).Append('\n');
}
