using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>What a surface of a design is.</summary>
public enum SurfaceKind : byte
{
    /// <summary>As it is to be when the work is done; exact by definition.</summary>
    Designed,

    /// <summary>As it was built and measured.</summary>
    AsBuilt,

    /// <summary>As it was before the work.</summary>
    Existing,

    /// <summary>As it is while the work goes on; never what cover is judged by.</summary>
    Temporary,
}

/// <summary>A design file that was adopted.</summary>
/// <param name="What">The entry.</param>
/// <param name="Entry">Its journal position.</param>
/// <param name="Holds">Whether no later file of its name was adopted: then it is the revision that counts.</param>
public sealed record AdoptedDesign(DesignAdopted What, int Entry, bool Holds, DesignFile File);

/// <summary>What a word of a design means.</summary>
/// <param name="Code">Code of the code book.</param>
/// <param name="Level">Level of the thing that the design's heights are: top, centre, invert, soffit or underside; null for that at which the code is measured.</param>
/// <param name="Status">Whether it is new or existing; null where the file itself says, or nothing does.</param>
public sealed record DesignWord(string Word, string Code, string? Level, RunStatus? Status);

/// <summary>Names, layers and properties of design files by the codes they stand for.</summary>
public sealed class DesignMap
{
    private readonly Dictionary<string, DesignWord> words = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>A map of these words, each once.</summary>
    public DesignMap(ImmutableArray<DesignWord> words)
    {
        Words = words;
        foreach (var word in words) this.words.TryAdd(word.Word, word);
    }

    /// <summary>No words: a design names codes itself.</summary>
    public static DesignMap Empty { get; } = new([]);

    /// <summary>The words, in the map's order.</summary>
    public ImmutableArray<DesignWord> Words { get; }

    /// <summary>What a word means, whatever its capitals; null where the map does not have it.</summary>
    public DesignWord? Find(string word) => words.GetValueOrDefault(word);
}
