using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>How well the shots of an arc say where it lies.</summary>
internal static class ArcPosition
{
    /// <summary>All arcs of all runs, in order.</summary>
    public static IEnumerable<Piece> Arcs(RunTable runs)
    {
        for (var number = 0; number < runs.Count; number++)
            for (var piece = 0; piece < runs[number].PieceCount; piece++)
                if (runs[number].Piece(piece) is { Kind: PieceKind.Arc } arc) yield return arc;
    }

    /// <summary>95 % of a normal distribution lies within this many sigma of its mean.</summary>
    public const double Normal95 = 1.960;

    /// <summary>The through-shot of a three-shot arc should stand between these shares of it (DEFAULT).</summary>
    public const double LeastShare = 0.25;

    /// <summary>The through-shot of a three-shot arc should stand between these shares of it (DEFAULT).</summary>
    public const double MostShare = 0.75;

    /// <summary>A three-shot arc that is not a full circle: one through-shot decides its bend.</summary>
    public static bool HasOneThrough(Piece piece) => piece.Kind == PieceKind.Arc && piece.Last - piece.First == 2 && !piece.Arc.IsFullCircle;

    /// <summary>Where the through-shot stands along a three-shot arc: 0 at its start, 1 at its end.</summary>
    public static double Share(Piece piece) => piece.Arc.Fraction(piece.Run.Table.Shots.At(piece.Run.Members[piece.First + 1]));

    /// <summary>Whether the through-shot of a three-shot arc stands too near to an end of it.</summary>
    public static bool IsNearEnd(Piece piece) => HasOneThrough(piece) && Share(piece) is < LeastShare or > MostShare;

    /// <summary>
    /// Standard uncertainty of the place halfway along an arc through three shots, square to the arc, metres; null for other
    /// arcs and where a shot states no accuracy.
    /// </summary>
    /// <remarks>
    /// The middle moves outwards by n·dC + dR, n the unit step from centre to middle; dC and dR answer to each shot by
    /// <see cref="ArcGradients"/>. Independent shots: u² = Σ σᵢ²[(n·∂C/∂Eᵢ + ∂R/∂Eᵢ)² + (n·∂C/∂Nᵢ + ∂R/∂Nᵢ)²]. For a flat arc this is
    /// b/(4t(1−t)) from the through-shot at share t, and 1/2 − 1/(4t), 1/2 − 1/(4(1−t)) from the ends. What the session has in common
    /// shifts the whole arc and is not part of it.
    /// </remarks>
    public static double? UMiddle(Piece piece)
    {
        var (run, arc) = (piece.Run, piece.Arc);
        var controls = piece.Last - piece.First + (arc.IsFullCircle ? 0 : 1);
        if (controls != 3) return null;
        var shots = run.Table.Shots;
        Span<Point2> places = stackalloc Point2[3];
        for (var i = 0; i < 3; i++) places[i] = shots.At(run.Members[piece.First + i]);
        Span<ArcGradient> by = stackalloc ArcGradient[3];
        ArcGradients.Compute(arc, places, held: false, by);
        var n = 1 / arc.Radius * (arc.MidPoint - arc.Centre);
        var sum = 0.0;
        for (var i = 0; i < 3; i++)
        {
            var east = n.East * by[i].CentreEastE + n.North * by[i].CentreNorthE + by[i].RadiusE;
            var north = n.East * by[i].CentreEastN + n.North * by[i].CentreNorthN + by[i].RadiusN;
            var sigma = shots.SigmaPlan[run.Members[piece.First + i]];
            sum += sigma * sigma * (east * east + north * north);
        }

        return double.IsNaN(sum) ? null : Math.Sqrt(sum);
    }

    /// <summary>Whether the doubt about where the arc's middle lies, at 95 %, is more than the code allows in plan.</summary>
    public static bool MissesItsPlace(double? uMiddle, CodeEntry? entry) =>
        uMiddle is { } u && entry?.Plan95Max is { } most && Normal95 * u > most;
}
