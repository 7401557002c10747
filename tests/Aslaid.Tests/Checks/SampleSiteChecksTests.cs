using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;

namespace Aslaid.Tests;

public class SampleSiteChecksTests
{
    public static TheoryData<string> Mistakes => [.. SampleSites.AllMistakes.Where(check => CheckCatalogue.Find(check) is not null)];

    public static TheoryData<string> MistakesTogether => [.. SampleSites.MistakesTogether];

    [Fact]
    public void Clean_AnySeed_NoStop()
    {
        for (var seed = 1; seed <= 20; seed++)
            Assert.Empty(All(SampleSites.Clean(seed)).Where(finding => finding.Severity == Severity.Stop).Select(finding => $"{seed} {finding.Check.Name}: {finding.Message}"));
    }

    [Fact]
    public void Awkward_RightButOdd_NoStop()
    {
        for (var seed = 1; seed <= 20; seed++)
            Assert.Empty(All(SampleSites.Awkward(seed)).Where(finding => finding.Severity == Severity.Stop).Select(finding => $"{seed} {finding.Check.Name}: {finding.Message}"));
    }

    [Theory]
    [MemberData(nameof(Mistakes))]
    public void Single_EveryMistake_IsFoundAndItsShotsNamed(string check)
    {
        for (var seed = 1; seed <= 6; seed++) Found(SampleSites.Single(seed, check), seed);
    }

    [Fact]
    public void WithMistakes_EveryOne_IsFound()
    {
        for (var seed = 1; seed <= 3; seed++) Found(SampleSites.WithMistakes(seed), seed);
    }

    [Theory]
    [MemberData(nameof(MistakesTogether))]
    public void Single_OneMistake_LeadsAlone(string check)
    {
        var site = SampleSites.Single(3, check);
        var before = All(SampleSites.Clean(3)).Select(finding => finding.Check.Name).ToHashSet();
        Assert.Empty(All(site).Where(finding => finding.Check.Name != check && !before.Contains(finding.Check.Name)).Select(finding => $"{finding.Check.Name}: {finding.Message}"));
    }

    private static void Found(SampleSite site, int seed)
    {
        var findings = All(site);
        foreach (var mistake in site.Mistakes)
        {
            Assert.True(findings.Any(finding => finding.Check.Name == mistake.Check && mistake.Shots.All(id => finding.ShotIds.Contains(id))),
                $"Seed {seed}: {mistake.Check} of {string.Join(' ', mistake.Shots)}; found {string.Join(" | ", findings.Where(finding => finding.Check.Name == mistake.Check).Select(finding => finding.Message))}");
        }
    }

    private static List<Finding> All(SampleSite site)
    {
        var table = Derivation.Derive(SampleInputs.Of(site)).Findings;
        return [.. Enumerable.Range(0, table.Count).Select(number => table[number])];
    }
}
