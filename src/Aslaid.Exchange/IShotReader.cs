using System.Collections.Immutable;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>What a person says about a file as it is taken in.</summary>
/// <param name="FileName">Name of the file, without its folder.</param>
/// <param name="Crew">Crew of the shots that name none themselves; ids belong to a crew.</param>
/// <param name="Declared">Accuracy of the shots that carry none.</param>
public sealed record IntakeOptions(string FileName, string? Crew, DeclaredAccuracy Declared)
{
    /// <summary>Numbers of earlier batches that were withdrawn: as if never taken, their rows may come again and cannot be used again.</summary>
    public ImmutableHashSet<int> Withdrawn { get; init; } = [];
}

/// <summary>The outcome of reading one file of shots: it goes in whole or not at all.</summary>
/// <param name="Shots">The earlier shots and behind them the new batch; null when anything was rejected, and when every row was taken before.</param>
/// <param name="Rejected">The first hundred rejections, in the order of the file.</param>
/// <param name="RejectedCount">How many there are in all.</param>
/// <param name="Remarks">What a person should know about a file although nothing is wrong with it, a sentence each.</param>
public sealed record ShotIntake(
    ShotTable? Shots, ImmutableArray<Rejection> Rejected, int RejectedCount, ImmutableArray<string> Remarks);

/// <summary>Reads shots from one kind of file. Bad data is rejected in the outcome, never thrown.</summary>
public interface IShotReader
{
    /// <summary>What people call this kind of file.</summary>
    string Name { get; }

    /// <summary>Whether the file looks like this kind; looks at its beginning only.</summary>
    bool Recognises(ReadOnlySpan<byte> file, string fileName);

    /// <summary>Reads the whole file.</summary>
    /// <param name="before">The shots taken in earlier; not changed.</param>
    /// <param name="progress">Told now and then how many bytes of the file are read.</param>
    ShotIntake Read(ReadOnlyMemory<byte> file, IntakeOptions options, ShotTable before, IProgress<long>? progress = null);
}
