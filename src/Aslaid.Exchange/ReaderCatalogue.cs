using System.Collections.Immutable;

namespace Aslaid.Exchange;

/// <summary>Every reader of shots there is, in the order in which they are asked.</summary>
public static class ReaderCatalogue
{
    /// <summary>The readers.</summary>
    public static ImmutableArray<IShotReader> Shots { get; } =
    [
        new ShotsCsvReader(),
    ];

    /// <summary>The first reader that recognises a file; for a file of no known kind the first of all, whose rejections say what is wanted.</summary>
    public static IShotReader For(ReadOnlySpan<byte> file, string fileName)
    {
        foreach (var reader in Shots)
            if (reader.Recognises(file, fileName))
                return reader;
        return Shots[0];
    }
}
