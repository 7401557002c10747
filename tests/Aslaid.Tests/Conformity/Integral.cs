namespace Aslaid.Tests;

internal static class Integral
{
    /// <summary>By Simpson's rule over an even count of steps.</summary>
    public static double Of(Func<double, double> f, double from, double to, int steps = 4000)
    {
        var (step, sum) = ((to - from) / steps, f(from) + f(to));
        for (var i = 1; i < steps; i++) sum += (i % 2 == 1 ? 4 : 2) * f(from + i * step);
        return sum * step / 3;
    }
}
