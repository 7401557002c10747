namespace Aslaid.Record;

/// <summary>What a quantity counts.</summary>
public enum QuantityKind : byte
{
    /// <summary>Length in plan along straights and true arcs, metres.</summary>
    PlanLength,

    /// <summary>Length on the slope, metres.</summary>
    SlopeLength,

    /// <summary>Area enclosed, square metres.</summary>
    Area,

    /// <summary>Number of points.</summary>
    Count,
}

/// <summary>How much of a code was built.</summary>
/// <param name="Code">The code.</param>
/// <param name="PayItem">Its pay item, or null.</param>
/// <param name="Value">Metres, square metres, or a count.</param>
/// <param name="U">Standard uncertainty in the same unit, shared shots counted once; null where a shot states no accuracy, 0 for a count.</param>
/// <param name="Runs">Runs or points that went in.</param>
/// <param name="LeftOut">Runs left out since a height is missing, the ring is open, or there is one shot only.</param>
public sealed record Quantity(string Code, string? PayItem, QuantityKind Kind, double Value, double? U, int Runs, int LeftOut)
{
    /// <summary>Of a length in plan, the metres that findings hold; null for other kinds. They are counted in the value.</summary>
    public double? Held { get; init; }

    /// <summary>Of an area, with holes not taken off, square metres; null for other kinds.</summary>
    public double? Gross { get; init; }

    /// <summary>Share of the size of nodes that lengths leave out: 0 through them, 1 between them.</summary>
    public double NodeLeftOutShare { get; init; }

    private string Nodes => NodeLeftOutShare == 0 ? "through chambers" : NodeLeftOutShare == 1 ? "between chambers" : "chambers partly left out";

    /// <summary><c>m</c>, <c>m2</c> or <c>no</c>.</summary>
    public string Unit => Kind switch { QuantityKind.Area => "m2", QuantityKind.Count => "no", _ => "m" };

    /// <summary>The rule used, in words.</summary>
    public string Rule => Kind switch
    {
        QuantityKind.PlanLength => $"length in plan on the site grid along straights and true arcs, new runs of the code added, {Nodes}",
        QuantityKind.SlopeLength => $"length on the slope: heights run linearly between shots, arcs included, {Nodes}",
        QuantityKind.Area => "area enclosed in plan with circular segments, less its holes; closed runs only",
        _ => "points of the code, each counted once",
    };
}
