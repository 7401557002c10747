using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Arcs sharper or flatter than their code allows.</summary>
internal sealed class RadiusOutOfRange : ICheck
{
    /// <summary>A radius this many standard uncertainties beyond its limit is beyond doubt.</summary>
    private const double Coverage = 2;

    public string Name => "radius-out-of-range";

    public string Title => "Radius outside what the code allows";

    public string Unit => "m";

    public void Look(Site site, Findings found)
    {
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            if (run.Entry is not { } entry || !(entry.RadiusMin.HasValue || entry.RadiusMax.HasValue)) continue;
            for (var i = 0; i < run.PieceCount; i++)
            {
                var piece = run.Piece(i);
                if (piece.Kind != PieceKind.Arc) continue;
                var (radius, u) = (piece.Arc.Radius, piece.URadius);
                if (radius < entry.RadiusMin - Same) Add(site, piece, radius, u, entry.RadiusMin!.Value, found);
                else if (radius > entry.RadiusMax + Same) Add(site, piece, radius, u, entry.RadiusMax!.Value, found);
            }
        }
    }

    /// <summary>Metres: a value this near to a limit equals it.</summary>
    private const double Same = 1e-6;

    /// <summary>Where no accuracy is given, nothing is beyond doubt.</summary>
    private static void Add(Site site, Piece piece, double radius, double? u, double limit, Findings found)
    {
        var run = piece.Run;
        var certain = u is { } known && Math.Abs(radius - limit) > Coverage * known;
        found.Add(certain ? Severity.Stop : Severity.Look, run.Members[piece.First..(piece.Last + 1)], piece.Arc.MidPoint,
            site.Shots.HeightOf(run.Members[piece.First + 1]), run.Number, run.Chainages[piece.First], run.Chainages[piece.Last],
            radius, limit, figures: [u ?? double.NaN]);
    }

    public string Message(Finding finding)
    {
        var (side, u) = (finding.Measured < finding.Allowed ? "least" : "most", finding.Figure(0));
        var doubt = double.IsNaN(u) ? "accuracy not given" : $"± {CheckText.Metres(Coverage * u)}";
        return $"Radius {CheckText.Number(finding.Measured, "0.000")} {doubt} on {finding.RunLabel()} {CheckText.Along(finding)}, {side} {CheckText.Metres(finding.Allowed)} ({CheckText.Shots(finding)}).";
    }

    public string Cure(Finding finding) => finding.Severity == Severity.Stop
        ? "Check code and through-shot; if it was built so, relay it or have it accepted."
        : "Within its doubt the radius may be good: shoot another through-shot.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
