using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>What a thing on the ground is to the works. Only what is new counts in quantities.</summary>
public enum RunStatus : byte
{
    /// <summary>Built by these works.</summary>
    New,

    /// <summary>There before, in use.</summary>
    Existing,

    /// <summary>There, out of use.</summary>
    Abandoned,

    /// <summary>Taken out.</summary>
    Removed,

    /// <summary>Its record was taken over by another.</summary>
    Superseded,
}

/// <summary>Where a run flows, apart from the order in which it was shot.</summary>
public enum FlowSense
{
    /// <summary>Against the order of its shots.</summary>
    Against = -1,

    /// <summary>Nobody said.</summary>
    Unknown = 0,

    /// <summary>Along the order of its shots.</summary>
    Along = 1,
}

/// <summary>What was declared of a run, by the journal or by columns of its shots; the journal prevails.</summary>
/// <param name="Start">What its start is meant to be: one of <see cref="Ends"/>; null where nothing was said.</param>
/// <param name="End">The same of its end.</param>
public readonly record struct RunFacts(RunStatus Status, FlowSense Flow, string? Start, string? End)
{
    /// <summary>Words of the attribute <c>status</c>, in the order of <see cref="RunStatus"/>.</summary>
    public static ImmutableArray<string> Statuses { get; } = ["new", "existing", "abandoned", "removed", "superseded"];

    /// <summary>Words of the attribute <c>flow</c>.</summary>
    public static ImmutableArray<string> Flows { get; } = ["along", "against", "unknown"];

    /// <summary>Words of the attributes <c>start</c> and <c>end</c>: an end of which one is said is meant to lie free.</summary>
    public static ImmutableArray<string> Ends { get; } = ["continues", "cap", "stub", "limit of works"];

    /// <summary>The words that an attribute takes; empty for any other attribute.</summary>
    public static ImmutableArray<string> WordsOf(string attribute) => attribute switch
    {
        "status" => Statuses, "flow" => Flows, "start" or "end" => Ends, _ => [],
    };

    /// <summary>The attributes that take given words only.</summary>
    public static ImmutableArray<string> Closed { get; } = ["status", "flow", "start", "end"];

    /// <summary><c>along</c>, <c>against</c> or <c>unknown</c>.</summary>
    public string FlowWord => Flow switch { FlowSense.Along => "along", FlowSense.Against => "against", _ => "unknown" };

    /// <summary><c>new</c>, <c>existing</c>, <c>abandoned</c>, <c>removed</c> or <c>superseded</c>.</summary>
    public string StatusWord => Statuses[(int)Status];

    internal static void Fill(RunTable runs)
    {
        var (status, flow, start, end) = (Values("status"), Values("flow"), Values("start"), Values("end"));
        var names = (AttributeValues[])[status, flow, start, end];
        if (!runs.HasAttributes && !Array.Exists(names, values => values.HasColumn)) return;
        var said = new List<string>();
        for (var run = 0; run < runs.Count; run++)
        {
            runs.Facts[run] = new(
                (RunStatus)Math.Max(0, Statuses.IndexOf(Said(status, run, Statuses, last: false) ?? "")),
                Said(flow, run, Flows, last: false) switch { "along" => FlowSense.Along, "against" => FlowSense.Against, _ => FlowSense.Unknown },
                Said(start, run, Ends, last: false), Said(end, run, Ends, last: true));
        }

        AttributeValues Values(string name) => new(runs.Shots, name);

        string? Said(AttributeValues values, int run, ImmutableArray<string> words, bool last)
        {
            said.Clear();
            values.AddOf(runs[run], said);
            return last ? said.FindLast(words.Contains) : said.Find(words.Contains);
        }
    }

    /// <summary>Whether a point by itself is new, as far as its column <c>status</c> says.</summary>
    internal static bool IsNew(in AttributeValues status, int row) => !status.HasColumn || status.Of(row) is not { } word || Statuses.IndexOf(word) <= 0;
}
