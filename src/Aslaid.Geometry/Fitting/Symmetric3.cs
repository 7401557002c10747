namespace Aslaid.Geometry;

/// <summary>A symmetric matrix of order three, with its right side, as least squares with three unknowns needs.</summary>
internal struct Symmetric3
{
    internal double A, B, C, D, E, F; // rows: A B C, B D E, C E F

    /// <summary>Adds weight · v vᵀ.</summary>
    internal void Add(double weight, double x, double y, double z)
    {
        A += weight * x * x;
        B += weight * x * y;
        C += weight * x * z;
        D += weight * y * y;
        E += weight * y * z;
        F += weight * z * z;
    }

    /// <summary>The inverse, the diagonal scaled to ones first; false unless the matrix is positive definite beyond rounding.</summary>
    internal readonly bool TryInvert(out Symmetric3 inverse)
    {
        inverse = default;
        if (!(A > 0 && D > 0 && F > 0)) return false;
        double p = 1 / Math.Sqrt(A), q = 1 / Math.Sqrt(D), r = 1 / Math.Sqrt(F);
        double b = B * p * q, c = C * p * r, e = E * q * r;
        var minor = 1 - b * b;
        var det = minor * (1 - c * c) - (e - b * c) * (e - b * c);
        if (!(minor > 1e-14 && det > 1e-14 * minor)) return false;
        inverse = new()
        {
            A = p * p * (1 - e * e) / det,
            B = p * q * (c * e - b) / det,
            C = p * r * (b * e - c) / det,
            D = q * q * (1 - c * c) / det,
            E = q * r * (b * c - e) / det,
            F = r * r * minor / det,
        };
        return true;
    }

    internal readonly (double X, double Y, double Z) Times(double x, double y, double z) =>
        (A * x + B * y + C * z, B * x + D * y + E * z, C * x + E * y + F * z);
}
