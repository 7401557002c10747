using System.CommandLine;
using System.Globalization;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

/// <summary>Arguments, options and steps that verbs share.</summary>
internal static class VerbParts
{
    public static Argument<string> Project() => new("PROJECT") { Description = "The project, a .gpkg file." };

    public static Option<bool> Json() => new("--json") { Description = "Print JSON with stable names, for programs." };

    public static Option<int?> At() => new("--at") { Description = "Journal position at which to look; the end where left out.", HelpName = "POSITION" };

    public static Option<string?> By(bool required = false) =>
        new("--by") { Description = "Who does it: name as typed into the journal.", HelpName = "NAME", Required = required };

    public static Option<string> Why(bool required = true) => new("--why") { Description = "The reason, for the journal.", HelpName = "TEXT", Required = required };

    /// <summary>A number in metres: a decimal point and nothing to part thousands, so that 12,5 is never taken for 125.</summary>
    public static Option<double?> Metres(string name, string description, bool required = false) => new(name)
    {
        Description = description,
        HelpName = "M",
        Required = required,
        CustomParser = result =>
        {
            var text = result.Tokens[^1].Value;
            if (double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var metres)) return metres;
            result.AddError(text.Contains(',', StringComparison.Ordinal)
                ? $"{name}: '{text}' has a comma; write metres with a decimal point, as {text.Replace(',', '.')}."
                : $"{name}: '{text}' is not a number of metres, as 12.5.");
            return null;
        },
    };

    /// <summary>The name given, or the one that the system knows the user by.</summary>
    public static Actor ActorOf(string? by) => Actor.Typed(string.IsNullOrWhiteSpace(by) ? Environment.UserName : PlainText.Demand("--by", by.Trim()));

    /// <summary>The run that a person means by a label, a label and its crew (<c>WM-1@North</c>), or a key.</summary>
    public static Run RunOf(AsBuiltRecord record, string name)
    {
        if (record.Runs.Find(name) is { } exact) return exact;
        var found = new List<Run>();
        for (var number = 0; number < record.Runs.Count; number++)
            if (record.Runs[number].Label == name || record.Runs[number].Key.EndsWith("/" + name, StringComparison.Ordinal)) found.Add(record.Runs[number]);
        return found.Count switch
        {
            1 => found[0],
            0 => throw new ProjectException($"There is no run {name}. List them with: aslaid show PROJECT runs"),
            _ => throw new ProjectException($"{found.Count} runs are called {name}: write one of {string.Join(", ", found.Take(6).Select(run => run.Key))}"),
        };
    }

    /// <summary>Shots as a person names them: ids, keys, and <c>first..last</c> for all rows between two shots of one file.</summary>
    public static List<ShotKey> ShotsOf(AsBuiltRecord record, IEnumerable<string> names, string? crew)
    {
        var lookup = new ShotLookup(record.Shots.Raw, record.Shots.Versions);
        var keys = new List<ShotKey>();
        foreach (var name in names)
        {
            var dots = name.IndexOf("..", StringComparison.Ordinal);
            if (dots < 0)
            {
                keys.Add(One(name));
                continue;
            }

            var (first, last) = (One(name[..dots]), One(name[(dots + 2)..]));
            if (first.Batch != last.Batch || last < first)
                throw new ProjectException($"{name}: a range goes forward within one file, but {first} and {last} (batch:line) do not.");
            var raw = record.Shots.Raw;
            for (var row = raw.Find(first); row <= raw.Find(last); row++)
                if (raw.Again[row] < 0) keys.Add(raw.Key(row));
        }

        return keys;

        ShotKey One(string name) => lookup.Find(name, crew, out var problem) ?? throw new ProjectException($"{name}: {problem}.");
    }

    /// <summary>A chainage as typed; null for none.</summary>
    public static string Range(double from, double to) => string.Create(CultureInfo.InvariantCulture, $"{from:0.00} to {to:0.00} m");
}
