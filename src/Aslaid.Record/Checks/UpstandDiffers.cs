using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Parts that were shot themselves and lie elsewhere than their section says: the upstand of a kerb, its width.</summary>
internal sealed class UpstandDiffers : ICheck
{
    /// <summary>A line shot within this of where a part should lie is that part, metres (DEFAULT).</summary>
    private const double Reach = 0.3;

    /// <summary>Upstand and width may differ by this where the part's code states no tolerance in height or plan, metres (DEFAULT: 10 mm, as kerbs are laid, common practice).</summary>
    private const double Usual = 0.010;

    public string Name => "upstand-differs";

    public string Title => "Upstand or width is not that of the section";

    public string Unit => "m";

    public void Look(Site site, Findings found)
    {
        var near = new List<int>();
        foreach (var line in DerivedLines.Of(site.Runs, site.Sections))
        {
            var worst = new Dictionary<int, (double Off, double Limit, int Member, double Up, double Side)>();
            foreach (var vertex in line.Path.Vertices)
            {
                near.Clear();
                site.PieceIndex.Near(vertex.At, Reach, near);
                foreach (var number in near)
                {
                    var piece = site.PieceAt(number);
                    if (piece.Run.Number != line.Of && piece.Run.Code == line.Part.PartCode) worst.TryAdd(piece.Run.Number, default);
                }
            }

            foreach (var other in worst.Keys.ToArray()) Compare(site, line, site.Runs[other], found);
        }
    }

    private static void Compare(Site site, DerivedLine line, Run shot, Findings found)
    {
        var (shots, of) = (site.Shots, site.Runs[line.Of]);
        var (tests, best) = (0, (Over: 0.0, Off: 0.0, Limit: 0.0, Member: -1, Up: 0.0, Side: 0.0, Height: false));
        var sigmas = AlarmBudget.Sigmas(2 * shot.MemberCount);
        for (var member = 0; member < shot.MemberCount; member++)
        {
            var row = shot.Members[member];
            var locus = line.Path.Locate(shots.At(row));
            if (locus.Distance > Reach || locus.Along <= 0 || locus.Along >= line.PlanLength) continue;
            tests++;
            var beside = of.Members[of.MemberAt(locus.Along * of.PlanLength / Math.Max(line.PlanLength, 1e-9))];
            var (plan, level) = (double.Hypot(Own(shots.SigmaPlan[row]), Own(shots.SigmaPlan[beside])), double.Hypot(Own(shots.SigmaHeight[row]), Own(shots.SigmaHeight[beside])));
            Consider(Math.Abs(locus.Offset), (shot.Entry?.TolerancePlan ?? Usual) + sigmas * plan, member, 0, locus.Offset, false);
            if (shots.HeightOf(row) is { } height && HeightAt(line, locus.Along) is { } should) Consider(Math.Abs(height - should), (shot.Entry?.ToleranceHeight ?? Usual) + sigmas * level, member, height - should, 0, true);
        }

        if (best.Member < 0 || tests == 0) return;
        var at = shot.Members[best.Member];
        found.Add(Severity.Look, [at], shots.At(at), shots.HeightOf(at), shot.Number, shot.Chainages[best.Member], shot.Chainages[best.Member], best.Off, best.Limit,
            word: $"{of.Key}\n{line.Part.Part}", figures: [best.Height ? 1 : 0, best.Height ? best.Up : best.Side]);

        static double Own(double sigma) => double.IsNaN(sigma) ? 0 : sigma;

        void Consider(double off, double limit, int member, double up, double side, bool height)
        {
            if (off - limit > best.Over) best = (off - limit, off, limit, member, up, side, height);
        }
    }

    private static double? HeightAt(DerivedLine line, double along) => line.Path.HeightAt(along);

    public string Message(Finding finding)
    {
        var words = finding.Word!.Split('\n');
        return finding.Figure(0) > 0
            ? $"{finding.RunLabel()} lies {CheckText.Signed(finding.Figure(1))} m at {finding.Shot(0)} from the height that the section of {words[0]} gives its {words[1]}; limit {CheckText.Metres(finding.Allowed)}."
            : $"{finding.RunLabel()} lies {CheckText.Signed(finding.Figure(1))} m to the right at {finding.Shot(0)} of where the section of {words[0]} puts its {words[1]}; limit {CheckText.Metres(finding.Allowed)}.";
    }

    public string Cure(Finding finding) => "Look which of both was shot wrongly, or have the section changed by who gave it; what was shot counts.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Any;
}
