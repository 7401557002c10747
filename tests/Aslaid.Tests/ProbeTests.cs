using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;
namespace Aslaid.Tests;
public class ProbeTests
{
    [Fact]
    public void Print()
    {
        var lines = new List<string>();
        foreach (var (name, make) in ((string, Func<int, SampleSite>)[])[("clean", s => SampleSites.Clean(s)), ("lot", s => SampleSites.Lot(s)), ("awkward", SampleSites.Awkward), ("with", s => SampleSites.WithMistakes(s))])
            for (var seed = 1; seed <= (name == "with" ? 1 : 12); seed++)
                foreach (var f in Skill.Findings(make(seed)).Where(Skill.Leads))
                    lines.Add($"{name} {seed} {f.Severity} {f.Check.Name}: {f.Message}");
        System.IO.File.WriteAllLines("/tmp/probe/out.txt", lines);
    }
}
