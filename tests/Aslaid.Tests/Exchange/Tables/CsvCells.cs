using System.Text;

namespace Aslaid.Tests;

/// <summary>A small reader of RFC 4180, apart from the one under test.</summary>
internal static class CsvCells
{
    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Rows(string csv)
    {
        var lines = Lines(csv);
        return [.. lines.Skip(1).Select(cells =>
        {
            Assert.Equal(lines[0].Count, cells.Count);
            return lines[0].Zip(cells).ToDictionary(pair => pair.First, pair => pair.Second);
        })];
    }

    public static IReadOnlyList<IReadOnlyList<string>> Lines(string csv)
    {
        var (lines, line, cell, quoted) = (new List<IReadOnlyList<string>>(), new List<string>(), new StringBuilder(), false);
        for (var i = 0; i < csv.Length; i++)
        {
            var letter = csv[i];
            if (quoted && letter == '"' && i + 1 < csv.Length && csv[i + 1] == '"') cell.Append(csv[++i]);
            else if (letter == '"') quoted = !quoted;
            else if (quoted || letter is not (',' or '\n')) cell.Append(letter);
            else
            {
                line.Add(cell.ToString());
                cell.Clear();
                if (letter == ',') continue;
                lines.Add(line);
                line = [];
            }
        }

        Assert.Empty(line); // the last line ends as the others do
        return lines;
    }
}
