using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>
/// What is taken on the window of a sheet, in small cells: <em>firm</em> by words and symbols, on which nothing may be
/// written, and <em>soft</em> by lines, over which a label may go where it must.
/// </summary>
internal sealed class Occupancy
{
    private const float Cell = 0.75f;
    private const int Leader = -1;
    private readonly SKRect area;
    private readonly int columns;
    private readonly int rows;
    private readonly bool[] firm;
    private readonly int[] soft;

    public Occupancy(SKRect area)
    {
        this.area = area;
        (columns, rows) = ((int)MathF.Ceiling(area.Width / Cell), (int)MathF.Ceiling(area.Height / Cell));
        (firm, soft) = (new bool[columns * rows], new int[columns * rows]);
    }

    public void Take(SKRect box)
    {
        var (left, top, right, bottom) = Cells(box);
        for (var row = Math.Max(0, top); row <= Math.Min(rows - 1, bottom); row++)
            for (var column = Math.Max(0, left); column <= Math.Min(columns - 1, right); column++) firm[row * columns + column] = true;
    }

    /// <summary>The owner of leaders and of what belongs to no run.</summary>
    public const int Nobody = -1;

    /// <param name="owner">The number of the run: its words rather stand where no other run is nearer.</param>
    public void TakeLine(PaperTrace trace, int owner)
    {
        foreach (var (from, to) in trace.Steps) TakeLine(from, to, owner);
    }

    public void TakeLine(SKPoint from, SKPoint to, int owner = Nobody)
    {
        if (Math.Max(from.X, to.X) < area.Left || Math.Min(from.X, to.X) > area.Right) return;
        if (Math.Max(from.Y, to.Y) < area.Top || Math.Min(from.Y, to.Y) > area.Bottom) return;
        var steps = Math.Clamp((int)(SKPoint.Distance(from, to) / (Cell / 2)), 1, 4 * (columns + rows));
        for (var step = 0; step <= steps; step++)
        {
            var t = (float)step / steps;
            var (column, row) = CellOf(from.X + t * (to.X - from.X), from.Y + t * (to.Y - from.Y));
            if (column >= 0 && column < columns && row >= 0 && row < rows) soft[row * columns + column] = owner == Nobody ? Leader : owner + 1;
        }
    }

    /// <summary>How many line cells a box would hide; null where it is taken, or leaves the window.</summary>
    public int? Cost(SKRect box)
    {
        if (!area.Contains(box)) return null;
        var (left, top, right, bottom) = Cells(box);
        var hidden = 0;
        for (var row = top; row <= Math.Min(rows - 1, bottom); row++)
        {
            for (var column = left; column <= Math.Min(columns - 1, right); column++)
            {
                if (firm[row * columns + column]) return null;
                if (soft[row * columns + column] != 0) hidden++;
            }
        }

        return hidden;
    }

    /// <summary>Finds the place for a box near an anchor, takes it, and returns it; null where there is none.</summary>
    /// <param name="anchors">What the box may belong to, the best first.</param>
    /// <param name="reaches">How far the box may stand off, millimetres, the best first.</param>
    /// <param name="mostHidden">How many line cells it may hide.</param>
    /// <param name="owner">The run whose words these are.</param>
    public (SKRect Box, SKPoint Anchor)? Place(
        SKSize size, IEnumerable<SKPoint> anchors, ReadOnlySpan<float> reaches, int mostHidden = int.MaxValue, int owner = Nobody)
    {
        (SKRect Box, SKPoint Anchor)? best = null;
        var least = float.PositiveInfinity;
        var later = 0;
        foreach (var anchor in anchors)
        {
            foreach (var reach in reaches)
            {
                for (var direction = 0; direction < 12; direction++)
                {
                    var dislike = 0.8f * reach + 1.2f * later + (direction % 3 == 0 ? 0 : 0.3f);
                    if (dislike >= least) continue;
                    var box = Beside(anchor, size, reach, direction * MathF.PI / 6);
                    if (Cost(SKRect.Inflate(box, 0.5f, 0.4f)) is not { } hidden || hidden > mostHidden || dislike + 0.9f * hidden >= least) continue;
                    if (LeaderCost(anchor, Nearest(box, anchor)) is not { } crossed) continue;
                    var cost = dislike + 0.9f * hidden + 0.5f * crossed;
                    if (cost < least && owner != Nobody && IsNearerToOthers(box, anchor, owner)) cost += 3.5f;
                    if (cost < least) (best, least) = ((box, anchor), cost);
                }
            }

            later++;
        }

        if (best is { } found)
        {
            Take(SKRect.Inflate(found.Box, 0.3f, 0.3f));
            TakeLine(found.Anchor, Nearest(found.Box, found.Anchor));
        }

        return best;
    }

    /// <summary>Whether words or a symbol stand at a place.</summary>
    public bool IsFirm(SKPoint at)
    {
        var (column, row) = CellOf(at.X, at.Y);
        return column >= 0 && column < columns && row >= 0 && row < rows && firm[row * columns + column];
    }

    /// <summary>Whether another run passes a box nearer than its own: a reader would take the words for that one's.</summary>
    private bool IsNearerToOthers(SKRect box, SKPoint anchor, int owner)
    {
        const float far = 4; // mm: beyond it a leader says whose the words are
        var near = Math.Min(SKPoint.Distance(anchor, Nearest(box, anchor)), far);
        var (left, top, right, bottom) = Cells(SKRect.Inflate(box, near, near));
        for (var row = Math.Max(0, top); row <= Math.Min(rows - 1, bottom); row++)
            for (var column = Math.Max(0, left); column <= Math.Min(columns - 1, right); column++)
                if (soft[row * columns + column] is > 0 and var line && line != owner + 1) return true;
        return false;
    }

    /// <summary>How many line cells a leader crosses once it has left what it belongs to; null where it would run through words or a symbol.</summary>
    private int? LeaderCost(SKPoint from, SKPoint to)
    {
        const float clear = 2.2f; // mm: the anchor's own line or symbol
        var length = SKPoint.Distance(from, to);
        var crossed = 0;
        for (var along = clear; along < length - 0.4f; along += Cell)
        {
            var at = new SKPoint(from.X + along / length * (to.X - from.X), from.Y + along / length * (to.Y - from.Y));
            if (IsFirm(at)) return null;
            var (column, row) = CellOf(at.X, at.Y);
            if (column >= 0 && column < columns && row >= 0 && row < rows && soft[row * columns + column] != 0) crossed++;
        }

        return crossed;
    }

    /// <summary>The point of a box nearest to a place.</summary>
    public static SKPoint Nearest(SKRect box, SKPoint place) =>
        new(Math.Clamp(place.X, box.Left, box.Right), Math.Clamp(place.Y, box.Top, box.Bottom));

    /// <summary>The box whose edge stands off the anchor by the reach in a direction.</summary>
    private static SKRect Beside(SKPoint anchor, SKSize size, float reach, float angle)
    {
        var (cos, sin) = (MathF.Cos(angle), MathF.Sin(angle));
        var x = anchor.X + cos * (reach + size.Width / 2);
        var y = anchor.Y + sin * (reach + size.Height / 2);
        return new(x - size.Width / 2, y - size.Height / 2, x + size.Width / 2, y + size.Height / 2);
    }

    private (int Left, int Top, int Right, int Bottom) Cells(SKRect box)
    {
        var (left, top) = CellOf(box.Left, box.Top);
        var (right, bottom) = CellOf(box.Right, box.Bottom);
        return (left, top, right, bottom);
    }

    private (int Column, int Row) CellOf(float x, float y) =>
        ((int)MathF.Floor((x - area.Left) / Cell), (int)MathF.Floor((y - area.Top) / Cell));
}
