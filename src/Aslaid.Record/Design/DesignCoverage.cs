using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>A range of chainages, metres.</summary>
public readonly record struct ChainageRange(double From, double To)
{
    /// <summary>Metres.</summary>
    public double Length => To - From;
}

/// <summary>How much of a line of the design is measured.</summary>
/// <param name="Measured">Ranges that runs follow, apart, rising.</param>
/// <param name="Missing">Ranges that none follows, each longer than <see cref="DesignCoverage.Least"/>.</param>
public sealed record LineCoverage(DesignedLine Line, ImmutableArray<ChainageRange> Measured, ImmutableArray<ChainageRange> Missing)
{
    /// <summary>Metres measured.</summary>
    public double Length => Measured.Sum(range => range.Length);

    /// <summary>Share measured, 0 to 1.</summary>
    public double Share => Line.Length > 0 ? Math.Min(1, Length / Line.Length) : 1;
}

/// <summary>What of the design is not measured yet: lines to be built, by ranges; points to be built, one by one.</summary>
public sealed class DesignCoverage
{
    /// <summary>Metres: what is left between two runs, or at an end, and shorter counts as measured (DEFAULT).</summary>
    public const double Least = 0.5;

    /// <summary>A leg that is so many times as long as its stretch of the design, or so many times shorter, follows another way (DEFAULT).</summary>
    private const double Alike = 1.5;

    internal DesignCoverage(Site site)
    {
        var ranges = new List<ChainageRange>?[site.Design.Lines.Length];
        for (var number = 0; number < site.Runs.Count; number++)
        {
            var run = site.Runs[number];
            for (var member = 1; member < run.MemberCount; member++)
            {
                if (site.Match.Of(run, member - 1) is not { } before || site.Match.Of(run, member) is not { } here || before.Line != here.Line) continue;
                foreach (var range in Stretch(before, here, run.Chainages[member] - run.Chainages[member - 1])) (ranges[here.Line.Number] ??= []).Add(range);
            }
        }

        all = [.. site.Design.Lines.Select(line => line.Place < 0 ? null : Of(line, ranges[line.Number] ?? []))];
        Lines = [.. all.OfType<LineCoverage>().Where(one => !one.Line.IsExisting)];
        var met = site.Points.Select(row => site.Match.PointOf(row)?.Point.Number ?? -1).ToHashSet();
        Points = [.. site.Design.Points.Where(point => point.Place >= 0 && site.Shots.Book.Entries[point.Place].Kind == CodeKind.Point && !met.Contains(point.Number))];
    }

    private readonly LineCoverage?[] all;

    /// <summary>Of any line, existing ones too; null for one without a code.</summary>
    public LineCoverage? Of(DesignedLine line) => all[line.Number];

    /// <summary>Every line with a code that is to be built.</summary>
    public ImmutableArray<LineCoverage> Lines { get; }

    /// <summary>Points to be built without a shot.</summary>
    public ImmutableArray<DesignedPoint> Points { get; }

    /// <summary>The part between two feet; on a ring the way that fits the leg.</summary>
    private static IEnumerable<ChainageRange> Stretch(DesignPlace before, DesignPlace here, double leg)
    {
        var (low, high, whole) = (Math.Min(before.Chainage, here.Chainage), Math.Max(before.Chainage, here.Chainage), here.Line.Length);
        var length = high - low;
        if (here.Line.Path.IsClosed && Math.Abs(whole - length - leg) < Math.Abs(length - leg))
        {
            if (Fits(whole - length, leg)) return [new(0, low), new(high, whole)];
            return [];
        }

        return Fits(length, leg) ? [new(low, high)] : [];
    }

    private static bool Fits(double designed, double built) => designed <= Alike * built + Least && built <= Alike * designed + Least;

    private static LineCoverage Of(DesignedLine line, List<ChainageRange> ranges)
    {
        ranges.Sort(static (a, b) => a.From.CompareTo(b.From));
        var (measured, missing, until) = (ImmutableArray.CreateBuilder<ChainageRange>(), ImmutableArray.CreateBuilder<ChainageRange>(), 0.0);
        var from = 0.0;
        foreach (var range in ranges)
        {
            if (range.From - until > Least)
            {
                if (until > from) measured.Add(new(from, until));
                missing.Add(new(until, range.From));
                from = range.From;
            }

            until = Math.Max(until, range.To);
        }

        if (line.Length - until > Least)
        {
            if (until > from) measured.Add(new(from, until));
            missing.Add(new(until, line.Length));
        }
        else measured.Add(new(from, line.Length));
        return new(line, measured.ToImmutable(), missing.ToImmutable());
    }
}
