namespace Aslaid.Exchange;

/// <summary>An entity of a drawing with the groups that are asked for.</summary>
internal sealed class DxfEntity(string type, int line)
{
    private readonly List<(int Code, double Number)> numbers = [];

    public string Type => type;

    /// <summary>Line at which it begins.</summary>
    public int Line => line;

    public string Layer { get; set; } = "0";

    public string Handle { get; set; } = "";

    /// <summary>Name of the block, of an INSERT.</summary>
    public string Name { get; set; } = "";

    /// <summary>Vertices of a POLYLINE.</summary>
    public List<DxfEntity>? Vertices { get; set; }

    /// <summary>Numbers in the order of the file.</summary>
    public IReadOnlyList<(int Code, double Number)> Numbers => numbers;

    public void Add(int code, double number) => numbers.Add((code, number));

    /// <summary>The first number of a code.</summary>
    public double Number(int code, double missing = 0)
    {
        foreach (var (known, number) in numbers)
            if (known == code) return number;
        return missing;
    }

    public int Flags => (int)Number(70);
}
