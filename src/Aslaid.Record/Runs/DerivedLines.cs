using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>A line that nobody shot: a run moved aside and up by its section. It is counted in nothing.</summary>
/// <param name="Of">Number of the run.</param>
/// <param name="Part">The section's row.</param>
/// <param name="Path">With arcs where the run has them: an arc's part is the concentric arc.</param>
/// <param name="PlanLength">Metres in plan.</param>
public sealed record DerivedLine(int Of, SectionPart Part, Path Path, double PlanLength)
{
    /// <summary>Key of the run and the part, as <c>KERB-FACE/KF-1@North:back</c>.</summary>
    public string Key(RunTable runs) => $"{runs[Of].Key}:{Part.Part}";
}

/// <summary>Makes the derived lines of a record.</summary>
public static class DerivedLines
{
    /// <summary>By run, then in the order of the table. A run of one shot has none, nor has a part that would turn an arc inside out.</summary>
    public static IEnumerable<DerivedLine> Of(AsBuiltRecord record) => Of(record.Runs, record.Inputs.Sections);

    internal static IEnumerable<DerivedLine> Of(RunTable runs, SectionTable sections)
    {
        if (sections.Parts.IsEmpty) yield break;
        var byCode = sections.Parts.ToLookup(part => part.Code, StringComparer.Ordinal);
        for (var number = 0; number < runs.Count; number++)
        {
            var run = runs[number];
            if (run.PieceCount == 0) continue;
            foreach (var part in byCode[run.Code])
                if (Moved(run, part) is { } path) yield return new(number, part, path, path.PlanLength);
        }
    }

    private static Path? Moved(Run run, SectionPart part)
    {
        for (var piece = 0; piece < run.PieceCount; piece++)
        {
            var p = run.Piece(piece);
            if (p.Kind == PieceKind.Arc && (p.Arc.Turn == Turn.Right ? part.Right : -part.Right) >= p.Arc.Radius) return null;
        }

        var vertices = ImmutableArray.CreateBuilder<PathVertex>(run.MemberCount);
        var places = new Point2[run.MemberCount];
        for (var piece = 0; piece < run.PieceCount; piece++)
        {
            var p = run.Piece(piece);
            for (var member = p.First; member < p.Last; member++)
                places[member] = member == p.First ? Joint(run, piece, part.Right) : OnArc(p.Arc, run.Table.Shots.At(run.Members[member]), part.Right);
        }

        places[^1] = Joint(run, run.PieceCount, part.Right);
        if (run.IsClosed) places[^1] = places[0];
        for (var member = 0; member < run.MemberCount; member++)
            vertices.Add(new(places[member], run.Table.Shots.HeightOf(run.Members[member]) + part.Up, run.Through[member]));
        var pieces = ImmutableArray.CreateBuilder<PathPiece>(run.PieceCount);
        for (var piece = 0; piece < run.PieceCount; piece++)
        {
            var p = run.Piece(piece);
            if (p.Kind == PieceKind.Straight || !Concentric(p.Arc, places[p.First], places[p.Last], part.Right, out var arc)) pieces.Add(new(PieceKind.Straight, p.First, p.Last, default));
            else pieces.Add(new(PieceKind.Arc, p.First, p.Last, arc));
        }

        return Path.Of(vertices.MoveToImmutable(), pieces.MoveToImmutable());
    }

    private static bool Concentric(Arc arc, Point2 from, Point2 to, double right, out Arc moved)
    {
        if (!arc.IsFullCircle) return Arc.TryThrough(from, OnArc(arc, arc.MidPoint, right), to, 0, out moved, out _);
        moved = Arc.FromParts(from, from, arc.Centre, from.DistanceTo(arc.Centre), double.Tau, arc.Turn);
        return true;
    }

    private static Point2 OnArc(Arc arc, Point2 at, double right)
    {
        var outward = at - arc.Centre;
        var radius = arc.Radius + (arc.Turn == Turn.Right ? -right : right);
        return arc.Centre + radius / outward.Size * outward;
    }

    /// <summary>Where the parts of two pieces meet: on the line that halves their corner; at an open end square to the run.</summary>
    private static Point2 Joint(Run run, int piece, double right)
    {
        var before = piece > 0 ? piece - 1 : run.IsClosed ? run.PieceCount - 1 : -1;
        var after = piece < run.PieceCount ? piece : run.IsClosed ? 0 : -1;
        var at = piece < run.PieceCount ? run.Piece(piece).From : run.Piece(piece - 1).To;
        Step? a = before < 0 ? null : Way(run.Piece(before), atEnd: true), b = after < 0 ? null : Way(run.Piece(after), atEnd: false);
        var (first, second) = (-1 * (a ?? b)!.Value.Left, -1 * (b ?? a)!.Value.Left);
        var both = first + second;
        var half = 1 + first.Dot(second);
        return half < 0.1 ? at + right * first : at + right / half * both; // a hairpin has no mitre
    }

    private static Step Way(Piece piece, bool atEnd) =>
        piece.Kind == PieceKind.Arc ? piece.Arc.BearingAt(atEnd ? piece.PlanLength : 0).Unit : piece.Straight.Bearing.Unit;
}
