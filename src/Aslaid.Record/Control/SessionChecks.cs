using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Check shots by session: how far they miss, what is allowed, and how well it is known.</summary>
internal sealed class SessionChecks
{
    /// <summary>How often the combined standard uncertainty a misfit may be: three, since six perfect checks judged at two would alarm on every fourth day.</summary>
    private const double Often = 3;

    /// <summary>Misfits never over this share of the tightest tolerance measured in the session.</summary>
    private const double ShareOfTolerance = 0.5;

    /// <summary>m²: keeps a shot that claims to be exact from dividing by nothing.</summary>
    private const double Least = 1e-12;

    private readonly Site site;
    private readonly PoleLean lean;

    public SessionChecks(Site site)
    {
        this.site = site;
        lean = new(site.Shots.Raw, site.Settings);
        Tightest = site.CheckShots.IsEmpty ? [] : TightestOf(site);
        Misfits = [.. site.CheckShots.Select(Judge)];
        All = [.. Enumerable.Range(0, site.CheckShots.Length).Where(check => !site.BatchPlaces.Explains(site.CheckShots[check].Row)).GroupBy(check => Session(check)).Select(session => session.ToImmutableArray())];
    }

    /// <summary>By place in the list of check shots.</summary>
    public ImmutableArray<Misfit> Misfits { get; }

    /// <summary>Places in the list of check shots, by session; in the order of the rows. Those of a batch that lies wrong as a whole are left out.</summary>
    public ImmutableArray<ImmutableArray<int>> All { get; }

    /// <summary>The tightest tolerance of the codes shot in each session, metres; infinite where there is none. Empty without check shots.</summary>
    public (double Plan, double Height)[] Tightest { get; }

    /// <summary>Half the tightest tolerance of a session in plan, and never over the ceiling of the settings.</summary>
    public double PlanCeiling(int session) => Math.Min(site.Settings.ControlPlanMax, ShareOfTolerance * Tightest[session].Plan);

    /// <summary>The same in height.</summary>
    public double HeightCeiling(int session) => Math.Min(site.Settings.ControlHeightMax, ShareOfTolerance * Tightest[session].Height);

    private int Session(int check) => site.Shots.SessionColumn[site.CheckShots[check].Row];

    private Misfit Judge(CheckShot check)
    {
        var (shots, known, session) = (site.Shots, site.Control[check.Point], site.Shots.SessionColumn[check.Row]);
        var uPlan = Math.Sqrt(2) * shots.SigmaPlan[check.Row]; // radial, as control states it
        var uHeight = shots.SigmaHeight[check.Row];
        return new(
            check.Plan, Limit(known.UPlan, uPlan, PlanCeiling(session)), Limit(known.UPlan, uPlan, site.Settings.ControlPlanMax),
            Sure(known.UPlan, uPlan, site.Settings.SessionUPlan, site.Settings.ControlPlanMax),
            Math.Abs(check.Height ?? 0), Limit(known.UHeight, uHeight, HeightCeiling(session)), Limit(known.UHeight, uHeight, site.Settings.ControlHeightMax),
            Sure(known.UHeight, uHeight, site.Settings.SessionUHeight, site.Settings.ControlHeightMax));
    }

    /// <summary>min(3√(u_control² + u_shot²), ceiling). Accuracy that nobody stated widens nothing.</summary>
    private static double Limit(double? uControl, double uShot, double ceiling) =>
        double.IsNaN(uShot) ? ceiling : Math.Min(ceiling, Often * double.Hypot(uControl ?? 0, uShot));

    /// <summary>3√(u_control² + u_shot² + u_session²): beyond what any session may have in common. Without stated accuracy the ceiling.</summary>
    private static double Sure(double? uControl, double uShot, double uSession, double ceiling) =>
        double.IsNaN(uShot) ? ceiling : Often * Math.Sqrt(Square(uControl ?? 0) + uShot * uShot + uSession * uSession);

    private static (double Plan, double Height)[] TightestOf(Site site)
    {
        var codes = site.Shots.Book.Entries.Length;
        var ofCode = new (double Plan, double Height)[codes];
        for (var place = 0; place < codes; place++)
        {
            var entry = site.Shots.Book.Entries[place];
            ofCode[place] = (Above0(entry.TolerancePlan), Math.Min(Above0(entry.ToleranceHeight), Math.Min(Above0(entry.ToleranceHigh), Above0(entry.ToleranceLow))));
        }

        var sessions = new (double Plan, double Height)[site.Shots.SessionCount];
        sessions.AsSpan().Fill((double.PositiveInfinity, double.PositiveInfinity));
        foreach (var row in site.ShotRows)
        {
            if (site.Shots.PlaceColumn[row] < 0) continue;
            ref var session = ref sessions[site.Shots.SessionColumn[row]];
            var (plan, height) = ofCode[site.Shots.PlaceColumn[row]];
            session = (Math.Min(session.Plan, plan), Math.Min(session.Height, height));
        }

        return sessions;

        static double Above0(double? tolerance) => tolerance > 0 ? tolerance.Value : double.PositiveInfinity; // one-sided tolerances have a 0
    }

    /// <summary>Misfits by control point, with the accuracy that counts everywhere else.</summary>
    public PointMisfit[] Points(IEnumerable<int> checks) => Points(checks, row => Square(site.Shots.SigmaPlan[row]), row => Square(site.Shots.SigmaHeight[row]));

    /// <summary>Misfits by control point, with accuracy as it is stated: what is looked for must not widen its own limit.</summary>
    public PointMisfit[] PointsAsStated(IEnumerable<int> checks) => Points(checks, row => PlanVariance(row), row => HeightVariance(row));

    private PointMisfit[] Points(IEnumerable<int> checks, Func<int, double> planVariance, Func<int, double> heightVariance)
    {
        var points = new List<PointMisfit>();
        foreach (var point in checks.GroupBy(check => site.CheckShots[check].Point))
        {
            var (known, plan, height) = (site.Control[point.Key], default(Mean), default(Mean));
            var north = default(Mean);
            foreach (var check in point.Select(place => site.CheckShots[place]))
            {
                plan.Add(check.East, planVariance(check.Row));
                north.Add(check.North, planVariance(check.Row));
                if (check.Height is { } misfit) height.Add(misfit, heightVariance(check.Row));
            }

            points.Add(new(point.Key, known.At, new(plan.Value, north.Value), plan.Variance + Square(known.UPlan ?? 0) / 2, height.Value, height.Variance + Square(known.UHeight ?? 0)));
        }

        return [.. points];
    }

    /// <summary>A mean by weight; without weights a plain one of unknown variance.</summary>
    private struct Mean
    {
        private double weights, weighted, sum;
        private int count;

        public void Add(double value, double variance)
        {
            var weight = 1 / (variance + Least);
            (weights, weighted, sum, count) = (weights + weight, weighted + weight * value, sum + value, count + 1);
        }

        public readonly double Value => double.IsNaN(weights) ? sum / count : weighted / weights;

        public readonly double Variance => 1 / weights;
    }

    /// <summary>
    /// Variance per plan axis of a shot's own part, m²: as stated, and by the factor of its instrument where check shots of other
    /// sessions have proven one. Declared accuracy counts as declared; NaN where there is none.
    /// </summary>
    public double PlanVariance(int row, double factor = 1) => double.IsNaN(site.Shots.Raw.UPlan[row])
        ? Square(site.Shots.SigmaPlan[row])
        : Square(factor * site.Shots.Raw.UPlan[row]) / 2 + lean.PlanVariance(row);

    /// <summary>The same in height.</summary>
    public double HeightVariance(int row, double factor = 1) => double.IsNaN(site.Shots.Raw.UHeight[row])
        ? Square(site.Shots.SigmaHeight[row])
        : Square(factor * site.Shots.Raw.UHeight[row]) + lean.HeightVariance(row);

    /// <summary>The factor on the accuracy of a shot's instrument that check shots of other sessions ask for; 1 where they ask for none.</summary>
    public double FactorElsewhere(int row, bool inPlan)
    {
        var (session, receiver) = (site.Shots.SessionColumn[row], site.Shots.ReceiverColumn[row]);
        var rest = default(Scatter);
        foreach (var axis in inPlan ? site.Shots.PlanScatter[receiver] : site.Shots.HeightScatter[receiver])
            rest += axis.Total - axis.BySession.GetValueOrDefault(session);
        return rest.IsTooMuch ? Math.Sqrt(rest.Sum / rest.Freedom) : 1;
    }

    private static double Square(double x) => x * x;
}
