using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Where services cross in plan: there one of them dips under or rises over the other.</summary>
/// <remarks>Services that run side by side in one trench do not cross. Arcs count by their chords.</remarks>
internal sealed class RunCrossings(Site site)
{
    /// <summary>So near in plan another run passes, metres (DEFAULT).</summary>
    private const double Reach = 1.5;

    /// <summary>Sine of 15°: what is nearer to parallel lies beside (DEFAULT).</summary>
    private const double LeastAngle = 0.2588;

    private readonly List<int> near = [];

    /// <summary>Whether another service passes a member of a run within reach, across its way.</summary>
    public bool At(Run run, int member)
    {
        if (run.Entry?.Service is null) return false;
        var at = site.Shots.At(run.Members[member]);
        var way = site.Shots.At(run.Members[Math.Min(member + 1, run.MemberCount - 1)]) - site.Shots.At(run.Members[Math.Max(member - 1, 0)]);
        near.Clear();
        site.PieceIndex.Near(at, Reach, near);
        foreach (var number in near)
        {
            var piece = site.PieceAt(number);
            if (Crosses(run, piece, way) && new Straight(piece.From, piece.To).Locate(at).Distance <= Reach) return true;
        }

        return false;
    }

    /// <summary>Whether another service crosses a leg of a run, or passes within reach of its ends.</summary>
    public bool On(Run run, int member)
    {
        if (run.Entry?.Service is null) return false;
        var (a, b) = (site.Shots.At(run.Members[member]), site.Shots.At(run.Members[member + 1]));
        near.Clear();
        site.PieceIndex.Query(Box2.Of(a, b), near);
        foreach (var number in near)
        {
            var piece = site.PieceAt(number);
            if (!Crosses(run, piece, b - a)) continue;
            Step leg = b - a, other = piece.To - piece.From;
            if (leg.Cross(piece.From - a) * leg.Cross(piece.To - a) <= 0 && other.Cross(a - piece.From) * other.Cross(b - piece.From) <= 0) return true;
        }

        return At(run, member) || At(run, member + 1);
    }

    private static bool Crosses(Run run, Piece piece, Step way)
    {
        if (piece.Run.Number == run.Number || piece.Run.Entry?.Service is null) return false;
        var other = piece.To - piece.From;
        return Math.Abs(way.Cross(other)) > LeastAngle * way.Size * other.Size;
    }
}
