using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Workbench;
using BenchmarkDotNet.Attributes;

namespace Aslaid.Benchmarks;

/// <summary>The files of a site, from bytes in memory to a table of shots.</summary>
public class ShotsCsvBenchmarks
{
    private readonly ShotsCsvReader reader = new();
    private (byte[] Bytes, IntakeOptions Options)[] files = [];

    [Params(10_000, 100_000, 1_000_000)]
    public int Shots { get; set; }

    [GlobalSetup]
    public void Make() => files =
        [.. SampleSites.OfSize(Shots, seed: 1).Shots.Select(file => (Encoding.UTF8.GetBytes(file.Text), new IntakeOptions(file.Name, file.Crew, default)))];

    [Benchmark]
    public ShotTable Read()
    {
        var shots = ShotTable.Empty;
        foreach (var (bytes, options) in files)
            shots = reader.Read(bytes, options, shots).Shots ?? throw new InvalidOperationException($"{options.FileName} was rejected.");
        return shots;
    }
}
