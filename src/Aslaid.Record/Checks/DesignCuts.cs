using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>A straight of a run that leaves its line of the design between two shots that lie on it.</summary>
/// <param name="Piece">Number of the straight in its run.</param>
/// <param name="Departure">Where it is farthest.</param>
/// <param name="Beyond">Metres that it is farther off there than at either shot.</param>
/// <param name="Radius">Metres, of the designed arc that it cuts; null for a corner.</param>
/// <param name="OnCurve">Whether one of the shots lies on that arc: then the curve was shot, too sparsely.</param>
/// <param name="U">Standard uncertainty of the straight there, metres; NaN where not known.</param>
internal readonly record struct DesignCut(Run Run, int Piece, DesignedLine Line, PathDeparture Departure, double Beyond, double Limit, double? Radius, bool OnCurve, double U);

/// <summary>All such straights; shared by the checks that tell them apart.</summary>
internal sealed class DesignCuts
{
    /// <summary>Metres by which shots may lie off and still be on the line, where the code states no tolerance (DEFAULT).</summary>
    private const double OnLine = 0.1;

    /// <summary>Metres, where the code states no largest sagitta: that of services (DEFAULT).</summary>
    private const double UsualSagitta = 0.025;

    public DesignCuts(Site site)
    {
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            Path? path = null;
            for (var piece = 0; piece < run.PieceCount; piece++)
            {
                var straight = run.Piece(piece);
                if (straight.Kind != PieceKind.Straight || site.Match.Of(run, straight.First) is not { } from || site.Match.Of(run, straight.Last) is not { } to || from.Line != to.Line) continue;
                if (from.Piece == to.Piece && from.Line.Path.Pieces[from.Piece].Kind == PieceKind.Straight) continue;
                var on = Math.Max(run.Entry?.TolerancePlan ?? 0, OnLine);
                if (from.Distance > on || to.Distance > on || !Follows(from, to, straight.PlanLength)) continue;
                path ??= run.Path;
                var departure = path.Departure(piece, from.Line.Path);
                var (beyond, limit) = (departure.Distance - Math.Max(from.Distance, to.Distance), run.Entry?.SagittaMax ?? UsualSagitta);
                if (beyond <= limit) continue;
                var (radius, onCurve) = Between(from, to);
                all.Add(new(run, piece, from.Line, departure, beyond, limit, radius, onCurve, Math.Max(site.Shots.PlaceSigma(run.Members[straight.First]), site.Shots.PlaceSigma(run.Members[straight.Last]))));
            }
        }
    }

    private readonly List<DesignCut> all = [];

    public IReadOnlyList<DesignCut> All => all;

    /// <summary>What else a straight that leaves its design may raise.</summary>
    public static ImmutableArray<string> Consequences { get; } = ["bend-not-shot", "shots-too-far-apart", "tangent-break", "off-design"];

    /// <summary>Tells those that cut a curve with a shot on it, or the others. Figures: radius, station, length of the straight.</summary>
    public static void Look(Site site, bool onCurve, Findings found)
    {
        if (site.Design.Lines.IsEmpty) return;
        var often = AlarmBudget.Sigmas(site.Runs.PieceCount);
        foreach (var cut in site.DesignCuts.All)
        {
            if (cut.OnCurve != onCurve) continue;
            var (piece, beside) = (cut.Run.Piece(cut.Piece), cut.Departure.Beside);
            found.Add(cut.Beyond - often * cut.U > cut.Limit ? Severity.Stop : Severity.Look, [cut.Run.Members[piece.First], cut.Run.Members[piece.Last]], beside.Foot, cut.Line.HeightAt(beside.Along)?.Height,
                cut.Run.Number, cut.Run.Chainages[piece.First], cut.Run.Chainages[piece.Last], cut.Departure.Distance, cut.Limit, cut.Line.Name, [cut.Radius ?? double.NaN, cut.Line.StationAt(beside.Along), piece.PlanLength]);
        }
    }

    /// <summary>A leg that cuts a curve is shorter than it, by no more than across half a turn.</summary>
    private static bool Follows(DesignPlace from, DesignPlace to, double leg)
    {
        var along = Math.Abs(to.Chainage - from.Chainage);
        if (from.Line.Path.IsClosed) along = Math.Min(along, from.Line.Length - along);
        return along <= Math.PI / 2 * leg + OnLine && leg <= along + 2 * OnLine;
    }

    /// <summary>The sharpest arc between, and whether either shot stands on it or where it begins or ends.</summary>
    private static (double? Radius, bool OnCurve) Between(DesignPlace from, DesignPlace to)
    {
        var (low, high) = from.Chainage <= to.Chainage ? (from, to) : (to, from);
        var (radius, on) = ((double?)null, false);
        for (var piece = low.Piece; piece <= high.Piece; piece++)
        {
            if (low.Line.Path.Pieces[piece] is not { Kind: PieceKind.Arc } arc || radius <= arc.Arc.Radius) continue;
            var (start, end) = (low.Line.Path.StartOf(piece), low.Line.Path.StartOf(piece + 1));
            (radius, on) = (arc.Arc.Radius, low.Chainage > start - OnLine && low.Chainage < end - OnLine || high.Chainage > start + OnLine && high.Chainage < end + OnLine);
        }

        return (radius, on);
    }
}
