namespace Aslaid.Record;

/// <summary>Statistics of differences, measured minus known, along one axis; metres.</summary>
/// <param name="Count">How many.</param>
/// <param name="Mean">Their mean.</param>
/// <param name="Sd">Standard deviation about their mean, divided by n − 1; null for one alone.</param>
public readonly record struct Misfits(int Count, double Mean, double? Sd)
{
    /// <summary>Of differences, at least one. The first is taken off before anything is squared, so that coordinates may be given too.</summary>
    public static Misfits Of(ReadOnlySpan<double> differences)
    {
        if (differences.IsEmpty) throw new ArgumentException("There is no difference.", nameof(differences));
        var (first, sum, squares) = (differences[0], 0.0, 0.0);
        foreach (var difference in differences) sum += difference - first;
        var shift = sum / differences.Length;
        foreach (var difference in differences) squares += (difference - first - shift) * (difference - first - shift);
        return new(differences.Length, first + shift, differences.Length > 1 ? Math.Sqrt(squares / (differences.Length - 1)) : null);
    }

    /// <summary>Root mean square about their mean: precision.</summary>
    public double RmsAboutMean => (Sd ?? 0) * Math.Sqrt((Count - 1.0) / Count);

    /// <summary>Root mean square error, about the known value: accuracy.</summary>
    public double Rmse => double.Hypot(Mean, RmsAboutMean);

    /// <summary>The value below which a share of the values lies, linear between neighbours in order (common practice); 0.5 is the median.</summary>
    /// <param name="values">At least one; put in order.</param>
    public static double Percentile(Span<double> values, double share)
    {
        values.Sort();
        var place = share * (values.Length - 1);
        var below = (int)Math.Floor(place);
        return below + 1 < values.Length ? values[below] + (place - below) * (values[below + 1] - values[below]) : values[below];
    }
}
