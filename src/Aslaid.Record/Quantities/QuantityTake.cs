using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>
/// Adds up what was built, code by code in the order of the code book, unknown codes after it. Only what is new counts; what was
/// superseded or measured again as a check is no run any more.
/// </summary>
internal static class QuantityTake
{
    public static ImmutableArray<Quantity> Of(Site site, ImmutableArray<Hold> holds)
    {
        var held = holds.Where(hold => (hold.State == HoldState.Held || !hold.By.IsEmpty) && site.Runs[hold.Run].Counts).GroupBy(hold => site.Runs[hold.Run].Code, StringComparer.Ordinal)
            .ToDictionary(code => code.Key, code => code.Sum(hold => hold.To - hold.From), StringComparer.Ordinal);
        var book = site.Shots.Book;
        var runs = Enumerable.Range(0, site.Runs.Count).Select(number => site.Runs[number]).Where(run => run.Counts).ToLookup(run => run.Code, StringComparer.Ordinal);
        var status = new AttributeValues(site, "status");
        var points = site.Points.Where(row => RunFacts.IsNew(status, row)).ToLookup(site.Shots.CodeOf, StringComparer.Ordinal);
        var sums = new GradientSums(site);
        var codes = book.Entries.Select(entry => entry.Code).Concat(runs.Select(g => g.Key)).Concat(points.Select(g => g.Key)).Distinct(StringComparer.Ordinal);
        var quantities = ImmutableArray.CreateBuilder<Quantity>();
        foreach (var code in codes)
        {
            var item = book[code]?.PayItem;
            if (runs.Contains(code))
            {
                var all = runs[code].ToArray();
                quantities.Add(sums.Add(code, item, QuantityKind.PlanLength, all) with { Held = held.GetValueOrDefault(code) });
                quantities.Add(sums.Add(code, item, QuantityKind.SlopeLength, all));
                if (book[code]?.Kind == CodeKind.Area) quantities.Add(sums.Add(code, item, QuantityKind.Area, all) with { Gross = all.Where(run => run.PieceCount > 0).Sum(run => run.Area) });
            }

            if (points.Contains(code)) quantities.Add(new(code, item, QuantityKind.Count, points[code].Count(), 0, points[code].Count(), 0));
        }

        return quantities.ToImmutable();
    }

    /// <summary>Adds measures of runs with their gradients by shot and session, so that a shot in two runs counts once.</summary>
    private sealed class GradientSums(Site site)
    {
        private readonly Propagation propagation = new(site.Shots);

        public Quantity Add(string code, string? item, QuantityKind kind, Run[] runs)
        {
            var (sum, counted) = (0.0, 0);
            foreach (var run in runs)
            {
                if (run.PieceCount == 0 || Value(run, kind) is not { } value) continue;
                sum += value;
                counted++;
                Propagate(run, kind);
            }

            var u = propagation.Take();
            return new(code, item, kind, sum, double.IsNaN(u) ? null : u, counted, runs.Length - counted) { NodeLeftOutShare = site.Settings.NodeLeftOutShare };
        }

        private double? Value(Run run, QuantityKind kind) => kind switch
        {
            QuantityKind.PlanLength => run.PlanLength - LeftOut(run),
            QuantityKind.SlopeLength => run.SlopeLength - LeftOut(run),
            _ => site.Holes.AreaOf(run.Number) is { } outer && run.Code == site.Runs[outer].Code ? 0 : site.Holes.Net(run),
        };

        private double LeftOut(Run run) => site.Settings.NodeLeftOutShare == 0 ? 0 : NodeSizes.LeftOut(site, run).Sum();

        private void Propagate(Run run, QuantityKind kind)
        {
            var gradients = run.Table.Gradients;
            if (kind == QuantityKind.PlanLength) propagation.Add(run.Members, Own(gradients.PlanEast), Own(gradients.PlanNorth));
            else if (kind == QuantityKind.SlopeLength) propagation.Add(run.Members, Own(gradients.SlopeEast), Own(gradients.SlopeNorth), Own(gradients.SlopeHeight));
            else if (ShotMeasure.Of(run, kind) is { } measure && Value(run, kind) != 0)
            {
                propagation.Add(measure.Gradient.AsSpan());
                foreach (var hole in site.Holes.Of(run.Number))
                    if (ShotMeasure.Of(site.Runs[hole], kind) is { } less) propagation.Add([.. less.Gradient.Select(term => new ShotTerm(term.Shot, -term.East, -term.North, -term.Height))]);
            }

            ReadOnlySpan<double> Own(double[] column) => column.AsSpan(run.FirstMember, run.MemberCount);
        }
    }
}
