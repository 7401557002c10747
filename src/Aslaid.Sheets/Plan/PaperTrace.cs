using Aslaid.Geometry;
using Aslaid.Record;
using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>
/// A run, or a length of it, on paper: the true curve to stroke, and points along it to set marks by. Millimetres. What
/// lies well outside the window is left out, so that a shot a hundred kilometres off is not dashed all the way.
/// </summary>
internal sealed class PaperTrace : IDisposable
{
    /// <summary>How far beyond the window a line still goes on, millimetres.</summary>
    private const float Beyond = 30;

    private readonly List<float> along = [];
    private readonly List<SKPoint> points = [];
    private readonly HashSet<int> begins = [];

    private PaperTrace(SKPath path, bool isClosed) => (Path, IsSmallRing) = (path, isClosed && IsSmall(path.Bounds));

    /// <summary>Straights as straights, arcs as cubics.</summary>
    public SKPath Path { get; }

    /// <summary>Closed, and under 4 mm on paper: room for an outline only.</summary>
    public bool IsSmallRing { get; }

    /// <summary>Length on paper.</summary>
    public float Length => along.Count == 0 ? 0 : along[^1];

    /// <summary>Points close together along it, as pairs without gaps between; for marks, not for strokes.</summary>
    public IEnumerable<(SKPoint From, SKPoint To)> Steps
    {
        get
        {
            for (var i = 1; i < points.Count; i++)
                if (!begins.Contains(i)) yield return (points[i - 1], points[i]);
        }
    }

    private static bool IsSmall(SKRect bounds) => Math.Max(bounds.Width, bounds.Height) < 4;

    /// <summary>A run between two chainages, metres.</summary>
    public static PaperTrace Of(Run run, PlanView view, double from = 0, double to = double.PositiveInfinity)
    {
        using var pen = new Pen();
        var window = SKRect.Inflate(view.Area, Beyond, Beyond);
        var (start, whole) = (0.0, from <= 0 && double.IsPositiveInfinity(to));
        for (var number = 0; number < run.PieceCount; number++)
        {
            var piece = run.Piece(number);
            var length = piece.PlanLength;
            var (begin, end) = (Math.Max(0, from - start), Math.Min(length, to - start));
            start += length;
            if (end <= begin) continue;
            if (piece.Kind == PieceKind.Arc)
            {
                if (!piece.Arc.Box.Intersects(view.Shown)) whole = pen.Lift();
                else pen.Arc(piece.Arc, begin, end, view);
                continue;
            }

            var (a, b) = (view.At(piece.Straight.PointAt(begin)), view.At(piece.Straight.PointAt(end)));
            if (Clipped(a, b, window) is not { } seen)
            {
                whole = pen.Lift();
                continue;
            }

            if (seen.From != a) whole = pen.Lift();
            pen.Straight(seen.From, seen.To);
            if (seen.To != b) whole = pen.Lift();
        }

        return pen.Traced(whole && run.IsClosed);
    }

    /// <summary>A straight on paper, as the legend shows it.</summary>
    public static PaperTrace Straight(SKPoint from, SKPoint to)
    {
        using var pen = new Pen();
        pen.Straight(from, to);
        return pen.Traced(close: false);
    }

    /// <summary>The point at a distance along, and the direction there (radians, clockwise on paper from right).</summary>
    public (SKPoint At, float Angle) At(float distance)
    {
        if (points.Count < 2) return (points.Count == 0 ? default : points[0], 0);
        var next = along.BinarySearch(distance);
        if (next < 0) next = ~next;
        next = Math.Clamp(next, 1, points.Count - 1);
        var (a, b) = (points[next - 1], points[next]);
        var span = along[next] - along[next - 1];
        var t = span > 0 ? Math.Clamp((distance - along[next - 1]) / span, 0, 1) : 0;
        return (new(a.X + t * (b.X - a.X), a.Y + t * (b.Y - a.Y)), MathF.Atan2(b.Y - a.Y, b.X - a.X));
    }

    public void Dispose() => Path.Dispose();

    /// <summary>The part of a straight within a rectangle (Liang and Barsky's way); null where there is none.</summary>
    private static (SKPoint From, SKPoint To)? Clipped(SKPoint a, SKPoint b, SKRect within)
    {
        if (within.Contains(a) && within.Contains(b)) return (a, b);
        var (dx, dy) = ((double)b.X - a.X, (double)b.Y - a.Y);
        var (enter, leave) = (0.0, 1.0);
        ReadOnlySpan<(double Way, double Room)> sides =
            [(-dx, a.X - within.Left), (dx, within.Right - a.X), (-dy, a.Y - within.Top), (dy, within.Bottom - a.Y)];
        foreach (var (way, room) in sides)
        {
            if (way == 0 && room < 0) return null;
            if (way < 0) enter = Math.Max(enter, room / way);
            if (way > 0) leave = Math.Min(leave, room / way);
        }

        if (enter > leave) return null;
        return (enter == 0 ? a : At(enter), leave == 1 ? b : At(leave));

        SKPoint At(double part) => new((float)(a.X + part * dx), (float)(a.Y + part * dy));
    }

    /// <summary>Draws the path and notes the points that it passes.</summary>
    private sealed class Pen : IDisposable
    {
        private readonly SKPathBuilder path = new();
        private readonly List<SKPoint> points = [];
        private readonly HashSet<int> begins = [];
        private bool down;

        /// <summary>The next piece begins anew. Always false: what is lifted is not whole.</summary>
        public bool Lift() => down = false;

        public void Straight(SKPoint from, SKPoint to)
        {
            Begin(from);
            path.LineTo(to);
            points.Add(to);
        }

        public void Arc(Arc arc, double begin, double end, PlanView view)
        {
            Begin(view.At(arc.PointAt(begin)));
            foreach (var cubic in ArcCubics.Of(arc, begin, end)) path.CubicTo(view.At(cubic.B), view.At(cubic.C), view.At(cubic.D));
            var steps = (int)Math.Clamp(Math.Min((end - begin) / arc.Radius / 0.05, (end - begin) * view.PerMetre / 0.4), 1, 200); // no finer than 0.4 mm
            for (var step = 1; step <= steps; step++) points.Add(view.At(arc.PointAt(begin + (end - begin) * step / steps)));
        }

        public PaperTrace Traced(bool close)
        {
            close &= points.Count > 2;
            if (close) path.Close();
            var trace = new PaperTrace(path.Detach(), close);
            var length = 0f;
            for (var i = 0; i < points.Count; i++)
            {
                if (i > 0 && !begins.Contains(i)) length += SKPoint.Distance(points[i - 1], points[i]);
                trace.points.Add(points[i]);
                trace.along.Add(length);
            }

            trace.begins.UnionWith(begins);
            return trace;
        }

        public void Dispose() => path.Dispose();

        private void Begin(SKPoint at)
        {
            if (!down)
            {
                path.MoveTo(at);
                begins.Add(points.Count);
                points.Add(at);
                down = true;
                return;
            }

            if (SKPoint.Distance(points[^1], at) > 0.001f) path.LineTo(at); // a fitted circle begins at its first shot's foot
            if (points[^1] != at) points.Add(at);
        }
    }
}
