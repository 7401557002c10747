using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Where a check writes what it finds. Numbers and rows only: text is made when somebody reads it.</summary>
public sealed class Findings
{
    internal List<Severity> Severities { get; } = [];

    internal List<int> Runs { get; } = [];

    internal List<double> Froms { get; } = [];

    internal List<double> Tos { get; } = [];

    internal List<double> AtEast { get; } = [];

    internal List<double> AtNorth { get; } = [];

    internal List<double> AtHeight { get; } = [];

    internal List<double> Measured { get; } = [];

    internal List<double> Allowed { get; } = [];

    internal List<string?> Words { get; } = [];

    internal List<int> Shots { get; } = [];

    internal List<int> ShotCounts { get; } = [];

    internal List<double> Figures { get; } = [];

    internal List<int> FigureCounts { get; } = [];

    /// <summary>Adds a finding.</summary>
    /// <param name="shots">Rows of the shots concerned, those that matter most first; at least one.</param>
    /// <param name="at">Where it is, metres.</param>
    /// <param name="height">Height there, metres; null where unknown.</param>
    /// <param name="run">Number of the run, or −1.</param>
    /// <param name="from">Chainage at which it begins; null where it concerns no range.</param>
    /// <param name="to">Chainage at which it ends.</param>
    /// <param name="measured">In the check's unit.</param>
    /// <param name="allowed">In the check's unit.</param>
    /// <param name="word">A word for the message.</param>
    /// <param name="figures">Further figures, in the check's own order.</param>
    public void Add(
        Severity severity, ReadOnlySpan<int> shots, Point2 at, double? height = null, int run = -1, double? from = null,
        double? to = null, double? measured = null, double? allowed = null, string? word = null, ReadOnlySpan<double> figures = default)
    {
        Severities.Add(severity);
        Runs.Add(run);
        Froms.Add(from ?? double.NaN);
        Tos.Add(to ?? double.NaN);
        AtEast.Add(at.East);
        AtNorth.Add(at.North);
        AtHeight.Add(height ?? double.NaN);
        Measured.Add(measured ?? double.NaN);
        Allowed.Add(allowed ?? double.NaN);
        Words.Add(word);
        Shots.AddRange(shots);
        ShotCounts.Add(shots.Length);
        Figures.AddRange(figures);
        FigureCounts.Add(figures.Length);
    }
}
