using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Arcs sharper or flatter than their code allows.</summary>
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
        var certain = u is { } known && IsBeyond(radius, known, limit);
        found.Add(certain ? Severity.Stop : Severity.Look, run.Members[piece.First..(piece.Last + 1)], piece.Arc.MidPoint,
            site.Shots.HeightOf(run.Members[piece.First + 1]), run.Number, run.Chainages[piece.First], run.Chainages[piece.Last],
            radius, limit, figures: [u ?? double.NaN]);
    }

    /// <summary>A limit outside the 95 % interval of the radius is passed beyond doubt; two standard uncertainties where that is even.</summary>
    private static bool IsBeyond(double radius, double u, double limit)
    {
        if (RadiusInterval.IsLinear(radius, u)) return Math.Abs(radius - limit) > 2 * u;
        var interval = RadiusInterval.Of(radius, u);
        return limit < interval.Low || limit > interval.High;
    }

    public string Message(Finding finding)
    {
        var side = finding.Measured < finding.Allowed ? "least" : "most";
        return $"Radius {CheckText.Radius(finding.Measured!.Value, finding.Figure(0))} on {finding.RunLabel()} {CheckText.Along(finding)}, {side} {CheckText.Metres(finding.Allowed)} ({CheckText.Shots(finding)}).";
    }

    public string Cure(Finding finding) => finding.Severity == Severity.Stop
        ? "Check code and through-shot; if it was built so, relay it or have it accepted."
        : "Within its doubt the radius may be good: shoot another through-shot.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
