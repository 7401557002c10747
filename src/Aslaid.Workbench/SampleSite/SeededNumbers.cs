namespace Aslaid.Workbench;

/// <summary>A sequence of numbers fixed by its seed for good: the runtime's own generator may change between versions.</summary>
/// <remarks>SplitMix64 (Steele, Lea and Flood 2014); normal numbers by Box and Muller, the pair used in a fixed order.</remarks>
internal sealed class SeededNumbers
{
    private ulong _state;
    private double? _spare;

    /// <param name="stream">Sets apart sequences of one seed, so that one more shot does not move the layout.</param>
    public SeededNumbers(int seed, int stream)
    {
        _state = ((ulong)(uint)seed << 32) | (uint)stream;
        Next();
    }

    public ulong Next()
    {
        _state += 0x9E3779B97F4A7C15;
        var z = _state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return z ^ (z >> 31);
    }

    /// <summary>In [0, 1).</summary>
    public double Unit() => (Next() >> 11) * (1.0 / (1UL << 53));

    public double Between(double least, double most) => least + ((most - least) * Unit());

    /// <summary>From 0 to one less than <paramref name="count"/>.</summary>
    public int Whole(int count) => (int)(Next() % (ulong)count);

    /// <summary>Normal, mean 0, standard deviation 1.</summary>
    public double Normal()
    {
        if (_spare is { } kept)
        {
            _spare = null;
            return kept;
        }
        var size = Math.Sqrt(-2 * Math.Log(1 - Unit())); // 1 - [0, 1) is never 0
        var (sin, cos) = Math.SinCos(Math.Tau * Unit());
        _spare = size * sin;
        return size * cos;
    }
}
