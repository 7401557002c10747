using System.Collections.Immutable;
using System.Text;

namespace Aslaid.Record;

/// <summary>What is wrong with a path as written, and at which word.</summary>
/// <param name="Start">Place of the word in the text, from 0.</param>
/// <param name="Length">Letters of the word.</param>
/// <param name="Message">What is wrong and what to do.</param>
public sealed record PathWordFault(int Start, int Length, string Message)
{
    /// <summary>The text with the wrong word underlined, and the message below it.</summary>
    public string Pointed(string text) => $"{text}\n{new string(' ', Start)}{new string('^', Math.Max(1, Length))}\n{Message}";
}

/// <summary>
/// How a person writes a run: <c>101 ~102 103 104</c> is an arc from 101 through 102 to 103 and a straight to 104. <c>~</c>
/// marks a through-shot; several in a row make a best-fit arc; <c>101 ~102 ~103 101</c> is a full circle.
/// </summary>
public static class PathNotation
{
    /// <summary>Reads a path. A space after <c>~</c> is forgiven; words are parted by spaces, commas or line ends.</summary>
    /// <param name="find">Finds a shot by name: its key, or null and the problem in a few words.</param>
    public static bool TryParse(
        string text, Func<string, (ShotKey? Key, string? Problem)> find, out ImmutableArray<PathStep> steps, out PathWordFault? fault)
    {
        var read = ImmutableArray.CreateBuilder<PathStep>();
        (steps, fault) = ([], null);
        var words = Words(text);
        foreach (var (start, word) in words)
        {
            var through = word.StartsWith('~');
            var name = through ? word[1..].TrimStart() : word;
            if (name.Length == 0)
            {
                fault = new(start, word.Length, "A shot must follow the ~.");
                return false;
            }

            if (name.StartsWith('~'))
            {
                fault = new(start, word.Length, "One ~ marks a through-shot; there are two.");
                return false;
            }

            if (through && read.Count == 0)
            {
                fault = new(start, word.Length, $"A path cannot begin on an arc: write the shot before {name} first.");
                return false;
            }

            var (key, problem) = find(name);
            if (key is not { } shot)
            {
                fault = new(start, word.Length, $"Here {problem ?? "the shot is unknown"}.");
                return false;
            }

            if (read.Count > 0 && read[^1].Shot == shot)
            {
                fault = new(start, word.Length, $"{name} follows itself; leave one out.");
                return false;
            }

            read.Add(new(shot, through));
        }

        if (read.Count < 2)
        {
            fault = words.Count == 0
                ? new(0, 0, "The path is empty: write at least two shots.")
                : new(words[^1].Start, words[^1].Word.Length, "A path needs at least two shots.");
            return false;
        }

        if (read[^1].Through)
        {
            var (start, word) = words[^1];
            fault = new(start, word.Length, "A path cannot end on an arc: write the shot on which the arc ends, or leave out the ~.");
            return false;
        }

        steps = read.ToImmutable();
        return true;
    }

    /// <summary>A run in this notation, by ids.</summary>
    public static string Write(Run run)
    {
        var text = new StringBuilder();
        for (var member = 0; member < run.MemberCount; member++)
        {
            if (member > 0) text.Append(' ');
            if (run.Through[member]) text.Append('~');
            text.Append(run.Table.Shots.Raw.Id(run.Members[member]));
        }

        return text.ToString();
    }

    private static List<(int Start, string Word)> Words(string text)
    {
        var words = new List<(int, string)>();
        for (var at = 0; at < text.Length;)
        {
            if (char.IsWhiteSpace(text[at]) || text[at] == ',')
            {
                at++;
                continue;
            }

            var start = at;
            while (at < text.Length && text[at] == '~') at++;
            if (at > start) while (at < text.Length && text[at] == ' ') at++; // "~ 102"
            while (at < text.Length && !char.IsWhiteSpace(text[at]) && text[at] is not (',' or '~')) at++;
            words.Add((start, text[start..at].TrimEnd()));
        }

        return words;
    }
}
