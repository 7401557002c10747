using System.Collections.Immutable;
using System.Globalization;
using System.IO;
using System.Security.Cryptography;
using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;
using Microsoft.Data.Sqlite;

namespace Aslaid.Workbench;

/// <summary>
/// A project on disk: one GeoPackage. Raw rows and the journal are written first and are then acknowledged; derived layers
/// follow in a transaction of their own, stamped with the journal position they show.
/// </summary>
internal sealed class ProjectFile : IDisposable
{
    private readonly GeoPackageFile file;

    private ProjectFile(string path, GeoPackageFile file)
    {
        Path = path;
        this.file = file;
    }

    public string Path { get; }

    private SqliteConnection Connection => file.Connection;

    public static ProjectFile Create(string path, DateTimeOffset now)
    {
        var file = GeoPackageFile.Create(path, SpatialReference.SiteGrid);
        try
        {
            using var transaction = file.Begin();
            foreach (var table in ProjectTables.All) file.Add(table, now);
            foreach (var table in RecordLayers.Tables(SpatialReference.SiteGrid.SrsId)) file.Add(table, now);
            var project = new ProjectFile(path, file);
            project.SetValue("format", ProjectTables.Format.ToString(CultureInfo.InvariantCulture));
            transaction.Commit();
            return project;
        }
        catch
        {
            file.Dispose();
            throw;
        }
    }

    public static ProjectFile Open(string path, bool readOnly)
    {
        if (Directory.Exists(path)) throw new ProjectException($"{path} is a folder. Name a project in it, a .gpkg file.");
        GeoPackageFile file;
        try
        {
            file = GeoPackageFile.Open(path, readOnly);
        }
        catch (FileNotFoundException missing)
        {
            throw new ProjectException($"There is no project {path}. Make one with: aslaid new {path}", missing);
        }
        catch (InvalidDataException wrong)
        {
            throw new ProjectException($"{wrong.Message} Name a project made by aslaid new.", wrong);
        }
        catch (IOException wrong)
        {
            throw new ProjectException(wrong.Message, wrong);
        }

        try
        {
            return Reading(path, () => Known(path, file));
        }
        catch
        {
            file.Dispose();
            throw;
        }
    }

    private static ProjectFile Known(string path, GeoPackageFile file)
    {
        var project = new ProjectFile(path, file);
        if (!file.Contents().Any(table => table.Name == ProjectTables.Journal.Name))
            throw new ProjectException($"{path} is a GeoPackage, but no Aslaid project: it has no journal. Name a project made by aslaid new.");
        var format = project.Value("format");
        if (!int.TryParse(format, NumberStyles.None, CultureInfo.InvariantCulture, out var version) || version < 1)
            throw new ProjectException($"{path} does not say which project format it has (found '{format}').");
        if (version > ProjectTables.Format)
            throw new ProjectException($"{path} has project format {version}; this program knows formats up to {ProjectTables.Format}. Open it with the newer Aslaid that wrote it.");
        return project;
    }

    /// <summary>The whole journal, its chain verified, and nothing in the file that it does not tell of.</summary>
    public ImmutableArray<JournalRow> LoadJournal() => Reading(Path, () =>
    {
        using var still = new StillView(Connection);
        var journal = ImmutableArray.CreateBuilder<JournalRow>();
        using (var rows = new BulkRead(Connection, "SELECT id, entry, hash FROM journal ORDER BY id"))
        {
            var hash = JournalChain.Origin;
            while (rows.Next())
            {
                var bytes = rows.Bytes(1).ToArray();
                hash = JournalChain.Next(hash, bytes);
                if (!rows.Bytes(2).SequenceEqual(hash))
                    throw ChangedOutside($"Journal entry {rows.Whole(0)} of {Path} is not as it was written: its hash does not fit.");
                var entry = Decode(rows.Whole(0), bytes);
                if (entry.Position != rows.Whole(0) || entry.Position != journal.Count + 1)
                    throw ChangedOutside($"The journal of {Path} has entry {entry.Position} where entry {journal.Count + 1} was expected.");
                journal.Add(new(entry, bytes, hash));
            }
        }

        var whole = journal.ToImmutable();
        DemandNothingBeyond(whole);
        return whole;
    });

    private JournalEntry Decode(long position, byte[] bytes)
    {
        try
        {
            return ChangeCodec.Decode(bytes);
        }
        catch (FormatException unknown) // its hash fits, so it is what somebody meant to write
        {
            throw new ProjectException($"Journal entry {position} of {Path} is not known to this program; a newer program wrote it. Open the project with that. Nothing was changed. {unknown.Message}", unknown);
        }
    }

    /// <summary>A chain whose last links are cut off still fits. What the file holds besides tells how far the journal had come.</summary>
    private void DemandNothingBeyond(ImmutableArray<JournalRow> journal)
    {
        if (Value("derived_position") is not null)
        {
            var (at, head) = (DerivedPosition, Value("derived_head"));
            if (at > journal.Length)
                throw ChangedOutside($"The journal of {Path} has {journal.Length} entries, but its layers were made at entry {at}: the end of the journal is missing.");
            if (at < 0 || head != JournalChain.Print(at == 0 ? JournalChain.Origin : journal[at - 1].Hash))
                throw ChangedOutside($"The layers of {Path} were made from another journal than the one beside them: the hash they are stamped with is not that of entry {at}.");
        }

        var batches = journal.Select(row => row.Entry.What).OfType<BatchTaken>().ToList();
        if (Scalar("SELECT MAX(id) FROM batches") is { } batch && batch > batches.Count)
            throw ChangedOutside($"{Path} holds batch {batch}, but its journal tells of {batches.Count}: the end of the journal is missing, or a batch was added.");
        if (Scalar("SELECT MAX(id) FROM raw_shots") is { } last && last > batches.Sum(taken => (long)taken.Rows))
            throw ChangedOutside($"{Path} holds raw shots up to row {last}, but its journal tells of {batches.Sum(taken => (long)taken.Rows)}: the end of the journal is missing, or raw shots were added.");
    }

    private static ProjectException ChangedOutside(string what) => new($"{what} The file was changed outside Aslaid; go back to a copy.");

    /// <summary>Writes an entry, and with it what it tells of. When this returns, it is on the disk.</summary>
    /// <param name="expected">Entries that the writer knew of; another number means that somebody wrote meanwhile.</param>
    public void Append(JournalRow row, int expected, byte[]? content, (ShotTable Shots, Batch Batch)? batch) => Append([row], expected, content, batch);

    /// <summary>The same for several entries, all or none; content and batch go with the first.</summary>
    public void Append(IReadOnlyList<JournalRow> rows, int expected, byte[]? content = null, (ShotTable Shots, Batch Batch)? batch = null)
    {
        var row = rows[0];
        Guarded(() =>
        {
            using var transaction = file.Begin();
            var there = (int)(Scalar("SELECT COALESCE(MAX(id), 0) FROM journal") ?? 0);
            if (there != expected)
                throw new ProjectException($"Somebody else wrote to {Path} meanwhile: the journal has {there} entries, {expected} were expected. Nothing was written; try again.");
            if (content is not null) KeepFile(row.Entry.What, content);
            if (batch is { } taken)
            {
                RawShotRows.Insert(Connection, taken.Shots, taken.Batch);
                PutBatch((BatchTaken)row.Entry.What, RawShotRows.ColumnsOf(taken.Shots, taken.Batch));
            }

            using (var insert = new BulkInsert(Connection, "journal", "id", "entry", "hash"))
            {
                foreach (var entry in rows)
                {
                    insert.Whole(0, entry.Entry.Position);
                    insert.Text(1, entry.Bytes);
                    insert.Blob(2, entry.Hash);
                    insert.Row();
                }
            }

            transaction.Commit();
        });
    }

    private void KeepFile(Change what, byte[] content)
    {
        var (name, sha256) = what switch
        {
            BatchTaken taken => (taken.FileName, taken.FileSha256),
            Adopted adopted => (adopted.FileName, adopted.Sha256),
            DesignAdopted adopted => (adopted.FileName, adopted.Sha256),
            _ => throw new ArgumentException($"{what.GetType().Name} comes with no file.", nameof(what)),
        };
        if (Text("SELECT sha256 FROM files WHERE sha256 = ?1", sha256) is not null) return;
        using var insert = new BulkInsert(Connection, "files", "sha256", "name", "bytes");
        insert.Text(0, sha256);
        insert.Text(1, name);
        insert.Blob(2, content);
        insert.Row();
    }

    private void PutBatch(BatchTaken taken, ImmutableArray<string> columns)
    {
        using var insert = new BulkInsert(Connection, "batches", "id", "file_name", "file_sha256", "rows_sha256", "rows", "crew", "declared_u_plan_m", "declared_u_height_m", "columns");
        insert.Whole(0, taken.Batch);
        insert.Text(1, taken.FileName);
        insert.Text(2, taken.FileSha256);
        insert.Text(3, taken.RowsSha256);
        insert.Whole(4, taken.Rows);
        insert.Text(5, taken.Crew);
        insert.Real(6, taken.Declared.UPlan);
        insert.Real(7, taken.Declared.UHeight);
        insert.Text(8, string.Join(' ', columns));
        insert.Row();
    }

    /// <summary>A file as it was kept, its hash verified.</summary>
    public byte[] LoadFile(string sha256) => Reading(Path, () =>
    {
        using var rows = new BulkRead(Connection, "SELECT bytes FROM files WHERE sha256 = ?1");
        rows.Bind(1, sha256);
        if (!rows.Next()) throw new ProjectException($"{Path} lacks the file {sha256} of which its journal tells. Go back to a copy.");
        var bytes = rows.Bytes(0).ToArray();
        if (Convert.ToHexStringLower(SHA256.HashData(bytes)) != sha256)
            throw new ProjectException($"The file {sha256} kept in {Path} is not as it was taken: its hash does not fit. Go back to a copy.");
        return bytes;
    });

    /// <summary>Raw shots of the batches given, as the file has them: <see cref="Verify"/> them before anything rests on them.</summary>
    public ShotTable LoadShots(IReadOnlyList<BatchTaken> batches) => Reading(Path, () =>
    {
        var optional = new SortedSet<string>(StringComparer.Ordinal);
        using (var rows = new BulkRead(Connection, "SELECT columns FROM batches WHERE id <= ?1"))
        {
            rows.Bind(1, batches.Count);
            while (rows.Next()) optional.UnionWith(rows.Text(0).Split(' ', StringSplitOptions.RemoveEmptyEntries));
        }

        return RawShotRows.Load(Connection, batches, optional);
    });

    /// <summary>Holds raw shots against the hashes in the journal. Touches no file, so that it may run beside other work.</summary>
    public void Verify(ShotTable shots, IReadOnlyList<BatchTaken> batches, IWorkers workers)
    {
        foreach (var batch in batches)
        {
            if (ShotHash.OfBatch(shots, shots.Batches[batch.Batch - 1], workers) != batch.RowsSha256)
                throw new ProjectException($"Raw shots of batch {batch.Batch} ({batch.FileName}) in {Path} are not as they were taken: their hash does not fit. The file was changed outside Aslaid; go back to a copy.");
        }
    }

    /// <summary>Journal position that the derived layers show; −1 where they were never written.</summary>
    public int DerivedPosition => int.TryParse(Value("derived_position"), NumberStyles.None, CultureInfo.InvariantCulture, out var at) ? at : -1;

    /// <summary>Writes the derived layers anew and stamps them.</summary>
    public void Publish(AsBuiltRecord record, string headHash, DateTimeOffset now)
    {
        Guarded(() =>
        {
            using var transaction = file.Begin();
            foreach (var table in RecordLayers.Tables(SpatialReference.SiteGrid.SrsId).Concat(ProjectTables.Derived)) file.Shape(table, now);
            RecordLayers.Write(file, record, SpatialReference.SiteGrid.SrsId, now);
            DerivedTables.Write(file, record, now);
            SetValue("derived_position", record.Position.ToString(CultureInfo.InvariantCulture));
            SetValue("derived_head", headHash);
            transaction.Commit();
        });
    }

    private string? Value(string name) => Text("SELECT value FROM project WHERE name = ?1", name);

    private void SetValue(string name, string value)
    {
        using (var delete = new BulkRead(Connection, "DELETE FROM project WHERE name = ?1"))
        {
            delete.Bind(1, name);
            delete.Next();
        }

        using var insert = new BulkInsert(Connection, "project", "name", "value");
        insert.Text(0, name);
        insert.Text(1, value);
        insert.Row();
    }

    private string? Text(string sql, string parameter)
    {
        using var rows = new BulkRead(Connection, sql);
        rows.Bind(1, parameter);
        return rows.Next() && !rows.IsNull(0) ? rows.Text(0) : null;
    }

    private long? Scalar(string sql)
    {
        using var rows = new BulkRead(Connection, sql);
        return rows.Next() ? rows.WholeOrNull(0) : null;
    }

    private static T Reading<T>(string path, Func<T> read)
    {
        try
        {
            return read();
        }
        catch (SqliteException fault)
        {
            throw new ProjectException(
                fault.SqliteErrorCode is 5 or 6
                    ? $"{path} could not be read: another program is writing it. Wait until it is done, or close it there, and try again."
                    : $"{path} could not be read: {fault.Message} The project file may be damaged, or was changed outside Aslaid; go back to a copy.", fault);
        }
    }

    private void Guarded(Action write)
    {
        try
        {
            write();
        }
        catch (SqliteException fault)
        {
            var what = fault.SqliteErrorCode switch
            {
                5 or 6 => "another program is using it; close it there (a GIS with the file open) and try again",
                8 => "it is read-only; allow writing or name another file",
                13 => "the disk is full; make room and try again",
                _ => fault.Message,
            };
            throw new ProjectException($"{Path} could not be written: {what}. What was acknowledged before is safe; this was not written.", fault);
        }
    }

    public void Dispose() => file.Dispose();

    /// <summary>While it lasts, all reads see one state of the file: another program's commit waits.</summary>
    private sealed class StillView : IDisposable
    {
        private readonly SqliteConnection connection;

        public StillView(SqliteConnection connection)
        {
            this.connection = connection;
            Say("BEGIN");
        }

        public void Dispose() => Say("ROLLBACK"); // nothing was written

        private void Say(string word)
        {
            using var command = connection.CreateCommand();
            command.CommandText = word;
            command.ExecuteNonQuery();
        }
    }
}
