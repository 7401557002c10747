namespace Aslaid.Record;

/// <summary>
/// Words that come again and again (codes, labels, notes), each kept once and named by its number.
/// Numbers run from 0 in order of first appearance; <see cref="None"/> stands for a missing word.
/// </summary>
public sealed class Words
{
    /// <summary>The number of no word at all.</summary>
    public const int None = -1;

    private readonly List<string> words = [];
    private readonly Dictionary<string, int> numbers = new(StringComparer.Ordinal);

    /// <summary>How many different words there are.</summary>
    public int Count => words.Count;

    /// <summary>The word of a number; null for <see cref="None"/>.</summary>
    public string? this[int number] => number == None ? null : words[number];

    /// <summary>The number of a word, given one if it is new; <see cref="None"/> for null.</summary>
    public int Keep(string? word)
    {
        if (word is null) return None;
        if (numbers.TryGetValue(word, out var number)) return number;
        number = words.Count;
        words.Add(word);
        numbers.Add(word, number);
        return number;
    }

    /// <summary>As <see cref="Keep(string?)"/>, without making a string for a word already known.</summary>
    public int Keep(ReadOnlySpan<char> word)
    {
        var lookup = numbers.GetAlternateLookup<ReadOnlySpan<char>>();
        return lookup.TryGetValue(word, out var number) ? number : Keep(word.ToString());
    }

    /// <summary>The same words under the same numbers, to be added to without touching these.</summary>
    public Words Copy()
    {
        var copy = new Words();
        foreach (var word in words) copy.Keep(word);
        return copy;
    }

    /// <summary>The number of a word, or <see cref="None"/> when it never appeared.</summary>
    public int Find(string? word) => word is not null && numbers.TryGetValue(word, out var number) ? number : None;
}
