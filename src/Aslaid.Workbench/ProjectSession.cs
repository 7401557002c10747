using System.Collections.Immutable;
using System.IO;
using System.Security.Cryptography;
using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>How an intake ended.</summary>
/// <param name="Batch">The batch taken; null where nothing was.</param>
/// <param name="Shots">Its shots: rows that use a shot again left out.</param>
/// <param name="Already">The earlier batch that holds the same file, where that is why nothing was taken.</param>
/// <param name="Rejected">Rows that could not be read; where there is one, nothing was taken.</param>
/// <param name="RejectedCount">How many there are; the list holds the first.</param>
/// <param name="Remarks">What a person should know.</param>
public sealed record TakeOutcome(
    BatchTaken? Batch, int Shots, JournalEntry? Already, ImmutableArray<Rejection> Rejected, int RejectedCount, ImmutableArray<string> Remarks);

/// <summary>
/// A project that is open: take in, adopt, correct, derive. The use cases that every host shares. Whatever it returns from
/// writing is on the disk. One writer at a time; not safe for use from two threads.
/// </summary>
public sealed class ProjectSession : IDisposable
{
    private readonly ProjectFile file;
    private readonly TimeProvider clock;
    private readonly IWorkers workers = ParallelWorkers.Instance;
    private ImmutableArray<JournalRow> journal;
    private ShotTable? shots;
    private AsBuiltRecord? record;

    private ProjectSession(ProjectFile file, TimeProvider clock)
    {
        (this.file, this.clock) = (file, clock);
        journal = file.LoadJournal();
    }

    /// <summary>Makes a project.</summary>
    /// <param name="path">A new file, <c>.gpkg</c>.</param>
    /// <param name="codes">The code book as CSV; the default one where null.</param>
    /// <param name="settings">Settings as text; the defaults where null.</param>
    /// <exception cref="ProjectException">The file exists, or code book or settings cannot be read.</exception>
    public static ProjectSession Create(
        string path, string name, Actor actor, TimeProvider clock, (string Name, byte[] Bytes)? codes = null, (string Name, byte[] Bytes)? settings = null)
    {
        if (File.Exists(path)) throw new ProjectException($"{path} exists already. Choose another name, or work on with it.");
        if (!path.EndsWith(".gpkg", StringComparison.OrdinalIgnoreCase)) throw new ProjectException($"A project is a GeoPackage: name it {path}.gpkg.");
        if (System.IO.Path.GetDirectoryName(System.IO.Path.GetFullPath(path)) is { } folder && !Directory.Exists(folder))
            throw new ProjectException($"There is no folder {folder}. Make it first.");
        var book = codes ?? ("codes.csv", DefaultCodes());
        Adoptions.Codes(book.Name, book.Bytes); // whatever is wrong with it shows before a file is made
        if (settings is { } text) Adoptions.Settings(text.Name, text.Bytes);
        ProjectSession session;
        try
        {
            session = new(ProjectFile.Create(path, clock.GetUtcNow()), clock);
        }
        catch (Exception wrong) when (wrong is IOException or UnauthorizedAccessException)
        {
            throw new ProjectException($"{path} could not be made: {wrong.Message}", wrong);
        }

        session.Append(new ProjectMade(name, ProjectTables.Format, Derivation.Rules), actor, "");
        session.Adopt(Adoptable.CodeBook, book.Name, book.Bytes, actor, "");
        if (settings is { } s) session.Adopt(Adoptable.Settings, s.Name, s.Bytes, actor, "");
        return session;
    }

    /// <summary>Opens a project; the journal's chain is verified.</summary>
    /// <exception cref="ProjectException">It is not there, is no project, is newer than this program, or was changed outside it.</exception>
    public static ProjectSession Open(string path, TimeProvider clock, bool readOnly = false)
    {
        var file = ProjectFile.Open(path, readOnly);
        try
        {
            return new(file, clock);
        }
        catch
        {
            file.Dispose();
            throw;
        }
    }

    /// <summary>The default code book as CSV.</summary>
    public static byte[] DefaultCodes() => Encoding.UTF8.GetBytes(SampleCodes.Csv);

    /// <summary>The journal.</summary>
    public ImmutableArray<JournalEntry> Journal => [.. journal.Select(row => row.Entry)];

    /// <summary>Name of the project.</summary>
    public string Name => journal.Select(row => row.Entry.What).OfType<ProjectMade>().FirstOrDefault()?.Name ?? "";

    /// <summary>Position of the last entry.</summary>
    public int Position => journal.Length;

    /// <summary>The chain's hash after an entry, lower-case hexadecimal.</summary>
    public string HeadHash(int position) => JournalChain.Print(position == 0 ? JournalChain.Origin : journal[position - 1].Hash);

    /// <summary>An entry's bytes as kept and hashed.</summary>
    public ReadOnlySpan<byte> EntryBytes(int position) => journal[position - 1].Bytes;

    /// <summary>Whether the derived layers in the file show the journal's end.</summary>
    public bool IsPublished => file.DerivedPosition == Position;

    /// <summary>The record as it is, or as it was known at a journal position.</summary>
    /// <exception cref="ProjectException">There is no such position, or what the journal tells of is not in the file as it was.</exception>
    public AsBuiltRecord Record(int? at = null)
    {
        if (at is null && record is not null) return record;
        var position = at ?? Position;
        if (position < 1 || position > Position)
            throw new ProjectException($"The journal of {file.Path} has positions 1 to {Position}; {position} is none of them.");
        var entries = journal.Take(position).Select(row => row.Entry).ToImmutableArray();
        var made = Derivation.Derive(Inputs(entries), workers);
        if (at is null) record = made;
        return made;
    }

    private RecordInputs Inputs(ImmutableArray<JournalEntry> entries)
    {
        if (entries.Select(e => e.What).OfType<ProjectMade>().FirstOrDefault() is { } made && made.Rules > Derivation.Rules)
            throw new ProjectException($"{file.Path} derives by rules revision {made.Rules}; this program knows revisions up to {Derivation.Rules}.");
        var inForce = Replay.InForce(entries);
        var batches = entries.Select(entry => entry.What).OfType<BatchTaken>().ToArray();
        var table = shots is not null && shots.Batches.Length == batches.Length ? shots : file.LoadShots(batches, workers);
        if (entries.Length == Position) shots = table;
        return new(table, entries,
            Adopted(Adoptable.CodeBook) is { } codes ? Adoptions.Codes(codes.FileName, file.LoadFile(codes.Sha256)) : CodeBook.Empty,
            Adopted(Adoptable.Control) is { } control ? Adoptions.Control(control.FileName, file.LoadFile(control.Sha256)) : [],
            Adopted(Adoptable.Settings) is { } settings ? Adoptions.Settings(settings.FileName, file.LoadFile(settings.Sha256)) : Settings.Default);

        Adopted? Adopted(Adoptable table) => inForce.Select(entry => entry.What).OfType<Adopted>().LastOrDefault(adopted => adopted.Table == table);
    }

    /// <summary>A file of shots as it was taken in, byte for byte; its hash verified.</summary>
    public byte[] TakenFile(string sha256) => file.LoadFile(sha256);

    /// <summary>Takes in a file of shots: whole, or not at all.</summary>
    public TakeOutcome Take(string path, string? crew, DeclaredAccuracy declared, Actor actor, IProgress<long>? progress = null)
    {
        byte[] bytes;
        try
        {
            bytes = File.ReadAllBytes(path);
        }
        catch (Exception wrong) when (wrong is IOException or UnauthorizedAccessException)
        {
            throw new ProjectException($"{path} could not be read: {wrong.Message}", wrong);
        }

        var name = System.IO.Path.GetFileName(path);
        var sha256 = Convert.ToHexStringLower(SHA256.HashData(bytes));
        var already = Replay.InForce(Journal).LastOrDefault(entry => entry.What is BatchTaken taken && taken.FileSha256 == sha256);
        if (already is not null) return new(null, 0, already, [], 0, []);

        var before = shots ?? file.LoadShots([.. Journal.Select(entry => entry.What).OfType<BatchTaken>()], workers);
        var reader = ReaderCatalogue.For(bytes, name) ?? ReaderCatalogue.Shots[0]; // our own form says best what an unknown file lacks
        var intake = reader.Read(bytes, new(name, crew, declared), before, progress);
        if (intake.Shots is not { } table) return new(null, 0, null, intake.Rejected, intake.RejectedCount, intake.Remarks);

        // The reader hands over a table that ends with the new batch.
        var batch = table.Batches[^1];
        var taken = new BatchTaken(batch.Number, name, sha256, ShotHash.OfBatch(table, batch, workers), batch.Count, crew, declared);
        Write(taken, actor, "", bytes, (table, batch));
        shots = table;
        return new(taken, table.Again.Slice(batch.FirstRow, batch.Count).Count(-1), null, [], 0, intake.Remarks);
    }

    /// <summary>Adopts a code book, control or settings; what holds already is not adopted again.</summary>
    /// <returns>The entry, or null where just this was in force.</returns>
    public JournalEntry? Adopt(Adoptable table, string name, byte[] bytes, Actor actor, string why)
    {
        Adoptions.Remarks(table, name, bytes); // refuses what cannot be read
        var sha256 = Convert.ToHexStringLower(SHA256.HashData(bytes));
        var now = Replay.InForce(Journal).Select(entry => entry.What).OfType<Adopted>().LastOrDefault(adopted => adopted.Table == table);
        return now?.Sha256 == sha256 ? null : Write(new Adopted(table, name, sha256), actor, why, bytes, null);
    }

    /// <summary>Writes an entry to the journal.</summary>
    public JournalEntry Append(Change change, Actor actor, string why) => Write(change, actor, why, null, null);

    private JournalEntry Write(Change change, Actor actor, string why, byte[]? content, (ShotTable, Batch)? batch)
    {
        var entry = new JournalEntry(Position + 1, clock.GetUtcNow(), actor, why, change);
        var bytes = ChangeCodec.Encode(entry);
        var row = new JournalRow(entry, bytes, JournalChain.Next(Position == 0 ? JournalChain.Origin : journal[^1].Hash, bytes));
        file.Append(row, Position, content, batch);
        journal = journal.Add(row);
        record = null;
        return entry;
    }

    /// <summary>Brings the derived layers of the file up to the journal's end.</summary>
    public void Publish()
    {
        if (!IsPublished) file.Publish(Record(), HeadHash(Position), clock.GetUtcNow());
    }

    /// <inheritdoc/>
    public void Dispose() => file.Dispose();
}
