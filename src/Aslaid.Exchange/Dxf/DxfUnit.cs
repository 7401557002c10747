namespace Aslaid.Exchange;

/// <summary>A unit of length as an exact ratio of metres.</summary>
/// <param name="Of">Above the line.</param>
/// <param name="Per">Below it.</param>
internal readonly record struct DxfUnit(double Of, double Per)
{
    /// <summary>A length in metres.</summary>
    public double Metres(double length) => length * Of / Per;

    /// <summary>The unit of a number of $INSUNITS; null where it is none that a site is drawn in.</summary>
    public static DxfUnit? Known(int number) => number switch
    {
        1 => new(254, 10_000), // inch
        2 => new(3048, 10_000), // foot
        3 => new(1_609_344, 1000), // mile
        4 => new(1, 1000),
        5 => new(1, 100),
        6 => new(1, 1),
        7 => new(1000, 1),
        10 => new(9144, 10_000), // yard
        14 => new(1, 10),
        15 => new(10, 1),
        16 => new(100, 1),
        21 => new(1200, 3937), // US survey foot
        22 => new(100, 3937), // US survey inch
        23 => new(3600, 3937), // US survey yard
        24 => new(6_336_000, 3937), // US survey mile
        _ => null,
    };
}
