using System.IO;
using System.Text.RegularExpressions;

namespace Aslaid.Tests;

/// <summary>The rows of <c>docs/glossary.md</c>.</summary>
/// <param name="Terms">Words that the row explains: those in back quotes, or else the whole cell.</param>
internal sealed partial record GlossaryRow(IReadOnlyList<string> Terms, string Meaning, string Kind)
{
    public static IReadOnlyList<GlossaryRow> All { get; } =
    [
        .. from line in File.ReadLines(Repository.PathOf("docs", "glossary.md"))
           where line.StartsWith("| ", StringComparison.Ordinal) && !line.StartsWith("| ---", StringComparison.Ordinal)
           let cells = line.Trim('|').Split(" | ").Select(cell => cell.Trim(' ', '|')).ToArray()
           where cells[0] != "term"
           select Of(line, cells),
    ];

    public static HashSet<string> Known { get; } = [.. All.SelectMany(row => row.Terms)];

    private static GlossaryRow Of(string line, string[] cells)
    {
        Assert.True(cells.Length == 3, $"A row of the glossary has three cells, but this has {cells.Length}: {line}");
        var quoted = Quoted().Matches(cells[0]).Select(match => match.Groups[1].Value).ToList();
        return new(quoted.Count > 0 ? quoted : [cells[0]], cells[1], cells[2]);
    }

    [GeneratedRegex("`([^`]+)`")]
    private static partial Regex Quoted();
}
