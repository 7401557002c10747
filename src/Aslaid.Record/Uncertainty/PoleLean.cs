namespace Aslaid.Record;

/// <summary>How far the tip of a pole lies from where the instrument says: centring on the thing, and the lean of the pole.</summary>
internal sealed class PoleLean
{
    private readonly double[]? pole;
    private readonly double[]? tilt;
    private readonly int[]? compensated;
    private readonly Words texts;
    private readonly double centring;
    private readonly double held;

    public PoleLean(ShotTable raw, Settings settings)
    {
        pole = raw.NumberColumns.GetValueOrDefault("pole");
        tilt = raw.NumberColumns.GetValueOrDefault("tilt");
        compensated = raw.TextColumns.GetValueOrDefault("tilt_compensated");
        (texts, centring, held) = (raw.Texts, settings.PoleCentring, double.DegreesToRadians(settings.PoleTiltUDegrees));
    }

    /// <summary>Whether any shot states a pole.</summary>
    public bool IsKnown => pole is not null;

    /// <summary>Whether the instrument took the lean out.</summary>
    public bool IsCompensated(int row) => compensated is not null && texts[compensated[row]]?.Trim().ToUpperInvariant() is "YES" or "TRUE" or "1";

    /// <summary>Variance per plan axis, m²: (centring² + lean²)/2; 0 where no pole is stated. A lean that is stated and not compensated counts in full.</summary>
    public double PlanVariance(int row)
    {
        if (pole is null || double.IsNaN(pole[row])) return 0;
        if (IsCompensated(row)) return centring * centring / 2;
        var lean = pole[row] * Math.Sqrt(held * held + Square(Math.Sin(Stated(row))));
        return (centring * centring + lean * lean) / 2;
    }

    /// <summary>Variance of height, m²: a pole that is stated to lean is too short by pole·(1 − cos tilt).</summary>
    public double HeightVariance(int row) =>
        pole is null || tilt is null || double.IsNaN(pole[row]) || IsCompensated(row) ? 0 : Square(pole[row] * (1 - Math.Cos(Stated(row))));

    private double Stated(int row) => tilt is null || double.IsNaN(tilt[row]) ? 0 : double.DegreesToRadians(tilt[row]);

    private static double Square(double x) => x * x;
}
