using System.IO;

namespace Aslaid.Tests;

/// <summary>A folder of a test's own, gone afterwards.</summary>
internal sealed class TempFolder : IDisposable
{
    public TempFolder() => Directory.CreateDirectory(Root);

    public string Root { get; } = System.IO.Path.Combine(System.IO.Path.GetTempPath(), $"aslaid-{Guid.NewGuid():N}");

    public string this[string name] => System.IO.Path.Combine(Root, name);

    public string Write(string name, string text) => Write(name, System.Text.Encoding.UTF8.GetBytes(text));

    public string Write(string name, byte[] bytes)
    {
        File.WriteAllBytes(this[name], bytes);
        return this[name];
    }

    public void Dispose() => Directory.Delete(Root, recursive: true);
}
