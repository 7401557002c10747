using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Arcs sharper or flatter than their code allows. Figures: standard uncertainty, probability of conformity.</summary>
internal sealed class RadiusOutOfRange : ICheck
{
    public string Name => "radius-out-of-range";

    public string Title => "Radius outside what the code allows";

    public string Unit => "m";

    public void Look(Site site, Findings found)
    {
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.Entry is not { } entry || RadiusInRange.LimitsOf(entry) is not { IsNone: false } limits) continue;
            for (var i = 0; i < run.PieceCount; i++)
            {
                var piece = run.Piece(i);
                if (piece.Kind == PieceKind.Arc && !limits.Hold(piece.Arc.Radius)) Add(site, piece, limits, found);
            }
        }
    }

    /// <summary>Where no accuracy is given, nothing is beyond doubt.</summary>
    private static void Add(Site site, Piece piece, Limits limits, Findings found)
    {
        var run = piece.Run;
        var radius = Judgement.OfRadius(piece.Arc.Radius, piece.URadius, limits, site.Settings.GuardBand);
        found.Add(radius.Verdict == Verdict.DoesNotConform ? Severity.Stop : Severity.Look, run.Members[piece.First..(piece.Last + 1)], piece.Arc.MidPoint,
            site.Shots.HeightOf(run.Members[piece.First + 1]), run.Number, run.Chainages[piece.First], run.Chainages[piece.Last],
            radius.Value, radius.Value < limits.Lower ? limits.Lower : limits.Upper, figures: [radius.U ?? double.NaN, radius.PConforms ?? double.NaN]);
    }

    public string Message(Finding finding)
    {
        var (side, u) = (finding.Measured < finding.Allowed ? "least" : "most", finding.Figure(0));
        var probability = double.IsNaN(u) ? "" : finding.Figure(1) < 0.0005 ? ", beyond doubt" : $"; it conforms with a probability of {CheckText.Number(finding.Figure(1), "0.000")}";
        return $"Radius {CheckText.Radius(finding.Measured!.Value, u)} on {finding.RunLabel()} {CheckText.Along(finding)}, "
            + $"{side} {CheckText.Metres(finding.Allowed)}{probability} ({CheckText.Shots(finding)}).";
    }

    public string Cure(Finding finding) => finding.Severity == Severity.Stop
        ? "Check code and through-shot; if it was built so, relay it or have it accepted."
        : "Within its doubt the radius may be good: shoot another through-shot.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
