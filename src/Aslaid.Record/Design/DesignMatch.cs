using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>
/// Where every member of every run lies on the design: on the nearest line of its code within <see cref="Settings.DesignReach"/>. A run may
/// follow several lines, a line be followed by several runs, either way round. Where a member is as near to the line of its neighbour, that one holds, so
/// that a run does not change its line at a joint.
/// </summary>
public sealed class DesignMatch
{
    /// <summary>Metres within which a member is as near to one line as to another (DEFAULT).</summary>
    private const double AsNear = 0.02;

    private readonly Site site;
    private readonly DesignTable design;
    private readonly int[] line;
    private readonly int[] piece;
    private readonly double[] chainage;
    private readonly double[] offset;
    private readonly double[] distance;
    private readonly double[] height;
    private readonly double[] grade;
    private readonly Dictionary<int, (int Point, double Distance)> points = [];

    internal DesignMatch(Site site, IWorkers workers)
    {
        (this.site, design) = (site, site.Design);
        var count = design.Lines.IsEmpty ? 0 : site.Runs.MemberShots.Length;
        (line, piece) = (new int[count], new int[count]);
        (chainage, offset, distance, height, grade) = (new double[count], new double[count], new double[count], new double[count], new double[count]);
        if (count > 0)
        {
            const int parts = 8;
            workers.Do(parts, part =>
            {
                var levels = new BuiltLevels(site);
                for (var run = (int)((long)site.Runs.Count * part / parts); run < (int)((long)site.Runs.Count * (part + 1) / parts); run++) Match(site.Runs[run], levels);
            });
        }

        if (!design.Points.IsEmpty) MatchPoints();
    }

    /// <summary>Matches anew, as the derivation does.</summary>
    public static DesignMatch Of(Site site, IWorkers workers) => new(site, workers);

    /// <summary>Number of the line that a member lies on, −1 for none.</summary>
    public int LineOf(Run run, int member) => line.Length == 0 ? -1 : line[run.FirstMember + member];

    /// <summary>The member's foot on its line.</summary>
    public DesignPlace? Of(Run run, int member)
    {
        if (line.Length == 0 || line[run.FirstMember + member] is not (>= 0 and var number)) return null;
        var at = run.FirstMember + member;
        return new(design.Lines[number], piece[at], chainage[at], offset[at], distance[at], double.IsNaN(height[at]) ? null : height[at], grade[at]);
    }

    /// <summary>Whether any member of a run lies on a line.</summary>
    public bool Any(Run run)
    {
        for (var member = 0; member < run.MemberCount; member++)
            if (LineOf(run, member) >= 0) return true;
        return false;
    }

    /// <summary>The design point of a point's row and their distance in plan, metres; null for none within reach.</summary>
    public (DesignedPoint Point, double Distance)? PointOf(int row) => points.TryGetValue(row, out var found) ? (design.Points[found.Point], found.Distance) : null;

    private void Match(Run run, BuiltLevels levels)
    {
        var (first, count, shots) = (run.FirstMember, run.MemberCount, site.Shots);
        var pieces = design.PiecesOf(site.Runs.CodePlaces[run.Number]);
        line.AsSpan(first, count).Fill(-1);
        height.AsSpan(first, count).Fill(double.NaN);
        if (pieces is null) return;
        for (var member = 0; member < count; member++)
        {
            var (at, within) = (shots.At(run.Members[member]), site.Settings.DesignReach);
            if (member > 0 && line[first + member - 1] is >= 0 and var before && pieces.Beside(before, at, out var here) is var stays && stays.Distance <= within)
            {
                Set(first + member, before, here, stays);
                within = stays.Distance - AsNear; // another line must be nearer by more
            }

            if (within >= 0 && pieces.Within(at, within) is { } found) Set(first + member, found.Line, found.Piece, found.Beside);
        }

        for (var member = count - 2; member >= 0; member--) // where the run comes to a line, it may have come to it a shot before
            if (member == 0 || line[first + member - 1] != line[first + member]) Prefer(pieces, first + member, line[first + member + 1], shots.At(run.Members[member]));
        for (var member = 0; member < count; member++)
        {
            if (line[first + member] < 0) continue;
            var own = design.Lines[line[first + member]];
            if (own.HeightAt(chainage[first + member]) is not { } designed || levels.Of(run, member, own.Level) is not { } built) continue;
            (height[first + member], grade[first + member]) = (built - designed.Height, designed.Grade);
        }
    }

    private void Set(int at, int found, int on, in Locus beside) => (line[at], piece[at], chainage[at], offset[at], distance[at]) = (found, on, beside.Along, beside.Offset, beside.Distance);

    private void Prefer(DesignPieces pieces, int at, int neighbour, Point2 place)
    {
        if (line[at] < 0 || neighbour < 0 || neighbour == line[at]) return;
        var beside = pieces.Beside(neighbour, place, out var on);
        if (beside.Distance <= distance[at] + AsNear) Set(at, neighbour, on, beside);
    }

    private void MatchPoints()
    {
        foreach (var place in Enumerable.Range(0, site.Shots.Book.Entries.Length))
        {
            var of = design.PointsOf(place);
            if (of.Count == 0) continue;
            var boxes = of.Select(number => Box2.Of(design.Points[number].Point.At, design.Points[number].Point.At)).ToArray();
            var index = BoxIndex.Of(boxes);
            foreach (var row in site.CodeMembers.PointsOf(place))
            {
                var nearest = index.Nearest(site.Shots.At(row), out var away);
                if (away <= site.Settings.DesignReach) points[row] = (of[nearest], away);
            }
        }
    }
}

/// <summary>A place on a line of the design.</summary>
/// <param name="Piece">The piece of the line.</param>
/// <param name="Chainage">Metres along the line.</param>
/// <param name="Offset">Metres square off it, right positive.</param>
/// <param name="Distance">Metres in plan.</param>
/// <param name="Height">Metres built above the design; null where either has no height.</param>
/// <param name="Grade">Rise of the design per metre.</param>
public readonly record struct DesignPlace(DesignedLine Line, int Piece, double Chainage, double Offset, double Distance, double? Height, double Grade);

/// <summary>Heights of members at the level that a design speaks of.</summary>
internal sealed class BuiltLevels(Site site)
{
    private readonly LevelsOfRuns levels = new(site);
    private readonly AttributeValues measuredAt = new(site.Shots, "measured_at");
    private readonly bool isSaid = new AttributeValues(site.Shots, "measured_at").HasColumn || site.Runs.HasAttribute("measured_at");

    /// <param name="wanted">Level wanted; null for that at which the code is measured.</param>
    public double? Of(Run run, int member, string? wanted)
    {
        var row = run.Members[member];
        var usual = run.Entry?.MeasuredAt;
        wanted ??= usual;
        if (wanted is null || (!isSaid && wanted == usual)) return site.Shots.HeightOf(row);
        if ((measuredAt.Set(run) ?? measuredAt.Of(row) ?? usual) == wanted) return site.Shots.HeightOf(row);
        var of = levels.Of(run, member);
        return wanted switch { "top" => of.Top, "centre" => of.Centre, "invert" => of.Invert, "soffit" => of.Soffit, "underside" => of.Underside, _ => null };
    }
}
