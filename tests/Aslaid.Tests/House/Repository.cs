using System.IO;

namespace Aslaid.Tests;

/// <summary>The sources as they lie on disk: the folder that holds the solution.</summary>
internal static class Repository
{
    public static string Root { get; } = Find();

    public static string PathOf(params ReadOnlySpan<string> parts) => System.IO.Path.Combine([Root, .. parts]);

    /// <summary>Text files that people wrote, below the folders given, with their name from the root.</summary>
    public static IEnumerable<(string Name, string Text)> Texts(params string[] folders) =>
        from folder in folders
        from file in Directory.EnumerateFiles(PathOf(folder), "*", SearchOption.AllDirectories)
        where System.IO.Path.GetExtension(file) is ".cs" or ".md" or ".csproj" or ".csv" or ".txt" or ".resx"
        let name = System.IO.Path.GetRelativePath(Root, file).Replace('\\', '/')
        where !name.Split('/').Any(part => part is "bin" or "obj" or "artifacts")
        orderby name
        select (name, File.ReadAllText(file));

    private static string Find()
    {
        for (var at = new DirectoryInfo(AppContext.BaseDirectory); at is not null; at = at.Parent)
            if (File.Exists(System.IO.Path.Combine(at.FullName, "Aslaid.slnx"))) return at.FullName;
        throw new InvalidOperationException($"No folder above {AppContext.BaseDirectory} holds Aslaid.slnx; the tests run from a build within the sources.");
    }
}
