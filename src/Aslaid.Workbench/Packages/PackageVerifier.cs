using System.Collections.Immutable;
using System.IO;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text.Json;
using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>What a look at a package showed.</summary>
/// <param name="ManifestSha256">Hash of the manifest itself: a package rewritten whole shows only against this, kept elsewhere.</param>
/// <param name="Problems">What is not as the manifest says; empty for an unaltered package.</param>
public sealed record PackageVerdict(Manifest Manifest, string ManifestSha256, ImmutableArray<string> Problems);

/// <summary>Proves a package unaltered since its manifest was written: every file there, none added, each with its hash, and the journal's chain ending at the head.</summary>
public static class PackageVerifier
{
    /// <summary>Name of the journal inside a package.</summary>
    public const string JournalName = "journal.jsonl";

    /// <summary>No manifest is larger.</summary>
    private const long ManifestLimit = 64 << 20;

    /// <summary>Looks at a folder or a ZIP; nothing is unpacked to disk.</summary>
    /// <exception cref="ProjectException">There is no package, or it has no readable manifest.</exception>
    public static PackageVerdict Verify(string package)
    {
        var isFolder = Directory.Exists(package);
        if (!isFolder && !File.Exists(package)) throw new ProjectException($"There is no package {package}. Name the folder or ZIP that aslaid handover wrote.");
        try
        {
            if (isFolder) return Verify(PackageFolder.Of(package), name => File.OpenRead(System.IO.Path.Combine(package, name)));
            using var archive = ZipFile.OpenRead(package);
            return Verify(PackageFolder.Of(package, archive), name => archive.GetEntry(name)!.Open());
        }
        catch (Exception wrong) when (wrong is InvalidDataException or EndOfStreamException)
        {
            throw new ProjectException($"{package} is neither a folder nor a whole ZIP: it is something else, or was cut short or damaged. Name the folder or ZIP that aslaid handover wrote, or fetch it again.", wrong);
        }
        catch (Exception wrong) when (NamedFile.IsOfFiles(wrong))
        {
            throw isFolder ? new ProjectException($"{package} could not be read whole: {wrong.Message}", wrong) : NamedFile.Fault(package, "read", wrong);
        }
    }

    private static PackageVerdict Verify(PackageFolder folder, Func<string, Stream> open)
    {
        var there = folder.Files;
        if (!there.TryGetValue(Manifest.FileName, out var size)) throw new ProjectException($"The package has no {Manifest.FileName}; name the folder or ZIP that aslaid handover wrote.");
        if (size > ManifestLimit) throw new ProjectException($"{Manifest.FileName} has {size} bytes; no manifest is that large.");
        using var stream = open(Manifest.FileName);
        var bytes = new byte[size];
        stream.ReadExactly(bytes);
        var manifest = Manifest.Read(bytes);
        var problems = ImmutableArray.CreateBuilder<string>();
        problems.AddRange(folder.Problems);
        foreach (var same in manifest.Files.GroupBy(file => file.Name, StringComparer.Ordinal).Where(same => same.Count() > 1))
            problems.Add($"{same.Key} stands in the manifest {same.Count()} times.");
        foreach (var file in manifest.Files)
        {
            if (!Manifest.IsConfined(file.Name)) problems.Add($"'{file.Name}' in the manifest points outside the package.");
            else if (!there.TryGetValue(file.Name, out var length)) problems.Add($"{file.Name} is missing.");
            else if (length != file.Bytes) problems.Add($"{file.Name} has {length} bytes; the manifest says {file.Bytes}.");
            else
            {
                using var content = open(file.Name);
                if (Convert.ToHexStringLower(SHA256.HashData(content)) != file.Sha256) problems.Add($"{file.Name} was altered: its hash is not the manifest's.");
            }
        }

        foreach (var name in there.Keys.Except(manifest.Files.Select(file => file.Name)).Where(name => name != Manifest.FileName).Order(StringComparer.Ordinal))
            problems.Add($"{name} is not in the manifest.");
        if (problems.Count == 0) VerifyJournal(manifest, open, problems);
        return new(manifest, Convert.ToHexStringLower(SHA256.HashData(bytes)), problems.ToImmutable());
    }

    private static void VerifyJournal(Manifest manifest, Func<string, Stream> open, ImmutableArray<string>.Builder problems)
    {
        if (manifest.Files.All(file => file.Name != JournalName))
        {
            problems.Add($"The package has no {JournalName}.");
            return;
        }

        using var content = open(JournalName);
        using var all = new MemoryStream();
        content.CopyTo(all);
        var rest = all.GetBuffer().AsSpan(0, (int)all.Length);
        var (hash, count) = (JournalChain.Origin, 0);
        var last = Span<byte>.Empty;
        while (rest.IndexOf((byte)'\n') is >= 0 and var end)
        {
            last = rest[..end];
            hash = JournalChain.Next(hash, last);
            count++;
            rest = rest[(end + 1)..];
        }

        if (rest.Length > 0) problems.Add($"The last line of {JournalName} does not end.");
        if (count != manifest.Journal) problems.Add($"{JournalName} has {count} entries; the manifest says {manifest.Journal}.");
        if (count > 0 && PositionOf(last) != count) problems.Add($"The last entry of {JournalName} does not say that it is entry {count}.");
        if (JournalChain.Print(hash) != manifest.Head) problems.Add($"The journal's chain ends at {JournalChain.Print(hash)}; the manifest says {manifest.Head}.");
    }

    /// <summary>The position that an entry says it has, of whatever kind it is; null where it says none.</summary>
    private static int? PositionOf(ReadOnlySpan<byte> entry)
    {
        try
        {
            var reader = new Utf8JsonReader(entry);
            using var json = JsonDocument.ParseValue(ref reader);
            return json.RootElement.ValueKind == JsonValueKind.Object && json.RootElement.TryGetProperty("position", out var position)
                && position.ValueKind == JsonValueKind.Number && position.TryGetInt32(out var at) ? at : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
