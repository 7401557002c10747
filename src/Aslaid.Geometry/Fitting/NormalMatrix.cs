namespace Aslaid.Geometry;

/// <summary>The normal matrix of least squares with a few unknowns, and its right side.</summary>
/// <remarks>Inverted by Cholesky, the diagonal scaled to ones first.</remarks>
internal sealed class NormalMatrix(int unknowns)
{
    private readonly double[,] matrix = new double[unknowns, unknowns];
    private readonly double[] right = new double[unknowns];

    /// <summary>Adds weight · v vᵀ, and weight · v · value to the right side.</summary>
    public void Add(double weight, ReadOnlySpan<double> v, double value)
    {
        for (var i = 0; i < unknowns; i++)
        {
            right[i] += weight * v[i] * value;
            for (var j = 0; j <= i; j++) matrix[i, j] += weight * v[i] * v[j];
        }
    }

    /// <summary>Solves with the diagonal raised by a share of itself; null unless positive definite beyond rounding.</summary>
    public double[]? Solve(double damping) => Factor(damping) is { } factor ? Solve(factor, right) : null;

    /// <summary>The inverse, or null.</summary>
    public double[,]? Invert()
    {
        if (Factor(0) is not { } factor) return null;
        var inverse = new double[unknowns, unknowns];
        for (var column = 0; column < unknowns; column++)
        {
            var unit = new double[unknowns];
            unit[column] = 1;
            var solved = Solve(factor, unit);
            for (var row = 0; row < unknowns; row++) inverse[row, column] = solved[row];
        }

        return inverse;
    }

    private (double[,] Lower, double[] Scale)? Factor(double damping)
    {
        var (lower, scale) = (new double[unknowns, unknowns], new double[unknowns]);
        for (var i = 0; i < unknowns; i++)
        {
            if (!(matrix[i, i] > 0)) return null;
            scale[i] = 1 / Math.Sqrt(matrix[i, i]);
        }

        for (var i = 0; i < unknowns; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                var sum = i == j ? 1 + damping : matrix[i, j] * scale[i] * scale[j];
                for (var k = 0; k < j; k++) sum -= lower[i, k] * lower[j, k];
                if (i == j && !(sum > 1e-14)) return null;
                lower[i, j] = i == j ? Math.Sqrt(sum) : sum / lower[j, j];
            }
        }

        return (lower, scale);
    }

    private double[] Solve((double[,] Lower, double[] Scale) factor, double[] values)
    {
        var x = new double[unknowns];
        for (var i = 0; i < unknowns; i++)
        {
            var sum = values[i] * factor.Scale[i];
            for (var k = 0; k < i; k++) sum -= factor.Lower[i, k] * x[k];
            x[i] = sum / factor.Lower[i, i];
        }

        for (var i = unknowns - 1; i >= 0; i--)
        {
            var sum = x[i];
            for (var k = i + 1; k < unknowns; k++) sum -= factor.Lower[k, i] * x[k];
            x[i] = sum / factor.Lower[i, i];
        }

        for (var i = 0; i < unknowns; i++) x[i] *= factor.Scale[i];
        return x;
    }
}
