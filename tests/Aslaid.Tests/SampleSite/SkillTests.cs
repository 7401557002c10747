using Aslaid.Testing;
using Aslaid.Workbench;

namespace Aslaid.Tests;

/// <summary>What checks must reach at their default limits. A check without a mistake, or a mistake without a check, is not asked.</summary>
public class SkillTests
{
    private const int Seeds = 200;

    public static TheoryData<string> Checks => [.. Skill.Checks];

    [Theory]
    [MemberData(nameof(Checks))]
    public void Lot_MistakeOfTwiceTheLimit_IsFoundNamedAndLeadsAlone(string check)
    {
        var tries = Skill.Try(Seeds, check, Skill.Plain, Environment.ProcessorCount);
        var (found, named) = (tries.Count(one => one.Found), tries.Count(one => one.Named));
        Assert.True(found >= Seeds - 2, $"{check}: {found} of {Seeds} found.");
        Assert.True(named >= found - 2, $"{check}: the right shots named in {named} of {found}.");
        var findings = tries.Average(one => one.Findings);
        Assert.True(findings <= 1.3, $"{check}: {findings:0.00} stops and looks for one mistake.");
    }

    /// <summary>A session that drifts and a coarse instrument look alike to whoever compares check shots two by two.</summary>
    [Theory]
    [InlineData("control-drift")]
    [InlineData("accuracy-optimistic")]
    public void Lot_DriftOrACoarseInstrument_IsLedByItsOwnCheck(string check)
    {
        var led = new bool[Seeds];
        Parallel.For(0, Seeds, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, seed =>
        {
            var leading = Skill.Findings(SampleSites.Lot(seed + 1, check, Skill.Plain)).Where(Skill.Leads).ToList();
            led[seed] = leading.Exists(finding => finding.Check.Name == check && finding.Severity == leading.Max(other => other.Severity));
        });
        Assert.True(led.Count(one => one) >= 0.95 * Seeds, $"{check} leads {led.Count(one => one)} of {Seeds}.");
    }

    /// <summary>Below that the last detail is shot before the two hours are over.</summary>
    [Theory]
    [InlineData(1.25)]
    [InlineData(1.5)]
    public void Lot_ControlGapFromAQuarterOverItsLimit_IsFound(double size) =>
        Assert.All(Skill.Try(Seeds, "control-gap", size, Environment.ProcessorCount), one => Assert.True(one.Found));

    [Fact]
    public void Try_AnyNumberOfWorkers_SameTries() => Assert.Equal(Skill.Try(20, "control-missed", 1, 1), Skill.Try(20, "control-missed", 1, 2));

    [Fact]
    public void Lot_Clean_NoStopAndFewLooks() => Quiet(seed => SampleSites.Lot(seed));

    [Fact]
    public void Awkward_RightButOdd_NoStopAndFewLooks() => Quiet(SampleSites.Awkward);

    private static void Quiet(Func<int, SampleSite> site)
    {
        var counts = Skill.Alarms(Seeds, site, Environment.ProcessorCount);
        var stopped = Enumerable.Range(1, Seeds).Where(seed => counts[seed - 1].Stops > 0).ToArray();
        Assert.True(stopped.Length == 0, $"Stops at seeds {string.Join(' ', stopped)}.");
        var per100 = 100.0 * counts.Sum(one => one.Looks) / counts.Sum(one => one.Shots);
        Assert.True(per100 <= 2, $"{per100:0.00} looks per 100 shots.");
    }
}
