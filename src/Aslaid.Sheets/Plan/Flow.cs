using Aslaid.Record;

namespace Aslaid.Sheets;

/// <summary>Which way water runs in a run.</summary>
internal static class Flow
{
    /// <summary>1 along, −1 against, 0 unknown: as the journal says, else downhill where the invert was shot at both ends.</summary>
    public static int Of(Run run)
    {
        switch (run.Table.AttributesOf(run.Number).GetValueOrDefault("flow"))
        {
            case "along": return 1;
            case "against": return -1;
            case "unknown": return 0;
        }

        if (run.Entry?.MeasuredAt != "invert" || run.MemberCount < 2) return 0;
        var shots = run.Table.Shots;
        if (shots.HeightOf(run.Members[0]) is not { } first || shots.HeightOf(run.Members[^1]) is not { } last) return 0;
        return Math.Sign(first - last);
    }
}
