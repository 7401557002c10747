using System.Collections.Immutable;
using System.Diagnostics;

namespace Aslaid.Record;

/// <summary>
/// The journal folded over the raw shots. Later entries prevail; withdrawn ones are as if never written, and a withdrawal may
/// itself be withdrawn.
/// </summary>
public static class Replay
{
    /// <summary>Entries that are in force, in order.</summary>
    public static ImmutableArray<JournalEntry> InForce(ImmutableArray<JournalEntry> journal)
    {
        var withdrawn = new HashSet<int>();
        for (var i = journal.Length - 1; i >= 0; i--) // last first: a withdrawal may itself be withdrawn
            if (journal[i].What is Withdrawn w && !withdrawn.Contains(journal[i].Position)) withdrawn.Add(w.Position);
        return withdrawn.Count == 0 ? journal : [.. journal.Where(entry => !withdrawn.Contains(entry.Position))];
    }

    /// <summary>Shots as the entries in force leave them.</summary>
    /// <param name="journal">All entries: the shots of a withdrawn intake do not count.</param>
    /// <param name="inForce">Those in force.</param>
    /// <param name="settings">How long a pause may be within a session.</param>
    /// <param name="unresolved">Gets a line for each entry that names a shot that is not there.</param>
    public static CurrentShots Apply(
        ShotTable raw, ImmutableArray<JournalEntry> journal, ImmutableArray<JournalEntry> inForce, CodeBook book, Settings settings, ICollection<string> unresolved)
    {
        var (codes, labels) = (raw.Codes, raw.Labels);
        var (code, label) = (raw.Code.ToArray(), raw.Label.ToArray());
        var heights = raw.Height.ToArray();
        var used = new bool[raw.Count];
        var gone = new bool[raw.Count];
        var because = new Dictionary<int, List<int>>();
        foreach (var taken in journal.Except(inForce).Select(entry => entry.What).OfType<BatchTaken>())
            if (raw.Batches[taken.Batch - 1] is var withdrawn) gone.AsSpan(withdrawn.FirstRow, withdrawn.Count).Fill(true);
        for (var row = 0; row < gone.Length; row++) used[row] = !gone[row];

        var versions = ShotVersions.Of(raw, used);
        foreach (var version in versions.All) used[version.Later] = false; // until somebody adopts it

        var again = new Dictionary<int, List<int>>();
        for (var row = 0; row < raw.Count; row++)
        {
            if (raw.Again[row] < 0) continue;
            if (code[row] == Words.None) code[row] = code[raw.Origin(row)]; // a shot used again under its own code
            if (!again.TryGetValue(raw.Again[row], out var uses)) again.Add(raw.Again[row], uses = []);
            uses.Add(row);
        }

        var own = new OwnWords(raw);
        foreach (var entry in inForce)
        {
            switch (entry.What)
            {
                case Recoded r:
                    var (newCode, newLabel) = (own.Code(r.Code), r.Run is null ? Words.None : own.Label(r.Run));
                    foreach (var named in Rows(entry, r.Shots))
                    {
                        var row = versions.Stand(named);
                        foreach (var use in again.GetValueOrDefault(row) ?? []) // the same thing used again, as where a ring closes
                            if (code[use] == code[row] && label[use] == label[row]) Recode(use);
                        Recode(row);
                    }

                    void Recode(int row)
                    {
                        code[row] = newCode;
                        if (r.Run is not null) label[row] = r.Run.Length == 0 ? Words.None : newLabel;
                    }

                    break;
                case ValuesDecided v:
                    foreach (var row in Rows(entry, v.Shots))
                        if (!versions.Decide(row, v.Adopt, used, code, label)) Say(entry, $"shot {raw.Key(row)} brings no other values of an earlier shot");
                    break;
                case SetAside s:
                    foreach (var row in Rows(entry, s.Shots)) used[versions.Stand(row)] = false;
                    break;
                case Restored s:
                    foreach (var row in Rows(entry, s.Shots)) used[versions.Stand(row)] = true;
                    break;
                case PoleHeightCorrected p:
                    foreach (var row in Rows(entry, p.Shots).Select(raw.Origin).Distinct()) heights[row] += p.Entered - p.True;
                    break;
                case PathSet { Code: { } newRun }:
                    own.Code(newRun); // the run that it makes finds its code among our own words
                    break;
                case ProjectMade or BatchTaken or Adopted or DesignAdopted or DesignBuilt or RulesAdopted or PathSet or EndTied or AttributeSet or FindingAccepted
                    or LengthReleased or LengthCovered or RunJoined or LabelDecided or RunSplit or PointConstructed or ConnectionSet
                    or NodeTied or HoleDecided or RelationSet or RoleGiven or ClaimMade or Withdrawn:
                    break; // nothing to do with single shots
                default:
                    throw new UnreachableException($"Replay has no step for {entry.What.GetType().Name} at {entry.Position}.");
            }
        }

        for (var row = 0; row < raw.Count; row++)
            if (raw.Again[row] >= 0 && !used[versions.Stand(versions.Root(raw.Again[row]))]) used[row] = false; // a shot set aside is set aside wherever it is used

        foreach (var (first, later) in versions.All)
        {
            if (!again.TryGetValue(later, out var uses) || !again.TryGetValue(first, out var known)) continue;
            foreach (var use in uses) // the file that brought other values says again how the shot is used
                if (known.Exists(before => code[before] == code[use] && label[before] == label[use] && raw.Leg[before] == raw.Leg[use])) used[use] = false;
        }

        foreach (var (origin, uses) in again)
            foreach (var use in uses) heights[use] = heights[versions.Stand(versions.Root(origin))];
        (codes, labels) = (own.Codes, own.Labels);
        var session = SessionsOf.Rows(raw, settings.SessionGapMinutes, out var sessions);
        foreach (var (first, later) in versions.All) session[later] = session[first]; // put right at a desk, taken where it was taken
        return new(raw, book, codes, code, labels, label, Places(book, codes, code), used, heights, session, sessions, because) { Versions = versions };

        IEnumerable<int> Rows(JournalEntry entry, ImmutableArray<ShotKey> keys)
        {
            foreach (var key in keys)
            {
                var row = raw.Find(key);
                if (row < 0 || gone[row])
                {
                    Say(entry, row < 0 ? $"there is no shot {key}" : $"the intake of shot {key} is withdrawn");
                    continue;
                }

                if (!because.TryGetValue(row, out var positions)) because[row] = positions = [];
                positions.Add(entry.Position);
                yield return row;
            }
        }

        void Say(JournalEntry entry, string what) => unresolved.Add(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"Journal {entry.Position}: {what}."));
    }

    private static int[] Places(CodeBook book, Words codes, int[] code)
    {
        var ofWord = new int[codes.Count];
        for (var word = 0; word < ofWord.Length; word++) ofWord[word] = book.Find(codes[word]);
        var places = new int[code.Length];
        for (var row = 0; row < code.Length; row++) places[row] = code[row] < 0 ? -1 : ofWord[code[row]];
        return places;
    }

    /// <summary>The raw table's words, and after them those that entries bring; the raw table itself stays as it is.</summary>
    private sealed class OwnWords(ShotTable raw)
    {
        public Words Codes { get; private set; } = raw.Codes;

        public Words Labels { get; private set; } = raw.Labels;

        public int Code(string word)
        {
            if (Codes.Find(word) is >= 0 and var known) return known;
            if (ReferenceEquals(Codes, raw.Codes)) Codes = raw.Codes.Copy();
            return Codes.Keep(word);
        }

        public int Label(string word)
        {
            if (Labels.Find(word) is >= 0 and var known) return known;
            if (ReferenceEquals(Labels, raw.Labels)) Labels = raw.Labels.Copy();
            return Labels.Keep(word);
        }
    }
}
