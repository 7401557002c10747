using System.Collections.Immutable;
using System.Globalization;
using Aslaid.Geometry;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>Gathers what a design file holds, in metres; counts what is passed over.</summary>
internal sealed class DesignGather
{
    /// <summary>Coordinates beyond this are of no grid, metres.</summary>
    public const double Farthest = 1e8;

    /// <summary>Heights beyond this are of no site, metres.</summary>
    public const double Highest = 1e5;

    /// <summary>Lines and points at most: a file with more is no design of a site.</summary>
    public const int Most = 5_000_000;

    private readonly ImmutableArray<DesignLine>.Builder lines = ImmutableArray.CreateBuilder<DesignLine>();
    private readonly ImmutableArray<DesignPoint>.Builder points = ImmutableArray.CreateBuilder<DesignPoint>();
    private readonly ImmutableArray<DesignSurface>.Builder surfaces = ImmutableArray.CreateBuilder<DesignSurface>();
    private readonly Dictionary<(string What, string Why), int> skipped = [];
    private readonly List<(string What, string Why)> order = [];
    private readonly List<string> remarks = [];
    private readonly Dictionary<string, int> names = new(StringComparer.Ordinal);

    public int Count => lines.Count + points.Count + surfaces.Count;

    /// <summary>Takes a line.</summary>
    /// <param name="words">What may say its code, in the order asked; empty ones are left out.</param>
    public void Line(string? name, IEnumerable<string?> words, Path path, Profile? profile = null, Stationing stationing = default, bool existing = false, ImmutableArray<double> joints = default)
    {
        Demand();
        var known = Named(name, "line");
        lines.Add(new(known, Words(words, name), path) { Profile = profile, Stationing = stationing, IsExisting = existing, Joints = joints.IsDefault ? [] : joints });
    }

    /// <summary>Takes a point.</summary>
    public void Point(string? name, IEnumerable<string?> words, Point2 at, double? height)
    {
        Demand();
        points.Add(new(Named(name, "point"), Words(words, name), at, height));
    }

    /// <summary>Takes a surface of triangles, or says why it is none.</summary>
    public void Surface(string? name, Point2[] places, double[] heights, int[] triangles)
    {
        if (Tin.TryOf(places, heights, triangles, out var tin, out var fault)) Surface(name, tin);
        else Skip($"surface {name}", fault);
    }

    /// <summary>Takes a surface.</summary>
    public void Surface(string? name, Tin tin) => surfaces.Add(new(Named(name, "surface"), tin));

    /// <summary>Notes what a person should know although nothing is passed over, a sentence.</summary>
    public void Remark(string sentence)
    {
        if (remarks.Count < MostRemarks) remarks.Add(sentence);
    }

    /// <summary>Notes what is passed over; the same thing for the same reason once, with its number.</summary>
    public void Skip(string what, string why)
    {
        if (!skipped.TryGetValue((what, why), out var count))
        {
            if (order.Count >= MostRemarks) (what, why) = ("more", "their reasons are not listed one by one");
            if (!skipped.TryGetValue((what, why), out count)) order.Add((what, why));
        }

        skipped[(what, why)] = count + 1;
    }

    private const int MostRemarks = 200;

    public DesignFile Build() => new(lines.ToImmutable(), points.ToImmutable(), surfaces.ToImmutable(),
        [.. remarks, .. order.Select(one => skipped[one] == 1 ? $"{one.What} skipped: {one.Why}." : string.Create(CultureInfo.InvariantCulture, $"{skipped[one]} × {one.What} skipped: {one.Why}."))]);

    /// <summary>A place of metres; what lies on no grid is refused.</summary>
    public static Point2 Place(double east, double north, int line)
    {
        if (Math.Abs(east) <= Farthest && Math.Abs(north) <= Farthest) return new(east, north);
        throw new DesignRefusedException(line, string.Create(CultureInfo.InvariantCulture, $"{east:R}, {north:R}"), "is a place on no grid; east and north within 100 000 km were expected");
    }

    /// <summary>A height of metres; one of no site is refused.</summary>
    public static double Height(double height, int line)
    {
        if (Math.Abs(height) <= Highest) return height;
        throw new DesignRefusedException(line, height.ToString("R", CultureInfo.InvariantCulture), "is a height of no site; one within 100 km was expected");
    }

    /// <summary>Refuses what is more than a design holds.</summary>
    /// <param name="waiting">Lines and points that a reader still keeps.</param>
    public void Demand(int waiting = 0)
    {
        if (lines.Count + points.Count + waiting >= Most) throw new DesignRefusedException(0, null, string.Create(CultureInfo.InvariantCulture, $"the file holds more than {Most} lines and points; a design of one site was expected"));
    }

    private string Named(string? name, string kind)
    {
        name = CellText.HasUnseen(name ?? "") ? new string([.. name!.Select(letter => char.IsControl(letter) ? '?' : letter)]) : name;
        name = string.IsNullOrWhiteSpace(name) ? kind : name.Trim();
        if (name.Length > 200) name = name[..200];
        if (names.TryAdd(name, 1)) return name;
        while (true)
        {
            var made = string.Create(CultureInfo.InvariantCulture, $"{name} ({++names[name]})");
            if (names.TryAdd(made, 1)) return made;
        }
    }

    private static ImmutableArray<string> Words(IEnumerable<string?> words, string? name) =>
        [.. words.Append(name).Where(word => !string.IsNullOrWhiteSpace(word)).Select(word => word!.Trim()).Distinct(StringComparer.Ordinal)];
}
