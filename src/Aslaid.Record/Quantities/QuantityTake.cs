using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Adds up what was built, code by code in the order of the code book, unknown codes after it.</summary>
internal static class QuantityTake
{
    public static ImmutableArray<Quantity> Of(Site site)
    {
        var book = site.Shots.Book;
        var runs = Enumerable.Range(0, site.Runs.Count).Select(number => site.Runs[number]).ToLookup(run => run.Code, StringComparer.Ordinal);
        var points = site.Points.ToLookup(site.Shots.CodeOf, StringComparer.Ordinal);
        var sums = new GradientSums(site);
        var codes = book.Entries.Select(entry => entry.Code).Concat(runs.Select(g => g.Key)).Concat(points.Select(g => g.Key)).Distinct(StringComparer.Ordinal);
        var quantities = ImmutableArray.CreateBuilder<Quantity>();
        foreach (var code in codes)
        {
            var item = book[code]?.PayItem;
            if (runs.Contains(code))
            {
                var all = runs[code].ToArray();
                quantities.Add(sums.Add(code, item, QuantityKind.PlanLength, all));
                quantities.Add(sums.Add(code, item, QuantityKind.SlopeLength, all));
                if (book[code]?.Kind == CodeKind.Area) quantities.Add(sums.Add(code, item, QuantityKind.Area, all));
            }

            if (points.Contains(code)) quantities.Add(new(code, item, QuantityKind.Count, points[code].Count(), 0, points[code].Count(), 0));
        }

        return quantities.ToImmutable();
    }

    /// <summary>Adds measures of runs with their gradients by shot and session, so that a shot in two runs counts once.</summary>
    private sealed class GradientSums(Site site)
    {
        private readonly CurrentShots shots = site.Shots;
        private readonly double[] east = new double[site.Shots.Count];
        private readonly double[] north = new double[site.Shots.Count];
        private readonly double[] height = new double[site.Shots.Count];
        private readonly bool[] seen = new bool[site.Shots.Count];
        private readonly List<int> touched = [];

        public Quantity Add(string code, string? item, QuantityKind kind, Run[] runs)
        {
            var (sum, counted) = (0.0, 0);
            foreach (var run in runs)
            {
                if (run.PieceCount == 0 || Value(run, kind) is not { } value) continue;
                sum += value;
                counted++;
                Gather(run, kind);
            }

            return new(code, item, kind, sum, Uncertainty(), counted, runs.Length - counted);
        }

        private static double? Value(Run run, QuantityKind kind) => kind switch
        {
            QuantityKind.PlanLength => run.PlanLength,
            QuantityKind.SlopeLength => run.SlopeLength,
            _ => run.Area,
        };

        private void Gather(Run run, QuantityKind kind)
        {
            if (run.PieceCount == 0) return; // a run of one shot has no path and nothing that could be uncertain
            var path = run.Path;
            var count = run.MemberCount;
            var (e, n, h) = (new double[count], new double[count], new double[count]);
            var sign = 1.0;
            if (kind == QuantityKind.PlanLength) PathMeasures.PlanLength(path.Span, e, n);
            else if (kind == QuantityKind.SlopeLength) PathMeasures.SlopeLength(path.Span, e, n, h);
            else sign = Math.Sign(PathMeasures.Area(path.Span, e, n)); // the area is taken without its sense
            for (var member = 0; member < count; member++)
            {
                var shot = run.Members[member];
                if (!seen[shot])
                {
                    seen[shot] = true;
                    touched.Add(shot);
                }

                east[shot] += sign * e[member];
                north[shot] += sign * n[member];
                height[shot] += sign * h[member];
            }
        }

        private double? Uncertainty()
        {
            var (sum, sessions) = (0.0, new SortedDictionary<int, (double E, double N, double H)>());
            foreach (var shot in touched)
            {
                var (e, n, h) = (east[shot], north[shot], height[shot]);
                if (e != 0 || n != 0) sum += (e * e + n * n) * shots.SigmaPlan[shot] * shots.SigmaPlan[shot];
                if (h != 0) sum += h * h * shots.SigmaHeight[shot] * shots.SigmaHeight[shot];
                var (se, sn, sh) = sessions.GetValueOrDefault(shots.Session[shot]);
                sessions[shots.Session[shot]] = (se + e, sn + n, sh + h);
                (east[shot], north[shot], height[shot], seen[shot]) = (0, 0, 0, false);
            }

            touched.Clear();
            var (uPlan, uHeight) = (site.Settings.SessionUPlan / Math.Sqrt(2), site.Settings.SessionUHeight);
            foreach (var (e, n, h) in sessions.Values) sum += (e * e + n * n) * uPlan * uPlan + h * h * uHeight * uHeight;
            return double.IsNaN(sum) ? null : Math.Sqrt(sum);
        }
    }
}
