using System.IO;
using System.IO.Compression;

namespace Aslaid.Workbench;

/// <summary>What lies in a package, folder or ZIP: plain files, and whatever a package never holds.</summary>
internal sealed class PackageFolder
{
    /// <summary>File type bits of a Unix mode, as ZIP keeps them in the upper half of the attributes.</summary>
    private const int TypeBits = 0xF000, LinkType = 0xA000;

    /// <summary>Length by name: relative, forward slashes.</summary>
    public Dictionary<string, long> Files { get; } = new(StringComparer.Ordinal);

    /// <summary>What no package holds, in plain words.</summary>
    public List<string> Problems { get; } = [];

    /// <summary>The files below a folder; links are told of, never followed.</summary>
    public static PackageFolder Of(string folder)
    {
        var found = new PackageFolder();
        found.Gather(new DirectoryInfo(folder), "");
        return found;
    }

    /// <summary>The entries of a ZIP. Entries for folders are allowed, as other programs write them, while they are empty.</summary>
    /// <exception cref="ProjectException">Two entries bear one name.</exception>
    public static PackageFolder Of(string package, ZipArchive archive)
    {
        var found = new PackageFolder();
        foreach (var entry in archive.Entries)
        {
            if (((entry.ExternalAttributes >> 16) & TypeBits) == LinkType) found.AddLink(entry.FullName);
            else if (entry.Name.Length > 0)
            {
                if (!found.Files.TryAdd(entry.FullName, entry.Length)) throw new ProjectException($"{package} holds {entry.FullName} more than once.");
            }
            else if (entry.Length > 0 || entry.CompressedLength > 0)
                found.Problems.Add($"{entry.FullName} is called a folder, but has content.");
        }

        return found;
    }

    private void Gather(DirectoryInfo folder, string before)
    {
        foreach (var entry in folder.EnumerateFileSystemInfos("*", new EnumerationOptions { AttributesToSkip = FileAttributes.None, IgnoreInaccessible = false }).OrderBy(entry => entry.Name, StringComparer.Ordinal))
        {
            var name = before + entry.Name;
            if (entry.LinkTarget is not null || entry.Attributes.HasFlag(FileAttributes.ReparsePoint)) AddLink(name);
            else if (entry is DirectoryInfo inner) Gather(inner, name + "/");
            else Files.Add(name, ((FileInfo)entry).Length);
        }
    }

    private void AddLink(string name) => Problems.Add($"{name} is a link; a package holds none.");
}
