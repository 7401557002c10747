using System.Collections.Immutable;
using System.Globalization;
using System.Runtime.InteropServices;

namespace Aslaid.Record;

/// <summary>What people decided about labels that came again in a later batch.</summary>
internal static class LabelDecisions
{
    /// <summary>An end of the later shots this near to an end of the run, beyond its own distance off the run, is that end, metres (DEFAULT).</summary>
    private const double NearEnd = 0.3;

    /// <summary>Members this near to where the later shots begin or end are measured anew by them, metres (DEFAULT).</summary>
    private const double NearTie = 0.1;

    /// <summary>Acts on the members of the runs; what leaves them comes back as former runs.</summary>
    public static List<FormerMembers> Apply(List<RunMembers> runs, CurrentShots shots, ImmutableArray<JournalEntry> inForce, ICollection<string> unresolved)
    {
        var former = new List<FormerMembers>();
        var decided = inForce.Where(entry => entry.What is LabelDecided).ToLookup(entry => ((LabelDecided)entry.What).Run, StringComparer.Ordinal);
        if (decided.Count == 0) return former;
        var byKey = runs.ToDictionary(run => run.Key, StringComparer.Ordinal);
        foreach (var ofRun in decided)
        {
            if (!byKey.TryGetValue(ofRun.Key, out var run))
            {
                foreach (var entry in ofRun) Say(entry, $"there is no run {ofRun.Key}");
                continue;
            }

            Decide(run, [.. ofRun]);
        }

        return former;

        void Decide(RunMembers run, JournalEntry[] entries)
        {
            var all = run.Shots.Zip(run.Through).ToList();
            var stretches = BatchStretches.Of(shots, CollectionsMarshal.AsSpan(run.Shots));
            var last = new Dictionary<int, JournalEntry>();
            foreach (var entry in entries) last[((LabelDecided)entry.What).Batch] = entry;
            foreach (var (batch, entry) in last)
            {
                if (stretches[0].Batch == batch) Say(entry, $"{run.Key} has no shots before batch {batch}");
                else if (stretches.TrueForAll(stretch => stretch.Batch != batch)) Say(entry, $"batch {batch} has no shots of {run.Key}");
            }

            var stands = new List<(int Shot, bool Through)>();
            foreach (var (batch, first, end) in stretches)
            {
                var later = all[first..end];
                if (first == 0 || !last.TryGetValue(batch, out var entry))
                {
                    stands.AddRange(later);
                    continue;
                }

                var what = ((LabelDecided)entry.What).As;
                var goesOn = new List<(int Shot, bool Through)>();
                var at = 0;
                foreach (var (from, to) in what == LabelAgain.Continues ? [] : Blocks(run, stands, all, first, end))
                {
                    goesOn.AddRange(later[at..from]);
                    at = to;
                    if (what == LabelAgain.Checks)
                    {
                        Leaves(run, later[from..to], FormerAs.Check, batch, entry.Position);
                        continue;
                    }

                    var (joined, left) = InPlaceOf(stands, later[from..to], shots);
                    stands = joined;
                    Leaves(run, left, what == LabelAgain.Replaces ? FormerAs.Removed : FormerAs.Superseded, batch, entry.Position);
                }

                stands.AddRange(goesOn);
                stands.AddRange(later[at..]);
            }

            run.Replace(stands);
        }

        // What lies along the run; where nothing does by itself, a person's word holds for all that the batch brought.
        List<(int First, int End)> Blocks(RunMembers run, List<(int Shot, bool Through)> stands, List<(int Shot, bool Through)> all, int first, int end)
        {
            var line = new ShotLine(stands, shots);
            var (along, legs) = (new bool[end - first], new double[end - first + 1]);
            for (var member = first; member <= end; member++)
            {
                legs[member - first] = member == all.Count ? 0 : shots.At(all[member - 1].Shot).DistanceTo(shots.At(all[member].Shot));
                if (member < end) along[member - first] = line.IsBeside(all[member].Shot, AgainBlocks.Reach);
            }

            var spacing = shots.Book.Entries is var entries && shots.PlaceColumn[all[first].Shot] is >= 0 and var place ? entries[place].SpacingMax ?? 0 : 0;
            return AgainBlocks.Of(along, legs, spacing) is { Count: > 0 } blocks ? blocks : [(0, end - first)];
        }

        void Leaves(RunMembers run, List<(int Shot, bool Through)> members, FormerAs how, int batch, int entry)
        {
            if (members.Count == 0) return;
            var name = string.Create(CultureInfo.InvariantCulture, $"~{batch}");
            for (var again = 2; former.Exists(other => other.Members.Key == run.Key + name); again++) name = string.Create(CultureInfo.InvariantCulture, $"~{batch}.{again}");
            var gone = new RunMembers { Key = run.Key + name, Label = run.Label + name, CodeWord = run.CodeWord };
            gone.Replace(members);
            former.Add(new(gone, run.Key, how, batch, entry));
        }

        void Say(JournalEntry entry, string what) => unresolved.Add(string.Create(CultureInfo.InvariantCulture, $"Journal {entry.Position}: {what}."));
    }

    /// <summary>
    /// The later shots take the place of the stretch that they run along; before and after it the run stays. They may have been
    /// shot the other way.
    /// </summary>
    private static (List<(int Shot, bool Through)> Joined, List<(int Shot, bool Through)> Left) InPlaceOf(
        List<(int Shot, bool Through)> stands, List<(int Shot, bool Through)> later, CurrentShots shots)
    {
        if (stands.Count < 2) return (later, stands);
        var line = new ShotLine(stands, shots);
        var (first, last) = (line.Locate(later[0].Shot), line.Locate(later[^1].Shot));
        var turned = later.Count > 1 && first.Along > last.Along;
        if (turned) (first, last) = (last, first);
        var from = first.Along - first.Distance - NearEnd <= 0 ? double.NegativeInfinity : first.Along - NearTie;
        var to = last.Along + last.Distance + NearEnd >= line.Length ? double.PositiveInfinity : last.Along + NearTie;
        var (joined, left) = (new List<(int, bool)>(), new List<(int, bool)>());
        var placed = false;
        for (var member = 0; member < stands.Count; member++)
        {
            var along = line.Chainage(member);
            if (along >= from && !placed) Place();
            if (along >= from && along <= to) left.Add(stands[member]);
            else joined.Add(stands[member]);
        }

        if (!placed) Place();
        return (joined, left);

        void Place()
        {
            placed = true;
            joined.AddRange(turned ? Enumerable.Reverse(later) : later);
        }
    }
}
