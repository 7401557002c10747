using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace Aslaid.Record;

/// <summary>Lets every check look, names the findings, and says which are accepted.</summary>
internal static class Examination
{
    /// <summary>Evidence may move by this much (the check's unit) before an acceptance lapses: a value within 1 µm of a limit equals it.</summary>
    private const double Same = 1e-6;

    public static FindingTable Examine(
        Site site, ImmutableArray<ICheck> checks, ImmutableArray<JournalEntry> inForce, IWorkers workers)
    {
        site.Prepare(workers);
        var found = new Findings[checks.Length];
        workers.Do(checks.Length, check =>
        {
            found[check] = new();
            checks[check].Look(site, found[check]);
        });
        var table = new FindingTable(site.Runs, checks, found);
        LetGo(table);
        Name(table, site);
        Accept(table, inForce);
        Folding.Fold(table, site);
        return table;
    }

    /// <summary>What no longer lies there stops nothing: of a run that was removed or superseded a stop is a look.</summary>
    private static void LetGo(FindingTable table)
    {
        for (var number = 0; number < table.Count; number++)
            if (table.Severities[number] == Severity.Stop && table[number].Run is { Facts.Status: RunStatus.Removed or RunStatus.Superseded }) table.Severities[number] = Severity.Look;
    }

    /// <summary>An id is the hash of check, run and shot keys: it stays while those do, whatever happens elsewhere.</summary>
    private static void Name(FindingTable table, Site site)
    {
        var taken = new Dictionary<string, int>(StringComparer.Ordinal);
        var text = new StringBuilder();
        for (var number = 0; number < table.Count; number++)
        {
            var finding = table[number];
            text.Clear().Append(finding.Check.Name).Append('\n').Append(finding.Run?.Key);
            foreach (var shot in finding.Shots) text.Append('\n').Append(site.Shots.Raw.Key(shot).ToString());
            var id = "F-" + Letters(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())));
            var times = taken[id] = taken.GetValueOrDefault(id) + 1;
            table.Ids[number] = times == 1 ? id : string.Create(CultureInfo.InvariantCulture, $"{id}-{times}");
        }
    }

    /// <summary>Seven letters and figures that are not mistaken for one another: 32⁷, so that some ten thousand findings rarely meet.</summary>
    private static string Letters(byte[] hash)
    {
        const string alphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
        var bits = BitConverter.ToUInt64(hash);
        return string.Create(7, bits, static (span, from) =>
        {
            foreach (ref var letter in span)
            {
                letter = alphabet[(int)(from & 31)];
                from >>= 5;
            }
        });
    }

    private static void Accept(FindingTable table, ImmutableArray<JournalEntry> inForce)
    {
        var accepted = new Dictionary<string, (FindingAccepted What, int Position)>(StringComparer.Ordinal);
        foreach (var entry in inForce)
            if (entry.What is FindingAccepted what) accepted[what.Finding] = (what, entry.Position);
        if (accepted.Count == 0) return;
        for (var number = 0; number < table.Count; number++)
        {
            if (!accepted.TryGetValue(table.Ids[number], out var acceptance) || acceptance.What.Check != table[number].Check.Name) continue;
            table.AcceptedAt[number] = acceptance.Position;
            table.States[number] = Worsened(table[number], acceptance.What) ? FindingState.Lapsed : FindingState.Accepted;
        }
    }

    /// <summary>Worse is graver, or farther over the limit: whether the value moved or the limit was drawn tighter.</summary>
    private static bool Worsened(Finding now, FindingAccepted then)
    {
        if (now.Severity > then.Severity) return true;
        if (now.Measured is not { } measured || then.Measured is not { } before) return now.Measured.HasValue != then.Measured.HasValue;
        if (now.Allowed is not { } allowed || then.Allowed is not { } limit) return Math.Abs(measured - before) > Same || now.Allowed.HasValue != then.Allowed.HasValue;
        return Math.Sign(measured - allowed) != Math.Sign(before - limit) || Math.Abs(measured - allowed) > Math.Abs(before - limit) + Same;
    }
}
