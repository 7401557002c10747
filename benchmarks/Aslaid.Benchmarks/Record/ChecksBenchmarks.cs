using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;
using BenchmarkDotNet.Attributes;

namespace Aslaid.Benchmarks;

/// <summary>Each check alone. What checks share (indexes, who belongs to which run) is made before and not counted.</summary>
public class ChecksBenchmarks
{
    private ICheck? check;
    private Site? site;

    public static IEnumerable<string> Names => CheckCatalogue.All.Select(each => each.Name);

    [Params(100_000)]
    public int Shots { get; set; }

    [ParamsSource(nameof(Names))]
    public string Check { get; set; } = "";

    [GlobalSetup]
    public void Make()
    {
        site = Derivation.Derive(SampleInputs.Of(SampleSites.OfSize(Shots, seed: 1))).Site;
        check = CheckCatalogue.Find(Check);
    }

    [Benchmark]
    public Findings Look()
    {
        var findings = new Findings();
        check!.Look(site!, findings);
        return findings;
    }
}
