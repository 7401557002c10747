using Aslaid.Geometry;
using Aslaid.Record;
using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>A run, or a length of it, on paper: the true curve to stroke, and points along it to set marks by. Millimetres.</summary>
internal sealed class PaperTrace : IDisposable
{
    private readonly List<SKPoint> points = [];
    private readonly List<float> along = [];

    private PaperTrace(SKPath path) => Path = path;

    /// <summary>Straights as straights, arcs as cubics.</summary>
    public SKPath Path { get; }

    /// <summary>Length on paper.</summary>
    public float Length => along.Count == 0 ? 0 : along[^1];

    /// <summary>Points close together along it; for marks, not for strokes.</summary>
    public IReadOnlyList<SKPoint> Points => points;

    /// <summary>A run between two chainages, metres.</summary>
    public static PaperTrace Of(Run run, PlanView view, double from = 0, double to = double.PositiveInfinity)
    {
        using var builder = new SKPathBuilder();
        var places = new List<SKPoint>();
        var start = 0.0;
        for (var number = 0; number < run.PieceCount; number++)
        {
            var piece = run.Piece(number);
            var length = piece.PlanLength;
            var (begin, end) = (Math.Max(0, from - start), Math.Min(length, to - start));
            start += length;
            if (end <= begin) continue;
            if (piece.Kind == PieceKind.Arc) AddArc(builder, places, piece.Arc, begin, end, view);
            else AddStraight(builder, places, view.At(piece.Straight.PointAt(begin)), view.At(piece.Straight.PointAt(end)));
        }

        if (run.IsClosed && places.Count > 2 && from <= 0 && double.IsPositiveInfinity(to)) builder.Close();
        return Measured(builder, places);
    }

    /// <summary>A straight on paper, as the legend shows it.</summary>
    public static PaperTrace Straight(SKPoint from, SKPoint to)
    {
        using var builder = new SKPathBuilder();
        var places = new List<SKPoint>();
        AddStraight(builder, places, from, to);
        return Measured(builder, places);
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

    private static PaperTrace Measured(SKPathBuilder builder, List<SKPoint> places)
    {
        var trace = new PaperTrace(builder.Detach());
        var length = 0f;
        for (var i = 0; i < places.Count; i++)
        {
            if (i > 0) length += SKPoint.Distance(places[i - 1], places[i]);
            trace.points.Add(places[i]);
            trace.along.Add(length);
        }

        return trace;
    }

    private static void AddStraight(SKPathBuilder builder, List<SKPoint> places, SKPoint from, SKPoint to)
    {
        Begin(builder, places, from);
        builder.LineTo(to);
        places.Add(to);
    }

    private static void AddArc(SKPathBuilder builder, List<SKPoint> places, Arc arc, double begin, double end, PlanView view)
    {
        Begin(builder, places, view.At(arc.PointAt(begin)));
        foreach (var cubic in ArcCubics.Of(arc, begin, end)) builder.CubicTo(view.At(cubic.B), view.At(cubic.C), view.At(cubic.D));
        var steps = Math.Clamp((int)Math.Ceiling((end - begin) / arc.Radius / 0.05), 1, 200);
        for (var step = 1; step <= steps; step++) places.Add(view.At(arc.PointAt(begin + (end - begin) * step / steps)));
    }

    private static void Begin(SKPathBuilder builder, List<SKPoint> places, SKPoint at)
    {
        if (places.Count == 0) builder.MoveTo(at);
        else if (SKPoint.Distance(places[^1], at) > 0.001f) builder.LineTo(at); // a fitted circle begins at its first shot's foot
        if (places.Count == 0 || places[^1] != at) places.Add(at);
    }
}
