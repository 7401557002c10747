using System.Collections.Immutable;
using System.IO;
using System.Security.Cryptography;
using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>What a person says about a design file that is adopted.</summary>
/// <param name="Unit">Metres to a unit, where the file states none.</param>
/// <param name="Surface">Which surface counts, or what the only one is called.</param>
/// <param name="Kind">What its surfaces are.</param>
/// <param name="Date">Their date.</param>
/// <param name="U">Standard uncertainty of their heights, metres.</param>
public sealed record DesignTerms(double? Unit = null, string? Surface = null, SurfaceKind Kind = SurfaceKind.Designed, DateOnly? Date = null, double? U = null);

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
    private readonly Dictionary<(Adoptable, string), Task<object>> adoptedTables = [];

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
        catch (Exception wrong) when (NamedFile.IsOfFiles(wrong))
        {
            throw NamedFile.Fault(path, "made", wrong);
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
        Adopted(entries); // read while the shots are loaded
        var verifying = LoadShots(entries, out var table);
        var inputs = Inputs(table, entries);
        var deriving = Task.Run(() => Derivation.Derive(inputs, workers));
        verifying.GetAwaiter().GetResult(); // nothing is given out that rests on rows which are not as they were taken
        var made = deriving.GetAwaiter().GetResult();
        if (position == Position) shots = table;
        if (at is null) record = made;
        return made;
    }

    /// <summary>The raw shots of a journal, and the work of verifying them, which goes on beside the derivation.</summary>
    private Task LoadShots(ImmutableArray<JournalEntry> entries, out ShotTable table)
    {
        var batches = entries.Select(entry => entry.What).OfType<BatchTaken>().ToArray();
        if (shots is not null && shots.Batches.Length == batches.Length)
        {
            table = shots; // verified when it was loaded, or just taken
            return Task.CompletedTask;
        }

        var loaded = table = file.LoadShots(batches);
        return Task.Run(() => file.Verify(loaded, batches, workers));
    }

    private RecordInputs Inputs(ShotTable table, ImmutableArray<JournalEntry> entries)
    {
        if (entries.Select(e => e.What).OfType<ProjectMade>().FirstOrDefault() is { } made && made.Rules > Derivation.Rules)
            throw new ProjectException($"{file.Path} derives by rules revision {made.Rules}; this program knows revisions up to {Derivation.Rules}.");
        var adopted = Adopted(entries);
        return new(table, entries,
            (CodeBook?)adopted[Adoptable.CodeBook]?.GetAwaiter().GetResult() ?? CodeBook.Empty,
            (ImmutableArray<ControlPoint>?)adopted[Adoptable.Control]?.GetAwaiter().GetResult() ?? [],
            (Settings?)adopted[Adoptable.Settings]?.GetAwaiter().GetResult() ?? Settings.Default)
        {
            Delivery = (DeliveryTable?)adopted[Adoptable.Delivery]?.GetAwaiter().GetResult() ?? DeliveryTable.Empty,
            Sections = (SectionTable?)adopted[Adoptable.Sections]?.GetAwaiter().GetResult() ?? SectionTable.Empty,
            DesignMap = (DesignMap?)adopted[Adoptable.DesignMap]?.GetAwaiter().GetResult() ?? DesignMap.Empty,
            Separation = (SeparationTable?)adopted[Adoptable.Separation]?.GetAwaiter().GetResult() ?? SeparationTable.Default,
            Designs = Designs(entries, ((Settings?)adopted[Adoptable.Settings]?.GetAwaiter().GetResult() ?? Settings.Default).CoordinateSystem),
        };
    }

    private readonly Dictionary<(string Sha256, double? Unit, string? System), DesignFile> designs = [];

    private ImmutableArray<AdoptedDesign> Designs(ImmutableArray<JournalEntry> entries, string? system)
    {
        var adopted = Replay.InForce(entries).Where(entry => entry.What is DesignAdopted).ToArray();
        var last = adopted.GroupBy(entry => ((DesignAdopted)entry.What).FileName).ToDictionary(file => file.Key, file => file.Last().Position);
        return
        [
            .. adopted.Select(entry =>
            {
                var what = (DesignAdopted)entry.What;
                if (!designs.TryGetValue((what.Sha256, what.Unit, system), out var read))
                    designs[(what.Sha256, what.Unit, system)] = read = Adoptions.Design(new MemoryStream(file.LoadFile(what.Sha256), writable: false), new(what.FileName, what.Unit, system));
                return new AdoptedDesign(what, entry.Position, last[what.FileName] == entry.Position, read);
            }),
        ];
    }

    /// <summary>Adopts a design file; one of the same name holds no more. What holds already in the same way is not adopted again.</summary>
    /// <returns>What it holds, and the entry, null where just this was in force.</returns>
    public (DesignFile Design, JournalEntry? Entry) AdoptDesign(string name, byte[] bytes, DesignTerms terms, Actor actor, string why)
    {
        var system = Record().Inputs.Settings.CoordinateSystem;
        var read = Adoptions.Design(new MemoryStream(bytes, writable: false), new(name, terms.Unit, system));
        if (terms.Surface is { } wanted && read.Surfaces.Length > 1 && !read.Surfaces.Any(surface => surface.Name == wanted))
            throw new ProjectException($"{name} has no surface {wanted}; it has {string.Join(", ", read.Surfaces.Select(surface => surface.Name))}. Nothing changed.");
        if (terms.Surface is not null && read.Surfaces.IsEmpty) throw new ProjectException($"{name} has no surface. Leave out --surface, or export the surface as triangles. Nothing changed.");
        var what = new DesignAdopted(name, Convert.ToHexStringLower(SHA256.HashData(bytes)), terms.Unit, terms.Surface, terms.Kind, terms.Date, terms.U);
        var now = Replay.InForce(Journal).Select(entry => entry.What).OfType<DesignAdopted>().LastOrDefault(adopted => adopted.FileName == name);
        if (now == what) return (read, null);
        designs[(what.Sha256, what.Unit, system)] = read;
        return (read, Write(Next(what, actor, why), bytes, null));
    }

    /// <summary>What the entries adopt last, being read beside other work; each text once.</summary>
    private Dictionary<Adoptable, Task<object>?> Adopted(ImmutableArray<JournalEntry> entries)
    {
        var last = Replay.InForce(entries).Select(entry => entry.What).OfType<Adopted>().GroupBy(adopted => adopted.Table).ToDictionary(table => table.Key, table => table.Last());
        return Enum.GetValues<Adoptable>().ToDictionary(what => what, what => last.TryGetValue(what, out var adopted) ? Reading(adopted) : null);

        Task<object> Reading(Adopted adopted)
        {
            if (adoptedTables.TryGetValue((adopted.Table, adopted.Sha256), out var known)) return known;
            var bytes = file.LoadFile(adopted.Sha256);
            return adoptedTables[(adopted.Table, adopted.Sha256)] = Task.Run(() => Adoptions.Read(adopted.Table, adopted.FileName, bytes));
        }
    }

    /// <summary>A file of shots as it was taken in, byte for byte; its hash verified.</summary>
    public byte[] TakenFile(string sha256) => file.LoadFile(sha256);

    /// <summary>
    /// Takes in files of shots in order, each whole or not at all; ends after one that is refused. An outcome comes when the file is on
    /// the disk. While one is written the next is read, and behind the last the record is derived.
    /// </summary>
    /// <exception cref="ProjectException">A file cannot be read, or the project cannot be written.</exception>
    public IEnumerable<TakeOutcome> Take(
        IReadOnlyList<string> paths, string? crew, DeclaredAccuracy declared, Actor actor, IProgress<long>? progress = null)
    {
        Adopted(Journal); // read while the shots are
        LoadShots(Journal, out var before).GetAwaiter().GetResult();
        var known = new Dictionary<string, JournalEntry>();
        foreach (var entry in Replay.InForce(Journal))
            if (entry.What is BatchTaken earlier) known[earlier.FileSha256] = entry;
        var options = new IntakeOptions("", crew, declared) { Withdrawn = [.. Journal.Select(entry => entry.What).OfType<BatchTaken>().Select(taken => taken.Batch).Except(known.Values.Select(entry => ((BatchTaken)entry.What).Batch))] };
        var done = 0L;
        var reading = ReadNext(paths[0], before, known);
        for (var at = 0; at < paths.Count; at++)
        {
            var intake = reading.GetAwaiter().GetResult();
            done += intake.Bytes.Length;
            var last = at == paths.Count - 1 || intake.IsRefused;
            var row = intake.Taken is { } taken ? Next(taken, actor, "") : null;
            if (row is not null) known = new(known) { [intake.Sha256] = row.Entry };
            if (!last) reading = ReadNext(paths[at + 1], intake.After, known);
            if (row is not null) Write(row, intake, derive: last);
            yield return intake.Outcome(known);
            if (intake.IsRefused) yield break;
        }

        Task<PreparedIntake> ReadNext(string path, ShotTable after, Dictionary<string, JournalEntry> knownByThen)
        {
            var reading = progress is null ? null : new AllBytes(progress, done);
            return Task.Run(() => PreparedIntake.Read(path, options, after, knownByThen, workers, reading));
        }
    }

    /// <summary>Bytes of one file reported as bytes of all.</summary>
    private sealed class AllBytes(IProgress<long> whole, long before) : IProgress<long>
    {
        public void Report(long value) => whole.Report(before + value);
    }

    private void Write(JournalRow row, PreparedIntake intake, bool derive)
    {
        var inputs = derive ? Inputs(intake.After, Journal.Add(row.Entry)) : null;
        var deriving = inputs is null ? null : Task.Run(() => Derivation.Derive(inputs, workers));
        Write(row, intake.Bytes, (intake.After, intake.After.Batches[^1]));
        shots = intake.After;
        record = deriving is null || deriving.ContinueWith(task => task.IsFaulted, TaskScheduler.Default).GetAwaiter().GetResult() ? null : deriving.Result; // what went wrong there comes up when the record is asked for: the file is taken
    }

    /// <summary>Adopts a code book, control, settings or a delivery table; what holds already is not adopted again.</summary>
    /// <returns>The entry, or null where just this was in force.</returns>
    public JournalEntry? Adopt(Adoptable table, string name, byte[] bytes, Actor actor, string why)
    {
        Adoptions.Remarks(table, name, bytes); // refuses what cannot be read
        var sha256 = Convert.ToHexStringLower(SHA256.HashData(bytes));
        var now = Replay.InForce(Journal).Select(entry => entry.What).OfType<Adopted>().LastOrDefault(adopted => adopted.Table == table);
        return now?.Sha256 == sha256 ? null : Write(Next(new Adopted(table, name, sha256), actor, why), bytes, null);
    }

    /// <summary>Writes an entry to the journal.</summary>
    public JournalEntry Append(Change change, Actor actor, string why) => Write(Next(change, actor, why), null, null);

    /// <summary>Writes several entries to the journal, all or none.</summary>
    public ImmutableArray<JournalEntry> Append(IReadOnlyList<Change> changes, Actor actor, string why)
    {
        var rows = new List<JournalRow>(changes.Count);
        foreach (var change in changes) rows.Add(Next(change, actor, why, rows.Count > 0 ? rows[^1] : null));
        if (rows.Count == 0) return [];
        file.Append(rows, Position);
        journal = journal.AddRange(rows);
        record = null;
        return [.. rows.Select(row => row.Entry)];
    }

    private JournalRow Next(Change change, Actor actor, string why, JournalRow? after = null)
    {
        var last = after ?? (Position == 0 ? null : journal[^1]);
        var entry = new JournalEntry((last?.Entry.Position ?? 0) + 1, clock.GetUtcNow(), actor, why, change);
        var bytes = ChangeCodec.Encode(entry);
        return new(entry, bytes, JournalChain.Next(last?.Hash ?? JournalChain.Origin, bytes));
    }

    private JournalEntry Write(JournalRow row, byte[]? content, (ShotTable, Batch)? batch)
    {
        file.Append(row, Position, content, batch);
        journal = journal.Add(row);
        record = null;
        return row.Entry;
    }

    /// <summary>Brings the derived layers of the file up to the journal's end.</summary>
    public void Publish()
    {
        if (!IsPublished) file.Publish(Record(), HeadHash(Position), clock.GetUtcNow());
    }

    /// <inheritdoc/>
    public void Dispose() => file.Dispose();
}
