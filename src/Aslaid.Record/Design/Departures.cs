using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Where a run leaves the design farthest, between its shots too.</summary>
/// <param name="At">The place, and how far it is off.</param>
/// <param name="U">Standard uncertainty of that distance, metres; null where a shot states none, and where it is nothing.</param>
public sealed record RunDeparture(Run Run, DesignedLine Line, PathDeparture At, double? U);

/// <summary>Departures of built paths from designed ones, arcs included: made when somebody asks.</summary>
public static class Departures
{
    /// <summary>Of a run; null where no piece of it has both ends on the design.</summary>
    /// <remarks>A piece between two lines that meet counts to that which it leaves less.</remarks>
    public static RunDeparture? Of(Site site, Run run)
    {
        if (run.PieceCount == 0 || !site.Match.Any(run)) return null;
        var (path, most, line) = (run.Path, (PathDeparture?)null, (DesignedLine?)null);
        for (var piece = 0; piece < run.PieceCount; piece++)
        {
            if (site.Match.Of(run, run.Piece(piece).First) is not { } from || site.Match.Of(run, run.Piece(piece).Last) is not { } to) continue;
            var (here, on) = (path.Departure(piece, from.Line.Path), from.Line);
            if (to.Line != from.Line && path.Departure(piece, to.Line.Path) is var other && other.Distance < here.Distance) (here, on) = (other, to.Line);
            if (most is null || here.Distance > most.Value.Distance) (most, line) = (here, on);
        }

        return most is { } found ? new(run, line!, found, U(site, run, found)) : null;
    }

    /// <summary>dd = n·dF, n the unit step from the design's foot to the place: the place keeps its share of its piece, the foot may slide.</summary>
    private static double? U(Site site, Run run, PathDeparture at)
    {
        if (!(at.Distance > 0)) return null;
        var sum = new GradientSum();
        RunPlace.AtChainage(run, at.Here).Add(sum, 1 / at.Distance * (at.At - at.Beside.Foot));
        return sum.Of(at.Distance).U(site.Shots);
    }
}
