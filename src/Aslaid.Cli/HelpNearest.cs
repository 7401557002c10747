using System.CommandLine;
using System.CommandLine.Parsing;

namespace Aslaid.Cli;

/// <summary>What a person probably meant by a verb that is none.</summary>
internal static class HelpNearest
{
    /// <summary>What to say of a verb that is none, or missing; null where the mistake is another.</summary>
    /// <param name="parsed">A line that did not parse.</param>
    public static string? Verb(ParseResult parsed)
    {
        var command = parsed.CommandResult.Command;
        var kind = command is RootCommand ? "verb" : "correction";
        var all = string.Join(", ", command.Subcommands.Select(sub => sub.Name));
        if (command.Subcommands.Count == 0) return null;
        if (parsed.UnmatchedTokens.Count == 0) return parsed.Errors.Count == 1 ? $"A {kind} is missing. There are: {all}" : null;
        var typed = parsed.UnmatchedTokens[0];
        var nearest = command.Subcommands.Select(sub => (sub.Name, Steps: Steps(typed, sub.Name))).MinBy(sub => sub.Steps);
        return nearest.Steps <= Math.Max(1, typed.Length / 2)
            ? $"There is no {kind} '{typed}'. The nearest is: {nearest.Name}"
            : $"There is no {kind} '{typed}'. There are: {all}";
    }

    /// <summary>Letters to insert, drop, change or swap with the next to make one word the other (optimal string alignment).</summary>
    private static int Steps(string a, string b)
    {
        var steps = new int[a.Length + 1, b.Length + 1];
        for (var i = 0; i <= a.Length; i++)
        {
            for (var j = 0; j <= b.Length; j++)
            {
                if (i == 0 || j == 0) steps[i, j] = i + j;
                else
                {
                    var least = Math.Min(Math.Min(steps[i - 1, j], steps[i, j - 1]) + 1, steps[i - 1, j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1));
                    if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) least = Math.Min(least, steps[i - 2, j - 2] + 1);
                    steps[i, j] = least;
                }
            }
        }

        return steps[a.Length, b.Length];
    }
}
