using System.Collections.Immutable;
using System.Globalization;
using System.IO;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>Writes a handover: every deliverable, the journal, the files as taken, a manifest of hashes. Whole, or not at all.</summary>
public static class PackageWriter
{
    /// <summary>Writes to a new folder, or to a ZIP where the name ends so.</summary>
    /// <param name="target">Must not exist yet (an empty folder may).</param>
    /// <exception cref="ProjectException">The target exists, or cannot be written.</exception>
    public static Manifest Write(ProjectSession session, AsBuiltRecord record, string target, string preparedBy, TimeProvider clock)
    {
        var zip = target.EndsWith(".zip", StringComparison.OrdinalIgnoreCase);
        if (File.Exists(target) || Directory.Exists(target) && Directory.EnumerateFileSystemEntries(target).Any())
            throw new ProjectException($"{target} exists already; a handover is never written over another. Name a new one.");
        var full = System.IO.Path.GetFullPath(target);
        var work = $"{full}.part-{Guid.NewGuid():N}";
        try
        {
            Directory.CreateDirectory(work);
            var handover = new Handover(record, session.Name, record.Position, session.HeadHash(record.Position), clock.GetUtcNow(), preparedBy);
            var manifest = Fill(session, handover, work);
            if (zip) Zip(work, full, manifest, handover.MadeAt);
            else
            {
                if (Directory.Exists(full)) Directory.Delete(full); // empty, as seen above
                Directory.Move(work, full);
            }

            return manifest;
        }
        catch (Exception wrong) when (NamedFile.IsOfFiles(wrong))
        {
            throw NamedFile.Fault(target, "written", wrong);
        }
        finally
        {
            if (Directory.Exists(work)) Directory.Delete(work, recursive: true);
        }
    }

    private static Manifest Fill(ProjectSession session, Handover handover, string work)
    {
        var folder = new Folder(work);
        foreach (var deliverable in DeliverableCatalogue.All)
        {
            folder.What = deliverable.What;
            deliverable.Write(handover, folder);
        }

        using (var journal = File.Create(folder.PathOf(PackageVerifier.JournalName, "journal: one entry a line, as hashed; the chain ends at the head named here")))
        {
            for (var position = 1; position <= handover.Position; position++)
            {
                journal.Write(session.EntryBytes(position));
                journal.WriteByte((byte)'\n');
            }
        }

        foreach (var batch in handover.Record.Shots.Raw.Batches)
        {
            var (number, crew) = (batch.Number.ToString(CultureInfo.InvariantCulture), batch.Crew is null ? "" : $" of crew {batch.Crew}");
            File.WriteAllBytes(folder.PathOf($"taken/{number}-{Plain(batch.FileName)}", $"batch {number}{crew}: the file of shots as it was taken in, byte for byte"), session.TakenFile(batch.FileSha256));
        }

        File.WriteAllText(folder.PathOf("README.txt", "what this package is, how far the record is, what holds, the cautions"), PackageReadMe.Of(handover), new UTF8Encoding(false));

        var manifest = new Manifest(handover.Project, handover.Position, handover.HeadHash, handover.MadeAt, handover.PreparedBy, Derivation.Rules,
            $"Aslaid {typeof(PackageWriter).Assembly.GetName().Version?.ToString(3)}", folder.Files(), [.. Cautions.All]);
        using var file = File.Create(System.IO.Path.Combine(work, Manifest.FileName));
        file.Write(manifest.Write());
        file.Flush(flushToDisk: true);
        return manifest;
    }

    /// <summary>A file name without anything that a file system or an archive could take for a path, of at most a hundred letters.</summary>
    private static string Plain(string name)
    {
        const int longest = 100, longestEnding = 20;
        var plain = string.Concat(name.Select(letter => char.IsAsciiLetterOrDigit(letter) || letter is '.' or '-' or '_' ? letter : '_')).TrimStart('.');
        if (plain.Length <= longest) return plain;
        var ending = System.IO.Path.GetExtension(plain);
        return ending.Length > longestEnding ? plain[..longest] : plain[..(longest - ending.Length)] + ending;
    }

    private static void Zip(string work, string target, Manifest manifest, DateTimeOffset time)
    {
        var part = $"{work}.zip"; // of its own, as the folder is: what a crash leaves behind stands in nobody's way
        try
        {
            using (var file = new FileStream(part, FileMode.CreateNew))
            {
                using (var archive = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true))
                {
                    foreach (var name in manifest.Files.Select(file => file.Name).Append(Manifest.FileName))
                    {
                        var entry = archive.CreateEntry(name);
                        entry.LastWriteTime = time;
                        using var to = entry.Open();
                        using var from = File.OpenRead(System.IO.Path.Combine(work, name));
                        from.CopyTo(to);
                    }
                }

                file.Flush(flushToDisk: true);
            }

            File.Move(part, target);
        }
        finally
        {
            File.Delete(part); // nothing, where it was moved
        }
    }

    private sealed class Folder(string root) : IDeliveryFolder
    {
        private readonly SortedDictionary<string, string> files = new(StringComparer.Ordinal);

        /// <summary>What a file is for that comes without words of its own.</summary>
        public string What { get; set; } = "";

        public string PathOf(string name, string? what = null)
        {
            if (!Manifest.IsConfined(name)) throw new ArgumentException($"'{name}' is no name for a file of a package.", nameof(name));
            files[name] = what ?? What;
            var path = System.IO.Path.Combine(root, name);
            Directory.CreateDirectory(System.IO.Path.GetDirectoryName(path)!);
            return path;
        }

        /// <summary>The files that were written under the names asked for, each on the disk before its hash is taken.</summary>
        public ImmutableArray<ManifestFile> Files() =>
        [
            .. files.Where(file => File.Exists(System.IO.Path.Combine(root, file.Key))).Select(file =>
            {
                using var bytes = File.Open(System.IO.Path.Combine(root, file.Key), FileMode.Open, FileAccess.ReadWrite); // a flush needs the right to write
                bytes.Flush(flushToDisk: true);
                return new ManifestFile(file.Key, file.Value, bytes.Length, Convert.ToHexStringLower(SHA256.HashData(bytes)));
            }),
        ];
    }
}
