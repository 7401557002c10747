using System.IO;
using System.Text;
using Aslaid.Record;
using Aslaid.Workbench;
using BenchmarkDotNet.Attributes;

namespace Aslaid.Benchmarks;

/// <summary>What every verb begins with: open a project, verify it, derive its record.</summary>
public class ProjectBenchmarks
{
    private string folder = "";

    [Params(10_000, 100_000, 1_000_000)]
    public int Shots { get; set; }

    private string Project => Path.Combine(folder, "site.gpkg");

    [GlobalSetup]
    public void Make()
    {
        folder = Directory.CreateTempSubdirectory("aslaid-project-").FullName;
        var site = SampleSites.OfSize(Shots, seed: 1);
        var engineer = Actor.Typed("Engineer");
        using var session = ProjectSession.Create(Project, site.Name, engineer, TimeProvider.System);
        session.Adopt(Adoptable.Control, "control.csv", Encoding.UTF8.GetBytes(site.Control), engineer, "");
        foreach (var file in site.Shots)
        {
            var path = Path.Combine(folder, file.Name);
            File.WriteAllText(path, file.Text);
            if (session.Take([path], file.Crew, default, engineer).Single().Batch is null) throw new InvalidOperationException($"{file.Name} was not taken in.");
        }
    }

    [GlobalCleanup]
    public void Remove() => Directory.Delete(folder, recursive: true);

    [Benchmark]
    public AsBuiltRecord OpenAndRecord()
    {
        using var session = ProjectSession.Open(Project, TimeProvider.System, readOnly: true);
        return session.Record();
    }
}
