using Aslaid.Geometry;

namespace Aslaid.Record;

public static partial class Measures
{
    /// <summary>
    /// Fall between two members of a run, in its order, arcs followed: drop over plan length, metres per metre, downward positive
    /// in the direction in which the run was shot. Null where either height is missing or no length lies between.
    /// </summary>
    /// <remarks>With heights of equal u_z on a straight of length L: u² = 2u_z²/L² + fall²·u_L²/L², the second term small.</remarks>
    public static ShotMeasure? Fall(Run run, int from, int to)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(to, from);
        var shots = run.Table.Shots;
        var length = run.Chainages[to] - run.Chainages[from];
        if (length <= 0 || shots.HeightOf(run.Members[from]) is not { } first || shots.HeightOf(run.Members[to]) is not { } last) return null;
        var (sum, fall) = (new GradientSum(), (first - last) / length);
        sum.AddHeight(run.Members[from], 1 / length);
        sum.AddHeight(run.Members[to], -1 / length);
        var since = RunPlace.PieceOf(run, from);
        RunPlace.AddChainage(sum, run, to, -fall / length, since);
        RunPlace.AddChainage(sum, run, from, fall / length, since);
        return sum.Of(fall);
    }

    /// <summary>Fall of a whole run, from its first to its last shot; null for a ring.</summary>
    public static ShotMeasure? Fall(Run run) => run.IsClosed || run.MemberCount < 2 ? null : Fall(run, 0, run.MemberCount - 1);

    /// <summary>
    /// The turn where a piece of a run ends and the next begins, radians, right positive, from −π to π: the break between their
    /// tangents. Null at an open end, and where a piece has no length and so no heading.
    /// </summary>
    /// <remarks>In a ring the last piece is followed by the first; a ring of one piece has no join. A turn straight back may come as either sign.</remarks>
    public static ShotMeasure? TangentBreak(Run run, int piece)
    {
        if (Turn(run, piece) is not { } turn) return null;
        var sum = new GradientSum();
        new PieceAnswer(run.Piece(Next(run, piece))).AddBearing(sum, 0, 1);
        new PieceAnswer(run.Piece(piece)).AddBearing(sum, 1, -1);
        return sum.Of(turn);
    }

    /// <summary>The value alone of <see cref="TangentBreak"/>.</summary>
    internal static double? Turn(Run run, int piece)
    {
        var next = Next(run, piece);
        if (next < 0) return null;
        var (before, after) = (new PieceAnswer(run.Piece(piece)).Ahead(1), new PieceAnswer(run.Piece(next)).Ahead(0));
        return before == default || after == default ? null : Math.Atan2(-before.Cross(after), before.Dot(after));
    }

    /// <summary>The piece after another, −1 where there is none.</summary>
    internal static int Next(Run run, int piece)
    {
        var next = piece + 1 < run.PieceCount ? piece + 1 : run.IsClosed ? 0 : -1;
        return next == piece ? -1 : next;
    }

    /// <summary>Radius of an arc; null for a straight. Where it is hardly told its u is no interval: see <see cref="RadiusInterval"/>.</summary>
    public static ShotMeasure? Radius(Piece piece)
    {
        if (piece.Kind != PieceKind.Arc) return null;
        var sum = new GradientSum();
        new PieceAnswer(piece).AddRadius(sum, 1);
        return sum.Of(piece.Arc.Radius);
    }

    /// <summary>Sweep of an arc, radians, never signed; null for a straight. A full circle's answers to nothing.</summary>
    public static ShotMeasure? Sweep(Piece piece)
    {
        if (piece.Kind != PieceKind.Arc) return null;
        var sum = new GradientSum();
        new PieceAnswer(piece).AddSweep(sum, 1);
        return sum.Of(piece.Arc.Sweep);
    }
}
