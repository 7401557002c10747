using Aslaid.Geometry;

namespace Aslaid.Record;

public static partial class Measures
{
    /// <summary>Offset of a shot from a run, square off it, right positive; null for a run without pieces and on its corner itself.</summary>
    /// <remarks>
    /// Beside a piece, do = r·(dP − dF), r square to it at the foot F, which keeps its share: moving the foot changes nothing of first
    /// order. At a corner o is the distance from that shot with the sign of its side. Beyond an open end o is the part square to the
    /// end's tangent, which turns: do = r·(dP − dE) − ahead·(P − E) dbearing.
    /// </remarks>
    public static ShotMeasure? Offset(Run run, int shot)
    {
        if (Beside.Find(run, shot) is not { } foot) return null;
        var (sum, place) = (new GradientSum(), foot.Place);
        if (foot.IsCorner)
        {
            if (foot.Distance == 0) return null;
            var away = Math.Sign(foot.Offset) / foot.Distance * (foot.Shot - place.At);
            sum.Add(foot.Row, away);
            place.Add(sum, -1 * away);
            return sum.Of(foot.Offset);
        }

        sum.Add(foot.Row, place.Right);
        place.Add(sum, -1 * place.Right);
        if (foot.IsEnd) place.AddBearing(sum, -(foot.Shot - place.At).Dot(place.Ahead));
        return sum.Of(foot.Offset);
    }

    /// <summary>Chainage of the foot of a shot on a run, metres; null for a run without pieces.</summary>
    /// <remarks>At a corner and beyond an end it is that of the run's shot there, and the shot itself has no part in it.</remarks>
    public static ShotMeasure? Chainage(Run run, int shot)
    {
        if (Beside.Find(run, shot) is not { } foot) return null;
        var sum = new GradientSum();
        foot.Place.AddChainage(sum, 1);
        foot.AddSlide(sum, 1);
        return sum.Of(foot.Place.Chainage);
    }

    /// <summary>
    /// Height of a shot above the run at the foot of the shot; null where the shot or the run there has no height. Right at a shot
    /// of the run the run's slope is that of the stretch after it.
    /// </summary>
    public static ShotMeasure? HeightAbove(Run run, int shot)
    {
        if (Beside.Find(run, shot) is not { } foot || !foot.Place.HasHeight || run.Table.Shots.HeightOf(foot.Row) is not { } height) return null;
        var sum = new GradientSum();
        sum.AddHeight(foot.Row, 1);
        foot.Place.AddHeight(sum, -1);
        foot.AddSlide(sum, -foot.Place.Slope);
        return sum.Of(height - foot.Place.Height);
    }

    /// <summary>
    /// Cover of a buried run at a chainage: surface less run, metres, less what lies between the height that was measured and its top.
    /// Null where a height is missing, or where <see cref="SurfaceHeight"/> has none there.
    /// </summary>
    /// <param name="surface">One to three shots of the surface.</param>
    /// <param name="toTop">From the measured height up to the top of the thing, metres, exact: 0 for a crown, the outside diameter less the wall for an invert.</param>
    /// <remarks>The place keeps its share of the piece between its shots: it moves with them, and the surface is asked where it went.</remarks>
    public static ShotMeasure? Cover(Run run, double chainage, ReadOnlySpan<int> surface, double toTop)
    {
        if (run.PieceCount == 0 || RunPlace.AtChainage(run, chainage) is not { HasHeight: true } place) return null;
        var sum = new GradientSum();
        if (AddSurface(sum, run.Table.Shots, surface, place.At, out var slope) is not { } top) return null;
        place.Add(sum, slope);
        place.AddHeight(sum, -1);
        return sum.Of(top - place.Height - toTop);
    }

    /// <summary>A shot and its foot on a run.</summary>
    private readonly record struct Beside(RunPlace Place, int Row, Point2 Shot, double Offset, double Distance, bool IsCorner, bool IsEnd)
    {
        public static Beside? Find(Run run, int shot)
        {
            if (run.PieceCount == 0) return null;
            var row = run.Table.Shots.Shot(shot);
            var (at, path) = (run.Table.Shots.At(row), run.Path);
            var found = path.Locate(at, out var piece);
            var place = new RunPlace(run, piece, found.Along - path.StartOf(piece));
            var length = run.Piece(piece).PlanLength;
            var (first, last) = (found.Along <= path.StartOf(piece), found.Along >= path.StartOf(piece) + length);
            var whole = run.Piece(piece) is { Kind: PieceKind.Arc, Arc.IsFullCircle: true };
            var end = !run.IsClosed && ((first && piece == 0) || (last && piece == run.PieceCount - 1));
            return new(place, row, at, found.Offset, found.Distance, (first || last) && !end && !whole, end);
        }

        /// <summary>What the foot does of its own, where it can slide.</summary>
        public void AddSlide(GradientSum into, double factor)
        {
            if (!IsCorner && !IsEnd) Place.AddSlide(into, Row, (Shot - Place.At).Dot(Place.Right), factor);
        }
    }
}
