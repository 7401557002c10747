using System.IO;
using Aslaid.Cli;

namespace Aslaid.Tests;

/// <summary>Runs commands as a person would, and keeps what they print.</summary>
internal static class CommandLine
{
    public static (int Exit, string Output, string Error) Run(params string[] words)
    {
        using var output = new StringWriter { NewLine = "\n" };
        using var error = new StringWriter { NewLine = "\n" };
        var exit = App.Run(words, new(output, error, Interactive: false, TimeProvider.System));
        return (exit, output.ToString(), error.ToString());
    }

    /// <summary>Runs what must succeed.</summary>
    public static string Output(params string[] words)
    {
        var (exit, output, error) = Run(words);
        Assert.True(exit == 0, $"aslaid {string.Join(' ', words)} ended with {exit}: {error}");
        return output;
    }
}

/// <summary>A folder that goes when the test ends.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    private readonly string root = Directory.CreateTempSubdirectory("aslaid-").FullName;

    public string PathOf(string name) => System.IO.Path.Combine(root, name);

    public void Dispose() => Directory.Delete(root, recursive: true);
}
