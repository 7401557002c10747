using System.IO;

namespace Aslaid.Benchmarks;

/// <summary>Where the sources are: reports and the performance page are written among them.</summary>
internal static class Repository
{
    /// <summary>The folder that holds the solution.</summary>
    public static string Root { get; } = Above(AppContext.BaseDirectory);

    private static string Above(string folder)
    {
        while (!File.Exists(Path.Combine(folder, "Aslaid.slnx")))
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("Benchmarks run outside the repository: Aslaid.slnx is not above them.");
        return folder;
    }
}
