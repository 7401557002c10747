namespace Aslaid.Record;

/// <summary>Stretches of a run on which no shot was taken for longer than its code allows.</summary>
internal sealed class ShotsTooFarApart : ICheck
{
    /// <summary>Past this many times the limit a bend may hide in the gap (DEFAULT).</summary>
    private const double Plainly = 1.5;

    /// <summary>Metres: a value this near to a limit equals it.</summary>
    private const double Same = 1e-6;

    public string Name => "shots-too-far-apart";

    public string Title => "Shots too far apart";

    public string Unit => "m";

    public void Look(Site site, Findings found)
    {
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.Entry is not { SpacingMax: { } limit } entry) continue;
            for (var i = 0; i < run.PieceCount; i++)
            {
                var piece = run.Piece(i);
                if (ArcPosition.IsNearEnd(piece)) continue; // the through-shot's place is the mistake that leads
                for (var member = piece.First + 1; member <= piece.Last; member++) LookAt(site, run, entry, limit, member, found);
            }
        }
    }

    private static void LookAt(Site site, Run run, CodeEntry entry, double limit, int member, Findings found)
    {
        var (from, to) = (run.Chainages[member - 1], run.Chainages[member]);
        if (to - from <= limit + Same || IsFitted(site, run.Members[member - 1]) || IsFitted(site, run.Members[member]) || site.RunBreaks.Touches(run.Number, member) || site.LateStretches.Explains(run.Number, member)) return;
        var (a, b) = (site.Shots.At(run.Members[member - 1]), site.Shots.At(run.Members[member]));
        found.Add(entry.NeedsProof && to - from > Plainly * limit ? Severity.Stop : Severity.Look, run.Members.Slice(member - 1, 2), a + 0.5 * (b - a),
            (site.Shots.HeightOf(run.Members[member - 1]) + site.Shots.HeightOf(run.Members[member])) / 2, run.Number, from, to, to - from, limit);
    }

    /// <summary>Whether a point was made by a fit: the shots that carry it lie along the legs at either side, though the path does not name them.</summary>
    private static bool IsFitted(Site site, int row) => site.Shots.Constructed?.Find(row)?.Fit is not null;

    public string Message(Finding finding) =>
        $"No shot for {CheckText.Metres(finding.Measured)} on {finding.RunLabel()} {CheckText.Along(finding)} ({finding.Shot(0)} to {finding.Shot(1)}), limit {CheckText.Metres(finding.Allowed)}.";

    public string Cure(Finding finding) => $"Shoot {CheckText.Number(Math.Ceiling(finding.Measured!.Value / finding.Allowed!.Value) - 1, "0")} more between {finding.Shot(0)} and {finding.Shot(1)}.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
