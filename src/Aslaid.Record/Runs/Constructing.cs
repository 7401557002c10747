using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Points that the journal has constructed from shots: rows after all shots, computed once the shots' heights and accuracy stand.</summary>
internal static class Constructing
{
    /// <summary>The shots, and after them a row for each constructed point, still without a place. The shots' own table where there is none.</summary>
    public static ShotTable Table(ShotTable shots, ImmutableArray<JournalEntry> inForce)
    {
        if (!inForce.Any(entry => entry.What is PointConstructed)) return shots;
        var builder = new ShotTableBuilder(shots) { FirstConstructed = shots.Count };
        foreach (var entry in inForce)
        {
            if (entry.What is not PointConstructed made) continue;
            var (label, crew) = Named(made.Run);
            var row = builder.Add(Encoding.UTF8.GetBytes(made.Id), double.NaN, double.NaN, double.NaN, builder.Codes.Keep(made.Code), builder.Labels.Keep(label),
                Leg.Straight, entry.Position, -1, long.MinValue, short.MinValue, double.NaN, double.NaN);
            builder.TextColumn("constructed")[row] = builder.Texts.Keep(ConstructedPoints.Words(made.How));
            if (crew is not null) builder.TextColumn("crew")[row] = builder.Texts.Keep(crew);
        }

        return builder.Build();
    }

    /// <summary>Label and crew of <c>WM-1@North</c>.</summary>
    private static (string? Label, string? Crew) Named(string? run)
    {
        var at = run?.LastIndexOf('@') ?? -1;
        return at > 0 ? (run![..at], run[(at + 1)..]) : (string.IsNullOrEmpty(run) ? null : run, null);
    }

    public static void Fill(CurrentShots shots, ImmutableArray<JournalEntry> inForce, ICollection<string> unresolved)
    {
        if (shots.Raw.FirstConstructed == shots.Count) return;
        var points = shots.Constructed = new();
        var fits = new Dictionary<string, TangentFit?>(StringComparer.Ordinal);
        foreach (var entry in inForce)
        {
            if (entry.What is not PointConstructed made) continue;
            var row = shots.Raw.Find(new(0, entry.Position));
            if (Parents(shots, made.How, row, out var problem) is { } parents && Place(shots, made.How, parents, fits, out problem) is { } place)
            {
                if (shots.UsedColumn[row]) Put(shots, points, row, entry.Position, made.How, parents, place, made.How.Kind is ConstructionKind.TangentStart or ConstructionKind.TangentMiddle or ConstructionKind.TangentEnd ? fits[FitKey(made.How)] : null);
                continue;
            }

            shots.UsedColumn[row] = false;
            (shots.SessionColumn[row], shots.SigmaPlanColumn[row], shots.SigmaHeightColumn[row]) = (0, double.NaN, double.NaN);
            unresolved.Add(string.Create(CultureInfo.InvariantCulture, $"Journal {entry.Position}: {made.Id} cannot be constructed: {problem}."));
        }
    }

    private static int[]? Parents(CurrentShots shots, Construction how, int before, out string? problem)
    {
        problem = null;
        var rows = new int[how.Parents.Length];
        for (var i = 0; i < rows.Length; i++)
        {
            var row = shots.Raw.Find(how.Parents[i]);
            if (row < 0) problem = $"there is no shot {how.Parents[i]}";
            else
            {
                rows[i] = shots.Shot(shots.Versions.Stand(row));
                if (!shots.Used[rows[i]]) problem = $"{how.Parents[i]} is set aside";
                else if (rows[i] >= before) problem = $"{how.Parents[i]} is constructed later";
            }

            if (problem is not null) return null;
        }

        var needed = how.Kind switch
        {
            ConstructionKind.Tape or ConstructionKind.BearingAndDistance => 1, ConstructionKind.Offset or ConstructionKind.TwoDistances => 2, ConstructionKind.LineWithLine => 4, _ => rows.Length,
        };
        if (rows.Length == needed) return rows;
        problem = string.Create(CultureInfo.InvariantCulture, $"it needs {needed} shots and names {rows.Length}");
        return null;
    }

    private static ConstructedPlace? Place(CurrentShots shots, Construction how, int[] parents, Dictionary<string, TangentFit?> fits, out string? problem)
    {
        problem = null;
        Place3 At(int parent) => new(shots.At(parents[parent]), shots.HeightOf(parents[parent]));
        double Value(int reading) => reading < how.Readings.Length ? how.Readings[reading].Value : 0;
        var (place, fault) = ((ConstructedPlace?)null, ConstructionFault.None);
        switch (how.Kind)
        {
            case ConstructionKind.Tape: return Constructed.Tape(At(0), Value(0));
            case ConstructionKind.BearingAndDistance: return Constructed.ByBearing(At(0), Value(0), Value(1), Value(2));
            case ConstructionKind.Offset: Constructed.TryOffset(At(0), At(1), Value(0), Value(1), Value(2), out place, out fault); break;
            case ConstructionKind.TwoDistances: Constructed.TryTwoDistances(At(0), At(1), Value(0), Value(1), how.Side, out place, out fault); break;
            case ConstructionKind.LineWithLine: Constructed.TryLineWithLine(At(0), At(1), At(2), At(3), out place, out fault); break;
            default: return Tangent(shots, how, parents, fits, out problem);
        }

        problem = fault switch
        {
            ConstructionFault.OnePlace => "two of its shots are one place",
            ConstructionFault.NoMeeting => "the two distances do not meet",
            ConstructionFault.NearlyInLine => "both lines run nearly the same way, and nothing tells where they meet",
            _ => null,
        };
        return place;
    }

    private static string FitKey(Construction how) => string.Join(' ', how.Parents);

    private static ConstructedPlace? Tangent(CurrentShots shots, Construction how, int[] parents, Dictionary<string, TangentFit?> fits, out string? problem)
    {
        problem = null;
        var fault = TangentFault.NoBend;
        if (!fits.TryGetValue(FitKey(how), out var fit))
        {
            TangentFitting.TryFit(Array.ConvertAll(parents, shots.At), out fit, out fault);
            fits.Add(FitKey(how), fit);
        }

        if (fit is null)
        {
            problem = fault switch
            {
                TangentFault.TooFew => "straight, arc and straight need two, one and two shots",
                TangentFault.NotConverged => "the fit did not settle",
                _ => "its shots do not bend from one straight into another",
            };
            return null;
        }

        var at = how.Kind switch { ConstructionKind.TangentStart => fit.Start, ConstructionKind.TangentMiddle => fit.Middle, _ => fit.End };
        var (low, high, share) = Between(fit, how.Kind, parents.Length);
        var answers = new PlaceAnswer[parents.Length];
        for (var i = 0; i < answers.Length; i++)
        {
            var by = fit.ByPlace[i];
            var move = how.Kind switch { ConstructionKind.TangentStart => by.Start, ConstructionKind.TangentMiddle => by.Middle, _ => by.End };
            answers[i] = new(by.Left.East * move, by.Left.North * move, 0, 0, (i == low ? 1 - share : 0) + (i == high ? share : 0));
        }

        return new(at, (1 - share) * shots.HeightOf(parents[low]) + share * shots.HeightOf(parents[high]), answers, []);
    }

    /// <summary>The two shots that share the height of a tangent point, halfway between those on either side of it.</summary>
    private static (int Low, int High, double Share) Between(TangentFit fit, ConstructionKind kind, int count) => kind switch
    {
        ConstructionKind.TangentStart => (fit.FirstStraight - 1, fit.FirstStraight, 0.5),
        ConstructionKind.TangentEnd => (fit.FirstStraight + fit.OnArc - 1, Math.Min(count - 1, fit.FirstStraight + fit.OnArc), 0.5),
        _ => (fit.FirstStraight + (fit.OnArc - 1) / 2, fit.FirstStraight + fit.OnArc / 2, 0.5),
    };

    private static void Put(
        CurrentShots shots, ConstructedPoints points, int row, int entry, Construction how, int[] parents, ConstructedPlace place, TangentFit? fit)
    {
        var (byShot, byReading) = (new SortedDictionary<int, PlaceAnswer>(), new SortedDictionary<int, ReadingAnswer>());
        for (var parent = 0; parent < parents.Length; parent++)
        {
            var answer = place.ByPlace[parent];
            if (points.Find(parents[parent]) is not { } made)
            {
                byShot[parents[parent]] = Sum(byShot.GetValueOrDefault(parents[parent]), answer);
                continue;
            }

            foreach (var (shot, inner) in made.ByShot) byShot[shot] = Sum(byShot.GetValueOrDefault(shot), Chain(answer, inner));
            foreach (var (number, inner) in made.ByReading) byReading[number] = Sum(byReading.GetValueOrDefault(number), Chain(answer, inner));
        }

        for (var reading = 0; reading < place.ByReading.Length; reading++)
            byReading[points.Keep(reading < how.Readings.Length ? how.Readings[reading].U : 0)] = place.ByReading[reading];
        points.Add(new(row, entry, how, [.. byShot.Select(term => new ConstructedTerm(term.Key, term.Value))], [.. byReading.Select(term => new ConstructedReading(term.Key, term.Value))], fit));
        (shots.Raw.EastColumn[row], shots.Raw.NorthColumn[row]) = (place.At.East, place.At.North);
        shots.HeightColumn[row] = place.Height ?? double.NaN;
        shots.SessionColumn[row] = shots.SessionColumn[parents[0]];
        double plan = 0, height = 0;
        foreach (var (shot, answer) in byShot)
        {
            var (sigma, up) = (shots.SigmaPlanColumn[shot], shots.SigmaHeightColumn[shot]);
            plan += (answer.ByEast.SizeSquared + answer.ByNorth.SizeSquared) / 2 * sigma * sigma;
            var across = answer.HeightByEast * answer.HeightByEast + answer.HeightByNorth * answer.HeightByNorth;
            height += (across == 0 ? 0 : across * sigma * sigma) + (answer.HeightByHeight == 0 ? 0 : answer.HeightByHeight * answer.HeightByHeight * up * up);
        }

        foreach (var (number, answer) in byReading)
        {
            var u = points.U(number);
            (plan, height) = (plan + answer.Plan.SizeSquared / 2 * u * u, height + answer.Height * answer.Height * u * u);
        }

        (shots.SigmaPlanColumn[row], shots.SigmaHeightColumn[row]) = (Math.Sqrt(plan), Math.Sqrt(height));
    }

    private static PlaceAnswer Sum(PlaceAnswer a, PlaceAnswer b) =>
        new(a.ByEast + b.ByEast, a.ByNorth + b.ByNorth, a.HeightByEast + b.HeightByEast, a.HeightByNorth + b.HeightByNorth, a.HeightByHeight + b.HeightByHeight);

    private static ReadingAnswer Sum(ReadingAnswer a, ReadingAnswer b) => new(a.Plan + b.Plan, a.Height + b.Height);

    private static PlaceAnswer Chain(PlaceAnswer outer, PlaceAnswer inner) => new(
        Through(outer, inner.ByEast), Through(outer, inner.ByNorth), Rise(outer, inner.ByEast, inner.HeightByEast), Rise(outer, inner.ByNorth, inner.HeightByNorth),
        outer.HeightByHeight * inner.HeightByHeight);

    private static ReadingAnswer Chain(PlaceAnswer outer, ReadingAnswer inner) => new(Through(outer, inner.Plan), Rise(outer, inner.Plan, inner.Height));

    private static Step Through(PlaceAnswer outer, Step move) => move.East * outer.ByEast + move.North * outer.ByNorth;

    private static double Rise(PlaceAnswer outer, Step move, double rise) => move.East * outer.HeightByEast + move.North * outer.HeightByNorth + rise * outer.HeightByHeight;
}
