using Aslaid.Record;

namespace Aslaid.Tests;

/// <summary>
/// Draws of a scene's shots as the model of uncertainty has them (JCGM 101:2008, 7): normal errors of each shot and each axis, and
/// a shift that each session has in common. The sequence is fixed.
/// </summary>
internal sealed class MonteCarlo
{
    public const int Draws = 100_000;

    private readonly CurrentShots shots;
    private readonly (double Plan, double Height)[] common;
    private ulong state;
    private double spare = double.NaN;

    public MonteCarlo(AsBuiltRecord record, ulong seed)
    {
        (shots, state) = (record.Shots, seed);
        common = new (double, double)[shots.SessionCount];
        East = new double[shots.Count];
        North = new double[shots.Count];
        Height = new double[shots.Count];
        for (var row = 0; row < shots.Count; row++)
        {
            common[shots.Session[row]] = (
                Rest(ShotMeasure.Of(0, [new(row, 1, 0, 0)]), shots.SigmaPlan[row]), Rest(ShotMeasure.Of(0, [new(row, 0, 0, 1)]), shots.SigmaHeight[row]));
        }

        double Rest(ShotMeasure coordinate, double own)
        {
            var u = coordinate.U(shots)!.Value;
            return Math.Sqrt(Math.Max(0, u * u - own * own));
        }
    }

    /// <summary>Positions of the shots, drawn anew by <see cref="Draw"/>, metres.</summary>
    public double[] East { get; }

    public double[] North { get; }

    public double[] Height { get; }

    public PathVertex Vertex(int row, bool through = false) => new(At(row), Height[row], through);

    public Point2 At(int row) => new(East[row], North[row]);

    /// <summary>The shots where the record has them.</summary>
    public void Still()
    {
        for (var row = 0; row < shots.Count; row++) (East[row], North[row], Height[row]) = (shots.At(row).East, shots.At(row).North, shots.Heights[row]);
    }

    public void Draw()
    {
        Span<(double East, double North, double Height)> shift = stackalloc (double, double, double)[common.Length];
        for (var session = 0; session < common.Length; session++)
            shift[session] = (common[session].Plan * Normal(), common[session].Plan * Normal(), common[session].Height * Normal());
        for (var row = 0; row < shots.Count; row++)
        {
            var (at, by) = (shots.At(row), shift[shots.Session[row]]);
            East[row] = at.East + by.East + shots.SigmaPlan[row] * Normal();
            North[row] = at.North + by.North + shots.SigmaPlan[row] * Normal();
            Height[row] = shots.Heights[row] + by.Height + shots.SigmaHeight[row] * Normal();
        }
    }

    /// <summary>A standard normal deviate by the polar method (G. Marsaglia, T. A. Bray 1964), from SplitMix64 (S. Vigna, public domain).</summary>
    public double Normal()
    {
        if (!double.IsNaN(spare))
        {
            var kept = spare;
            spare = double.NaN;
            return kept;
        }

        while (true)
        {
            var (a, b) = (2 * Uniform() - 1, 2 * Uniform() - 1);
            var square = a * a + b * b;
            if (square is >= 1 or 0) continue;
            var factor = Math.Sqrt(-2 * Math.Log(square) / square);
            spare = b * factor;
            return a * factor;
        }
    }

    private double Uniform()
    {
        var z = state += 0x9E3779B97F4A7C15;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return ((z ^ (z >> 31)) >> 11) * (1.0 / (1UL << 53));
    }
}
