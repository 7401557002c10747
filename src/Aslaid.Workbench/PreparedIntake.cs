using System.Collections.Immutable;
using System.Security.Cryptography;
using Aslaid.Exchange;
using Aslaid.Geometry;
using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>How an intake ended.</summary>
/// <param name="Path">The file.</param>
/// <param name="Batch">The batch taken; null where nothing was.</param>
/// <param name="Shots">Its shots: rows that use a shot again left out.</param>
/// <param name="Already">The earlier intake of the same file, where that is why nothing was taken.</param>
/// <param name="Rejected">Rows that could not be read; where there is one, nothing was taken.</param>
/// <param name="RejectedCount">How many there are; the list holds the first.</param>
/// <param name="Remarks">What a person should know.</param>
public sealed record TakeOutcome(
    string Path, BatchTaken? Batch, int Shots, JournalEntry? Already, ImmutableArray<Rejection> Rejected, int RejectedCount, ImmutableArray<string> Remarks);

/// <summary>A file of shots read and hashed, before anything is written.</summary>
/// <param name="Taken">What the journal will say of it; null where it is refused or known already.</param>
/// <param name="Intake">What the reader said; null where the file is known already.</param>
/// <param name="After">The shots behind it: with the new batch, or as before.</param>
internal sealed record PreparedIntake(string Path, byte[] Bytes, string Sha256, BatchTaken? Taken, ShotIntake? Intake, ShotTable After)
{
    public bool IsRefused => Intake is { RejectedCount: > 0 };

    /// <param name="known">Intakes in force by the hash of their file.</param>
    public static PreparedIntake Read(
        string path, IntakeOptions options, ShotTable before, Dictionary<string, JournalEntry> known, IWorkers workers, IProgress<long>? progress)
    {
        var bytes = NamedFile.Read(path);
        var name = System.IO.Path.GetFileName(path);
        var sha256 = Convert.ToHexStringLower(SHA256.HashData(bytes));
        if (known.ContainsKey(sha256)) return new(path, bytes, sha256, null, null, before);

        var reader = ReaderCatalogue.For(bytes, name);
        var intake = reader.Read(bytes, options with { FileName = name }, before, progress);
        if (intake.Shots is not { } table) return new(path, bytes, sha256, null, intake, before);

        var batch = table.Batches[^1]; // the reader hands over a table that ends with the new batch
        var taken = new BatchTaken(batch.Number, name, sha256, ShotHash.OfBatch(table, batch, workers), batch.Count, options.Crew, options.Declared);
        return new(path, bytes, sha256, taken, Far(before, table, batch) is { } far ? intake with { Remarks = intake.Remarks.Add(far) } : intake, table);
    }

    /// <summary>A word of warning where a file lies away from all that was taken before; null where it does not.</summary>
    private static string? Far(ShotTable before, ShotTable after, Batch batch)
    {
        const double farOff = 5000; // metres (DEFAULT): no site is that wide without a shot between
        var (there, here) = (BoxOf(before, 0, before.Count), BoxOf(after, batch.FirstRow, batch.Count));
        if (there.IsEmpty || here.IsEmpty) return null;
        var (east, north) = (Gap(there.MinEast, there.MaxEast, here.MinEast, here.MaxEast), Gap(there.MinNorth, there.MaxNorth, here.MinNorth, here.MaxNorth));
        var distance = double.Hypot(east, north);
        return distance < farOff ? null : FormattableString.Invariant(
            $"all its shots lie {distance / 1000:0.0} km or more from those taken before. Is it another site's file, another grid, or are east and north exchanged? If so, withdraw its entry.");
    }

    private static double Gap(double fromA, double toA, double fromB, double toB) => Math.Max(0, Math.Max(fromB - toA, fromA - toB));

    private static Box2 BoxOf(ShotTable shots, int first, int count)
    {
        var box = Box2.Empty;
        for (var row = first; row < first + count; row++)
            if (shots.Again[row] < 0) box = box.Union(Box2.Of(shots[row].At, shots[row].At));
        return box;
    }

    public TakeOutcome Outcome(Dictionary<string, JournalEntry> known)
    {
        if (Intake is null) return new(Path, null, 0, known[Sha256], [], 0, []);
        if (Taken is null) return new(Path, null, 0, null, Intake.Rejected, Intake.RejectedCount, Intake.Remarks);
        var batch = After.Batches[^1];
        return new(Path, Taken, After.Again.Slice(batch.FirstRow, batch.Count).Count(-1), null, [], 0, Intake.Remarks);
    }
}
