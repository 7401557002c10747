using System.Runtime.InteropServices;

namespace Aslaid.Record;

/// <summary>
/// How the check shots of one instrument scatter on one axis: a sum that follows χ² where its statement is true. Each session is
/// taken about its own mean, so that a shifted one makes no instrument a liar. Within a session, shots on one point are taken about
/// their mean, without that point's error; then the points' means about the session's, with it.
/// </summary>
internal sealed class CheckScatter
{
    /// <summary>m²: keeps a shot that claims to be exact from dividing by nothing.</summary>
    private const double Least = 1e-12;

    private readonly Dictionary<int, List<CheckResidual>> sessions = [];

    public CheckScatter(IEnumerable<CheckResidual> residuals)
    {
        foreach (var residual in residuals)
        {
            (CollectionsMarshal.GetValueRefOrAddDefault(sessions, residual.Session, out _) ??= []).Add(residual);
            Residuals.Add(residual);
        }

        foreach (var (session, own) in sessions) Total += BySession[session] = Of(own, 1);
    }

    public List<CheckResidual> Residuals { get; } = [];

    public Scatter Total { get; }

    /// <summary>What each session adds.</summary>
    public Dictionary<int, Scatter> BySession { get; } = [];

    /// <summary>The sum if the instrument were worse by a factor.</summary>
    public double At(double factor) => sessions.Values.Sum(own => Of(own, factor).Sum);

    /// <summary>What is left without one shot.</summary>
    public Scatter WithoutRow(CheckResidual left) => Total - BySession[left.Session] + Of(sessions[left.Session].FindAll(residual => residual.Row != left.Row), 1);

    /// <summary>What is left without all shots on one point.</summary>
    public Scatter WithoutPoint(int point, IEnumerable<int> inSessions)
    {
        var rest = Total;
        foreach (var session in inSessions) rest += Of(sessions[session].FindAll(residual => residual.Point != point), 1) - BySession[session];
        return rest;
    }

    private static Scatter Of(List<CheckResidual> session, double factor)
    {
        var (sum, freedom) = (0.0, 0);
        var means = default(Weighted);
        foreach (var point in session.GroupBy(residual => residual.Point))
        {
            var (own, known) = (default(Weighted), double.NaN);
            foreach (var residual in point)
            {
                own.Add(residual.Misfit, 1 / (factor * factor * residual.Stated + residual.Tip + Least));
                known = residual.Known;
            }

            (sum, freedom) = (sum + own.Squares, freedom + own.Count - 1);
            if (!double.IsNaN(known)) means.Add(own.Mean, 1 / (1 / own.Weights + known)); // a point of unknown accuracy tells by its repeats only
        }

        return means.Count == 0 ? new(sum, freedom) : new(sum + means.Squares, freedom + means.Count - 1);
    }

    private struct Weighted
    {
        private double sum, squares;

        public double Weights { get; private set; }

        public int Count { get; private set; }

        public readonly double Mean => sum / Weights;

        /// <summary>Weighted squares about the mean.</summary>
        public readonly double Squares => Math.Max(0, squares - sum * sum / Weights);

        public void Add(double value, double weight) =>
            (Weights, sum, squares, Count) = (Weights + weight, sum + weight * value, squares + weight * value * value, Count + 1);
    }
}

/// <summary>A sum of squares over variances, and its degrees of freedom.</summary>
internal readonly record struct Scatter(double Sum, int Freedom)
{
    public static Scatter operator +(Scatter a, Scatter b) => new(a.Sum + b.Sum, a.Freedom + b.Freedom);

    public static Scatter operator -(Scatter a, Scatter b) => new(Math.Max(0, a.Sum - b.Sum), a.Freedom - b.Freedom);

    /// <summary>Whether a true statement would scatter so much less often than <see cref="FactorTest.Risk"/>.</summary>
    public bool IsTooMuch => Freedom > 0 && ChiSquared.Above(Sum, Freedom) < FactorTest.Risk;
}
