using System.Collections.Immutable;
using System.Globalization;

namespace Aslaid.Record;

/// <summary>One line of a claim: what is paid alike.</summary>
/// <param name="Item">Pay item; null where the code book has none.</param>
/// <param name="Band">Depth band, as <c>1.5 to 3.0 m</c>; <c>depth not stated</c> where no shot of the length states one, empty for areas and counts.</param>
public readonly record struct ClaimLine(string? Item, string Code, QuantityKind Kind, string Band) : IComparable<ClaimLine>
{
    /// <summary>By pay item, code, kind and band.</summary>
    public int CompareTo(ClaimLine other)
    {
        var order = string.CompareOrdinal(Item ?? "~", other.Item ?? "~");
        if (order == 0) order = string.CompareOrdinal(Code, other.Code);
        if (order == 0) order = Kind.CompareTo(other.Kind);
        return order != 0 ? order : string.CompareOrdinal(Band, other.Band);
    }

    /// <summary>Whether a line comes before another.</summary>
    public static bool operator <(ClaimLine a, ClaimLine b) => a.CompareTo(b) < 0;

    /// <summary>Whether a line comes after another.</summary>
    public static bool operator >(ClaimLine a, ClaimLine b) => a.CompareTo(b) > 0;

    /// <summary>Whether a line comes before another or is it.</summary>
    public static bool operator <=(ClaimLine a, ClaimLine b) => a.CompareTo(b) <= 0;

    /// <summary>Whether a line comes after another or is it.</summary>
    public static bool operator >=(ClaimLine a, ClaimLine b) => a.CompareTo(b) >= 0;
}

/// <summary>
/// What a record holds to be paid: plan length of new runs by pay item, code and depth band, areas and counts. Depth is what the
/// attribute <c>trench_depth_m</c> of a run or its shots states, the deeper end of each leg.
/// </summary>
public static class ClaimTake
{
    /// <summary>Metres, square metres or counts by line.</summary>
    public static ImmutableSortedDictionary<ClaimLine, double> Of(AsBuiltRecord record)
    {
        var sums = new SortedDictionary<ClaimLine, double>();
        var depths = new AttributeValues(record.Site, "trench_depth_m");
        for (var number = 0; number < record.Runs.Count; number++)
        {
            var run = record.Runs[number];
            if (!run.Counts || run.PieceCount == 0) continue;
            var (item, between) = (run.Entry?.PayItem, NodeSizes.LeftOut(record.Site, run));
            var said = run.Table.AttributesOf(number).GetValueOrDefault("trench_depth_m");
            for (var member = 1; member < run.MemberCount; member++)
            {
                var depth = Deeper(Number(said), Deeper(Number(depths.Of(run.Members[member - 1])), Number(depths.Of(run.Members[member]))));
                Add(new(item, run.Code, QuantityKind.PlanLength, Band(depth, record.Inputs.Settings.DepthBand)), run.Chainages[member] - run.Chainages[member - 1] - between[member]);
            }

            if (run.IsClosed) // the last chainage of a ring is where it closes
                Add(new(item, run.Code, QuantityKind.PlanLength, Band(Number(said), record.Inputs.Settings.DepthBand)), run.PlanLength - run.Chainages[^1]);
        }

        foreach (var quantity in record.Quantities)
            if (quantity.Kind is QuantityKind.Area or QuantityKind.Count) Add(new(quantity.PayItem, quantity.Code, quantity.Kind, ""), quantity.Value);
        return sums.ToImmutableSortedDictionary();

        void Add(ClaimLine line, double value)
        {
            if (value != 0) sums[line] = sums.GetValueOrDefault(line) + value;
        }
    }

    private static double? Number(string? text) => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && value >= 0 && double.IsFinite(value) ? value : null;

    private static double? Deeper(double? a, double? b) => a is null ? b : b is null ? a : Math.Max(a.Value, b.Value);

    private static string Band(double? depth, double step)
    {
        if (step <= 0) return "";
        if (depth is not { } known) return "depth not stated";
        var from = Math.Floor(known / step + 1e-9) * step;
        return string.Create(CultureInfo.InvariantCulture, $"{from:0.0} to {from + step:0.0} m");
    }
}
