using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Labels that come again in a later batch and do not simply go on where the run ended.</summary>
internal sealed class LabelComesAgain : ICheck
{
    /// <summary>Shots this near lie on the run, metres (DEFAULT), or within three times the uncertainty of both.</summary>
    internal const double OnIt = 0.05;

    /// <summary>Beside an end, and not beyond it, is what lies at least this far square to the run there, as a share of its distance (DEFAULT): 60° off its way.</summary>
    internal const double Square = 0.866;

    private enum Kind
    {
        /// <summary>They lie on it: measured again.</summary>
        On,

        /// <summary>They lie along it, off it.</summary>
        Beside,

        /// <summary>They begin far from its ends.</summary>
        Elsewhere,
    }

    public string Name => "label-comes-again";

    public string Title => "Labels that come again";

    public string Unit => "m";

    public System.Collections.Immutable.ImmutableArray<string> Explains =>
        ["shots-out-of-order", "two-shots-one-place", "shots-too-far-apart", "measured-twice", "tangent-break", "level-jump", "nearly-closed", "curve-by-chords", "bend-not-shot", "fall-wrong", "off-design", "design-bend-missed", "design-curve-cut", "too-close", "cover-too-small"];

    public void Look(Site site, Findings found)
    {
        if (site.Shots.Raw.Batches.Length < 2) return;
        var near = new List<int>();
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.MemberCount < 2 || site.Shaped.Contains((run.Key, 0))) continue;
            var stretches = BatchStretches.Of(site.Shots, run.Members);
            foreach (var (batch, first, end) in stretches[1..])
                if (first >= 2 && !site.Shaped.Contains((site.Runs.KeyOfLabel(number), batch)) && !IsSaid(site, number, first)) Look(site, found, run, first, end, batch, near);
        }
    }

    /// <summary>Whether <see cref="ShotsOutOfOrder"/> says that the shots from a member on measure the run again.</summary>
    private static bool IsSaid(Site site, int run, int member) =>
        site.LateStretches.Of(run) is { Repeat: not null } stretch && stretch.First == member;

    private static void Look(Site site, Findings found, Run run, int first, int end, int batch, List<int> near)
    {
        var shots = site.Shots;
        var members = run.Members;
        var (count, spacing) = (end - first, run.Entry?.SpacingMax ?? double.PositiveInfinity);
        var (along, legs, offs) = (new bool[count], new double[count + 1], new (double Distance, bool On)[count]);
        for (var member = first; member <= end; member++)
        {
            legs[member - first] = member == run.MemberCount ? 0 : shots.At(members[member - 1]).DistanceTo(shots.At(members[member]));
            if (member == end || Nearest(site, run, first, members[member], near) is not { } off) continue;
            if (off.ToEnd > 1 && off.Leg > spacing) return; // it fills a gap
            along[member - first] = true;
            offs[member - first] = (off.Distance, off.Distance <= Math.Max(OnIt, 3 * double.Hypot(Sigma(members[member]), Sigma(off.Shot))));
        }

        var goesOn = legs[0] <= site.Settings.GapDistance;
        var beginsAtEnd = legs[0] <= (run.Entry?.SpacingMax ?? site.Settings.GapDistance) && legs[0] <= shots.At(members[0]).DistanceTo(shots.At(members[first]));
        var said = false;
        foreach (var (from, to) in AgainBlocks.Of(along, legs, run.Entry?.SpacingMax ?? 0))
        {
            var on = offs[from..to].Count(off => off.On);
            // A run that turns back along itself, as a kerb about an island does, begins at its own end and lies beside itself.
            if (from == 0 && to == count && on < AgainBlocks.Most * count && goesOn && on == 0 && beginsAtEnd) continue;
            Add(on >= AgainBlocks.Most * (to - from) ? Kind.On : Kind.Beside, first + from, first + to, offs[from..to].Max(off => off.Distance));
            said = true;
        }

        if (!said && !goesOn) Add(Kind.Elsewhere, first, end, legs[0]);

        void Add(Kind kind, int start, int stop, double measured)
        {
            var rows = run.Members[start..stop].ToArray();
            found.Add(run.Entry is { NeedsProof: true } ? Severity.Stop : Severity.Look, rows, shots.At(rows[0]), shots.HeightOf(rows[0]), run.Number,
                run.Chainages[start - 1], run.Chainages[stop - 1], measured, null, figures: [(int)kind, batch, first]);
        }

        double Sigma(int row) => shots.PlaceSigma(row) is var u && double.IsNaN(u) ? 0 : u;
    }

    /// <summary>How far a shot lies from the part of a run before a member; null where it is beyond reach or beyond its ends.</summary>
    private static (double Distance, int Shot, double Leg, double ToEnd)? Nearest(Site site, Run run, int before, int shot, List<int> near)
    {
        var at = site.Shots.At(shot);
        near.Clear();
        site.PieceIndex.Near(at, AgainBlocks.Reach, near);
        (double Distance, int Shot, double Leg, double ToEnd)? nearest = null;
        foreach (var number in near)
        {
            var piece = site.PieceAt(number);
            if (piece.Run.Number != run.Number || piece.Last >= before) continue;
            var locus = piece.Kind == PieceKind.Arc ? piece.Arc.Locate(at) : piece.Straight.Locate(at);
            if (locus.Distance > AgainBlocks.Reach || locus.Distance >= nearest?.Distance) continue;
            var atEnd = piece.First == 0 && locus.Along <= 0 || piece.Last == before - 1 && locus.Along >= piece.PlanLength;
            var beyond = atEnd && locus.Distance > OnIt && Math.Abs(locus.Offset) < Square * locus.Distance;
            if (!beyond) nearest = (locus.Distance, run.Members[locus.Along * 2 < piece.PlanLength ? piece.First : piece.Last], piece.PlanLength, Math.Min(locus.Along, piece.PlanLength - locus.Along));
        }

        return nearest;
    }

    public string Message(Finding finding)
    {
        var again = $"{finding.RunLabel()} comes again in batch {CheckText.Number(finding.Figure(1), "0")} with {CheckText.Count(finding.Shots.Length, "shot")} from {finding.Shot(0)}";
        return (Kind)finding.Figure(0) switch
        {
            Kind.On => $"{again}: they lie on it, at most {CheckText.Metres(finding.Measured)} off. It is measured twice, and its length counts twice.",
            Kind.Beside => $"{again}: they lie along it, up to {CheckText.Metres(finding.Measured)} off. It lies anew or was measured anew, and its length counts twice.",
            _ => $"{again}: they begin {CheckText.Metres(finding.Measured)} from {LastBefore(finding)}, where it ended.",
        };
    }

    private static string LastBefore(Finding finding) => finding.Raw().Id(finding.Run!.Value.Members[(int)finding.Figure(2) - 1]);

    public string Cure(Finding finding) => (Kind)finding.Figure(0) switch
    {
        Kind.On => "Say that they check it; or, where it was laid anew, that they supersede or replace it; or give them a label of their own.",
        Kind.Beside => "Say that they supersede it, or replace it where the first was taken out; or give them a label of their own.",
        _ => "Give them a label of their own, shoot what lies between, or say that they continue it.",
    };

    public Change? Correction(Finding finding) => (Kind)finding.Figure(0) switch
    {
        Kind.On => Decided(finding, LabelAgain.Checks),
        Kind.Beside => Decided(finding, LabelAgain.Supersedes),
        _ => null,
    };

    private static LabelDecided Decided(Finding finding, LabelAgain how) => new(finding.Run!.Value.Table.KeyOfLabel(finding.Run.Value.Number), (int)finding.Figure(1), how);

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
