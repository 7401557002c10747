using System.IO;

namespace Aslaid.Tests;

/// <summary>A name for a file that goes when the test ends.</summary>
internal sealed class TemporaryFile(string ending) : IDisposable
{
    public string Name { get; } = System.IO.Path.Combine(System.IO.Path.GetTempPath(), $"aslaid-{Guid.NewGuid():N}{ending}");

    public void Dispose()
    {
        foreach (var name in (string[])[Name, Name + "-journal", Name + "-wal", Name + "-shm"]) File.Delete(name);
    }
}
