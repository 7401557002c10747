using System.IO;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;
using BenchmarkDotNet.Attributes;

namespace Aslaid.Benchmarks;

/// <summary>A record's layers into a new GeoPackage, until they are on the disk.</summary>
public class LayersBenchmarks
{
    private static readonly DateTimeOffset Changed = new(2026, 3, 10, 12, 0, 0, TimeSpan.Zero);
    private AsBuiltRecord? record;
    private string folder = "";

    [Params(10_000, 100_000, 1_000_000)]
    public int Shots { get; set; }

    [GlobalSetup]
    public void Make()
    {
        record = Derivation.Derive(SampleInputs.Of(SampleSites.OfSize(Shots, seed: 1)), ParallelWorkers.Instance);
        folder = Directory.CreateTempSubdirectory("aslaid-layers-").FullName;
    }

    [GlobalCleanup]
    public void Remove() => Directory.Delete(folder, recursive: true);

    [Benchmark]
    public void Write()
    {
        var path = Path.Combine(folder, "layers.gpkg");
        File.Delete(path);
        var grid = SpatialReference.SiteGrid;
        using var file = GeoPackageFile.Create(path, grid);
        using var transaction = file.Begin();
        foreach (var table in RecordLayers.Tables(grid.SrsId)) file.Add(table, Changed);
        RecordLayers.Write(file, record!, grid.SrsId, Changed);
        transaction.Commit();
    }
}
