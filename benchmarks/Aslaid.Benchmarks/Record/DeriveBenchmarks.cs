using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;
using BenchmarkDotNet.Attributes;

namespace Aslaid.Benchmarks;

/// <summary>From shots in memory to the checked record: replay, runs, measures, checks, holds, quantities.</summary>
public class DeriveBenchmarks
{
    private RecordInputs? inputs;

    [Params(10_000, 100_000, 1_000_000)]
    public int Shots { get; set; }

    [GlobalSetup]
    public void Make() => inputs = SampleInputs.Of(SampleSites.OfSize(Shots, seed: 1));

    [Benchmark(Baseline = true)]
    public AsBuiltRecord OneWorker() => Derivation.Derive(inputs!);

    [Benchmark]
    public AsBuiltRecord WorkerPerProcessor() => Derivation.Derive(inputs!, ParallelWorkers.Instance);
}
