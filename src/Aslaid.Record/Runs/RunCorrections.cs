using System.Collections.Immutable;
using System.Globalization;

namespace Aslaid.Record;

/// <summary>Journal entries that say which shots a run goes through, in the order in which they were written.</summary>
internal static class RunCorrections
{
    public static void Apply(
        List<RunMembers> runs, CurrentShots shots, Words codes, ImmutableArray<JournalEntry> inForce, RunTableBuilder builder, ICollection<string> unresolved)
    {
        if (!inForce.Any(entry => entry.What is PathSet or EndTied or RunJoined or RunSplit)) return;
        var byKey = runs.ToDictionary(run => run.Key, StringComparer.Ordinal);
        foreach (var entry in inForce)
        {
            switch (entry.What)
            {
                case PathSet set:
                    if (Members(set.Steps.Select(step => (step.Shot, step.Through))) is not { } members) break;
                    if (!byKey.TryGetValue(set.Run, out var run))
                    {
                        if (set.Code is null)
                        {
                            Say($"there is no run {set.Run}");
                            break;
                        }

                        run = new() { Key = set.Run, Label = LabelOf(set.Run), CodeWord = codes.Keep(set.Code) };
                        byKey.Add(set.Run, run);
                        runs.Add(run);
                    }

                    run.Replace(members);
                    break;
                case EndTied tied:
                    if (!byKey.TryGetValue(tied.Run, out var tie))
                    {
                        Say($"there is no run {tied.Run}");
                        break;
                    }

                    if (Members([(tied.Onto, false)]) is { } onto) Tie(tie, tied, onto[0].Shot, builder.Remeasured);
                    break;
                case RunJoined joined:
                    if (Known(joined.Run) is { } ends && Known(joined.Into) is { } goesOn && ends != goesOn)
                    {
                        RunShaping.Join(ends, goesOn, shots);
                        byKey.Remove(joined.Run); // what is said of it later finds no run
                    }

                    break;
                case RunSplit split:
                    if (Known(split.Run) is { } whole) Split(whole, split);
                    break;
            }

            RunMembers? Known(string key)
            {
                if (byKey.TryGetValue(key, out var known) && known.Shots.Count > 0) return known;
                Say($"there is no run {key}");
                return null;
            }

            void Split(RunMembers whole, RunSplit split)
            {
                var (row, key) = (shots.Raw.Find(split.At), RunShaping.KeyOfPart(split.Run, split.Label));
                var at = row < 0 ? -1 : whole.Shots.IndexOf(shots.Shot(shots.Versions.Stand(row)), 1);
                if (at < 1 || at >= whole.Shots.Count - 1) Say($"shot {split.At} is not between the ends of {split.Run}");
                else if (whole.Through[at]) Say($"shot {split.At} lies on an arc of {split.Run}, which is cut where an arc begins or ends");
                else if (byKey.ContainsKey(key)) Say($"there is a run {key} already");
                else
                {
                    builder.Cut.Add(entry.Position);
                    byKey.Add(key, RunShaping.Split(whole, at, key, split.Label));
                    runs.Insert(runs.IndexOf(whole) + 1, byKey[key]);
                }
            }

            void Say(string what) => unresolved.Add(string.Create(CultureInfo.InvariantCulture, $"Journal {entry.Position}: {what}."));

            List<(int Shot, bool Through)>? Members(IEnumerable<(ShotKey Key, bool Through)> steps)
            {
                var list = new List<(int, bool)>();
                foreach (var (key, through) in steps)
                {
                    var row = shots.Raw.Find(key);
                    if (row < 0)
                    {
                        Say($"there is no shot {key}");
                        return null;
                    }

                    if (shots.Used[shots.Shot(shots.Versions.Stand(row))]) list.Add((shots.Shot(shots.Versions.Stand(row)), through));
                }

                return list;
            }
        }
    }

    private static void Tie(RunMembers run, EndTied tied, int onto, HashSet<int> remeasured)
    {
        var members = run.Shots.Zip(run.Through).ToList();
        var atEnd = tied.End == RunEnd.End;
        if (tied.Instead && members.Count > 0)
        {
            var end = atEnd ? members.Count - 1 : 0;
            remeasured.Add(members[end].First);
            members[end] = (onto, false);
        }
        else members.Insert(atEnd ? members.Count : 0, (onto, false));
        run.Replace(members);
    }

    /// <summary>The label inside a key.</summary>
    private static string LabelOf(string key)
    {
        var label = key[(key.IndexOf('/', StringComparison.Ordinal) + 1)..];
        var at = label.LastIndexOf('@');
        return at < 0 ? label : label[..at];
    }
}
