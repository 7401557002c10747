using System.Collections.Immutable;
using System.Globalization;

namespace Aslaid.Exchange;

/// <summary>One thing for which a file is refused, and where it stands.</summary>
/// <param name="Line">Line of the file, the first being 1; 0 for the file as a whole.</param>
/// <param name="Column">Name of the column; null for the whole line.</param>
/// <param name="Found">What stands there, shortened; null where that tells nothing.</param>
/// <param name="Expected">What is wrong with it, what was expected and what to do: the sentence that goes on from what was found.</param>
public sealed record Rejection(int Line, string? Column, string? Found, string Expected)
{
    /// <summary>The whole sentence, as <c>shots.csv line 214, height: '5,2x' is not a number; a number of metres such as 5.213 was expected.</c></summary>
    public string Message(string file)
    {
        var line = Line > 0 ? string.Create(CultureInfo.InvariantCulture, $" line {Line}") : "";
        var column = Column is null ? "" : Line > 0 ? $", {Column}" : $", column {Column}";
        var found = Found is null ? "" : $"'{Found}' ";
        return $"{file}{line}{column}: {found}{Expected}.";
    }
}

/// <summary>Gathers rejections: counts all, keeps the first hundred.</summary>
internal sealed class Rejections
{
    public const int Kept = 100;
    private readonly ImmutableArray<Rejection>.Builder kept = ImmutableArray.CreateBuilder<Rejection>();

    public int Count { get; private set; }

    /// <summary>Whether a further one is only counted: then its words need not be made.</summary>
    public bool Full => Count >= Kept;

    public ImmutableArray<Rejection> First => kept.ToImmutable();

    public void Add(int line, string? column, ReadOnlySpan<byte> found, string expected)
    {
        if (Full) Count++;
        else Add(line, column, CellText.Shown(found), expected);
    }

    public void Add(int line, string? column, string? found, string expected)
    {
        if (Count++ < Kept) kept.Add(new(line, column, found, expected));
    }
}
