using System.Collections.Frozen;
using System.Globalization;

namespace Aslaid.Exchange;

/// <summary>What is read of a kind of entity; everything else passes by unread.</summary>
/// <param name="Numbers">A bit for each group code from 10 to 59.</param>
/// <param name="Extrusion">Whether it lies in a plane of its own.</param>
internal sealed record DxfWanted(ulong Numbers, bool Extrusion, bool Flags)
{
    public static DxfWanted Nothing { get; } = new(0, false, false);

    private static readonly FrozenDictionary<string, DxfWanted> Kinds = new Dictionary<string, DxfWanted>(StringComparer.Ordinal)
    {
        ["LINE"] = Of(false, false, 10, 20, 30, 11, 21, 31),
        ["POINT"] = Of(false, false, 10, 20, 30),
        ["3DFACE"] = Of(false, false, 10, 20, 30, 11, 21, 31, 12, 22, 32, 13, 23, 33),
        ["ARC"] = Of(true, false, 10, 20, 30, 40, 50, 51),
        ["CIRCLE"] = Of(true, false, 10, 20, 30, 40),
        ["LWPOLYLINE"] = Of(true, true, 10, 20, 38, 42),
        ["POLYLINE"] = Of(true, true, 30),
        ["VERTEX"] = Of(false, true, 10, 20, 30, 42),
        ["INSERT"] = Of(true, true, 10, 20, 30, 41, 42, 43, 44, 45, 50),
        ["BLOCK"] = Of(false, true, 10, 20, 30),
    }.ToFrozenDictionary(StringComparer.Ordinal);

    public static DxfWanted Of(string type) => Kinds.GetValueOrDefault(type, Nothing);

    public bool Wants(int code) => code is >= 10 and <= 59 && (Numbers >> (code - 10) & 1) != 0;

    private static DxfWanted Of(bool extrusion, bool flags, params ReadOnlySpan<int> codes)
    {
        var numbers = 0UL;
        foreach (var code in codes) numbers |= 1UL << (code - 10);
        return new(numbers, extrusion, flags);
    }
}

/// <summary>A corner of a polyline.</summary>
/// <param name="Bulge">Tangent of a quarter of the angle turned to the next, positive to the left; 0 for a straight.</param>
internal readonly record struct DxfVertex(double X, double Y, double Z, double Bulge);

/// <summary>The groups of one entity, used again for the next.</summary>
internal sealed class DxfGroups
{
    private const double Upright = 1e-12; // share of a direction: what a place of 6 000 km then errs in height is micrometres
    private readonly double[] numbers = new double[50];
    private ulong given;
    private DxfPlace extrusion;

    public string Type { get; private set; } = "";

    /// <summary>The line at which it begins.</summary>
    public int Line { get; private set; }

    public string Layer { get; private set; } = "0";

    public string? Handle { get; private set; }

    /// <summary>Of a block; null where none is told.</summary>
    public string? Name { get; private set; }

    /// <summary>Group code 70.</summary>
    public int Flags { get; private set; }

    /// <summary>Group code 71.</summary>
    public int Rows { get; private set; }

    /// <summary>Group code 90; null where it is not told.</summary>
    public int? Count { get; private set; }

    public bool IsPaper { get; private set; }

    public bool IsInvisible { get; private set; }

    /// <summary>Corners of a lightweight polyline.</summary>
    public List<DxfVertex> Corners { get; } = [];

    /// <summary>Whether it is drawn from below, by an extrusion of 0, 0, −1; null where its extrusion is not vertical.</summary>
    public bool? IsBelow => Math.Max(Math.Abs(extrusion.X), Math.Abs(extrusion.Y)) <= Upright * Math.Abs(extrusion.Z) ? extrusion.Z < 0 : null;

    /// <summary>Reads from the pair that begins an entity to the pair that begins the next.</summary>
    public void Read(DxfPairs pairs, DxfNames names, string type)
    {
        (Type, Line, Layer, Handle, Name, Flags, Rows, Count, IsPaper, IsInvisible, given, extrusion) = (type, pairs.Line, "0", null, null, 0, 0, null, false, false, 0, new(0, 0, 1));
        Corners.Clear();
        var wanted = DxfWanted.Of(type);
        var corners = type == "LWPOLYLINE";
        var (foreign, embedded) = (false, false);
        while (true)
        {
            pairs.Next();
            if (pairs.Code == 0) break;
            if (pairs.Code == 102) foreign = pairs.Value.StartsWith((byte)'{');
            if (pairs.Code == 101) embedded = true;
            if (foreign || embedded || pairs.Code > 230) continue; // of other programs, or of an object within
            switch (pairs.Code)
            {
                case 60: IsInvisible = pairs.Whole() == 1; break;
                case 67: IsPaper = pairs.Whole() == 1; break;
                case 2 when wanted.Flags: Name = names.Read(pairs.Value); break;
                case 5 when wanted.Numbers != 0: Handle = pairs.Value.IsEmpty ? null : System.Text.Encoding.Latin1.GetString(pairs.Value); break;
                case 8 when wanted.Numbers != 0: Layer = names.Read(pairs.Value); break;
                case 70 when wanted.Flags: Flags = pairs.Whole(); break;
                case 71 when wanted.Flags: Rows = pairs.Whole(); break;
                case 90 when wanted.Flags: Count = pairs.Whole(); break;
                case 210 when wanted.Extrusion: extrusion = extrusion with { X = pairs.Number() }; break;
                case 220 when wanted.Extrusion: extrusion = extrusion with { Y = pairs.Number() }; break;
                case 230 when wanted.Extrusion: extrusion = extrusion with { Z = pairs.Number() }; break;
                case 10 or 20 or 42 when corners: Corner(pairs); break;
                case var code when wanted.Wants(code):
                    numbers[code - 10] = pairs.Number();
                    given |= 1UL << (code - 10);
                    break;
            }
        }

        if (extrusion == default) throw new DesignRefusedException(Line, Type, "has an extrusion of 0, 0, 0; a direction was expected");
        if (!corners) return;
        if (Count is { } count && count != Corners.Count)
            throw new DesignRefusedException(Line, Type, string.Create(CultureInfo.InvariantCulture, $"says that it has {count} vertices and holds {Corners.Count}; as many were expected: the file is damaged"));
        if (Corners.Count > 0) DemandNorth(Line);
    }

    /// <summary>A number that may be missing.</summary>
    public double Or(int code, double otherwise) => Has(code) ? numbers[code - 10] : otherwise;

    public bool Has(int code) => (given >> (code - 10) & 1) != 0;

    /// <summary>A number that must be there.</summary>
    public double Need(int code) => Has(code) ? numbers[code - 10]
        : throw new DesignRefusedException(Line, Type, string.Create(CultureInfo.InvariantCulture, $"lacks group code {code}; a number was expected"));

    /// <summary>Three numbers from a group code on; z is 0 where it is missing.</summary>
    public DxfPlace Place(int code) => new(Need(code), Need(code + 10), Or(code + 20, 0));

    private void Corner(DxfPairs pairs)
    {
        if (pairs.Code == 10)
        {
            if (Corners.Count > 0) DemandNorth(pairs.Line);
            Corners.Add(new(pairs.Number(), double.NaN, 0, 0));
            return;
        }

        if (Corners.Count == 0) throw pairs.Refused("comes before the first vertex; group code 10 was expected");
        Corners[^1] = pairs.Code == 20 ? Corners[^1] with { Y = pairs.Number() } : Corners[^1] with { Bulge = pairs.Number() };
    }

    private void DemandNorth(int line)
    {
        if (double.IsNaN(Corners[^1].Y)) throw new DesignRefusedException(line, Type, "has a vertex that lacks group code 20; a number was expected");
    }
}
