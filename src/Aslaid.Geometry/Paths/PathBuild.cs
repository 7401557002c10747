using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

namespace Aslaid.Geometry;

public sealed partial class Path
{
    /// <summary>A path from vertices with through-marks: a straight between two ordinary neighbours; an arc through one
    /// through-place; a best-fit arc, held at its ends, through more; a full circle where the first and last place are the same
    /// and all between, two or more, are through-places (best fit from three on, not held).</summary>
    /// <param name="flatness">Metres; how far a through-place must leave the straight to prove an arc: three times the standard
    /// uncertainty of the mid-ordinate.</param>
    /// <param name="notes">What was amiss; empty where nothing was.</param>
    /// <returns>False only for fewer than two vertices. Places that prove no arc become straights through them all, and a note.</returns>
    public static bool TryBuild(ReadOnlySpan<PathVertex> vertices, double flatness,
        [NotNullWhen(true)] out Path? path, out ImmutableArray<PathNote> notes) =>
        TryBuild(vertices, (_, _) => flatness, out path, out notes);

    /// <inheritdoc cref="TryBuild(ReadOnlySpan{PathVertex}, double, out Path, out ImmutableArray{PathNote})"/>
    /// <param name="flatness">Metres, asked for each arc by its first and last vertex.</param>
    public static bool TryBuild(ReadOnlySpan<PathVertex> vertices, Func<int, int, double> flatness,
        [NotNullWhen(true)] out Path? path, out ImmutableArray<PathNote> notes)
    {
        path = null;
        notes = [];
        if (vertices.Length < 2) return false;
        var pieces = ImmutableArray.CreateBuilder<PathPiece>(vertices.Length - 1);
        var found = ImmutableArray.CreateBuilder<PathNote>();
        var last = vertices.Length - 1;
        if (vertices[0].Through) found.Add(new(PathFault.ThroughAtEnd, 0, 0));
        for (var from = 0; from < last;)
        {
            var to = from + 1;
            while (to < last && vertices[to].Through) to++;
            if (to == from + 1)
            {
                if (vertices[from].At == vertices[to].At) found.Add(new(PathFault.Coincident, from, to));
                pieces.Add(new(PieceKind.Straight, from, to, default));
            }
            else if (TryArc(vertices, from, to, flatness(from, to), out var arc, out var fault))
                pieces.Add(new(PieceKind.Arc, from, to, arc));
            else
            {
                found.Add(new(fault, from, to));
                for (var v = from; v < to; v++) pieces.Add(new(PieceKind.Straight, v, v + 1, default));
            }
            from = to;
        }
        if (vertices[last].Through) found.Add(new(PathFault.ThroughAtEnd, last, last));
        path = new([.. vertices], pieces.DrainToImmutable());
        notes = found.DrainToImmutable();
        return true;
    }

    private static bool TryArc(ReadOnlySpan<PathVertex> vertices, int first, int last, double flatness, out Arc arc, out PathFault fault)
    {
        var closes = vertices[first].At == vertices[last].At;
        var whole = closes && first == 0 && last == vertices.Length - 1 && last >= 3;
        var places = new Point2[last - first + (whole ? 0 : 1)];
        for (var i = 0; i < places.Length; i++) places[i] = vertices[first + i].At;

        ArcFault why;
        bool made;
        if (places.Length == 3)
            made = whole
                ? Arc.TryFullCircle(places[0], places[1], places[2], flatness, out arc, out why)
                : Arc.TryThrough(places[0], places[1], places[2], flatness, out arc, out why);
        else
        {
            made = whole
                ? ArcFitting.TryCircle(places, flatness, out var fit, out why)
                : ArcFitting.TryHeld(places, flatness, out fit, out why);
            arc = fit.Arc;
        }
        fault = why switch { ArcFault.Coincident => PathFault.Coincident, ArcFault.NotConverged => PathFault.NotConverged, _ => PathFault.Straight };
        return made;
    }
}
