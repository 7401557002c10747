using System.IO;
using Aslaid.Workbench;

namespace Aslaid.Benchmarks;

/// <summary>The files of a sample site in a folder of their own, which goes when it is disposed of.</summary>
internal sealed class SiteFolder : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("aslaid-whole-").FullName;

    public SiteFolder(int shots, int runsToAMistake = 100)
    {
        var site = SampleSites.OfSize(shots, seed: 1, runsToAMistake: runsToAMistake);
        Mistakes = site.Mistakes.Length;
        File.WriteAllText(Control, site.Control);
        foreach (var file in site.Shots) File.WriteAllText(Path.Combine(folder, file.Name), WithCrew(file));
        Shots = [.. site.Shots.Select(file => Path.Combine(folder, file.Name))];
        Bytes = Shots.Sum(path => new FileInfo(path).Length);
    }

    public string Control => Path.Combine(folder, "control.csv");

    public string Project => Path.Combine(folder, "site.gpkg");

    public IReadOnlyList<string> Shots { get; }

    /// <summary>How many mistakes were put in.</summary>
    public int Mistakes { get; }

    /// <summary>Size of the shot files together.</summary>
    public long Bytes { get; }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    /// <summary>The rows name their crew, so that one run of the program takes in the files of all crews.</summary>
    private static string WithCrew(SampleFile file)
    {
        var lines = file.Text.TrimEnd('\n').Split('\n');
        return $"{lines[0]},crew\n{string.Concat(lines.Skip(1).Select(line => $"{line},{file.Crew}\n"))}";
    }
}
