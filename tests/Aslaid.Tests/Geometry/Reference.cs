using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace Aslaid.Tests;

/// <summary>The published cases beside the tests, read as they stand.</summary>
internal static partial class Reference
{
    internal static JsonElement Json(string name) =>
        JsonDocument.Parse(File(name)).RootElement;

    internal static string File(string name) => System.IO.File.ReadAllText(System.IO.Path.Combine(AppContext.BaseDirectory, "reference", name));

    /// <summary>Identifier and source of every case of a list, so that a failing test names where the number was printed.</summary>
    internal static TheoryData<string, string> Cases(string file, string list)
    {
        var cases = new TheoryData<string, string>();
        foreach (var item in Json(file).GetProperty(list).EnumerateArray())
            cases.Add(item.GetProperty("id").GetString()!, item.GetProperty("source").GetString()!);
        return cases;
    }

    internal static JsonElement Case(string file, string list, string id) =>
        Json(file).GetProperty(list).EnumerateArray().Single(x => x.GetProperty("id").GetString() == id);

    internal static double Number(this JsonElement element, string name) => element.GetProperty(name).GetDouble();

    internal static bool Has(this JsonElement element, string name, out JsonElement value) => element.TryGetProperty(name, out value) && value.ValueKind != JsonValueKind.Null;

    internal static Point2 Point(this JsonElement element) => new(element[0].GetDouble(), element[1].GetDouble());

    internal static Point2[] Points(this JsonElement element) => [.. element.EnumerateArray().Select(Point)];

    /// <summary>Radians of "25-30-00".</summary>
    internal static double Dms(string text)
    {
        var parts = text.Split('-').Select(p => double.Parse(p, CultureInfo.InvariantCulture)).ToArray();
        return double.DegreesToRadians(parts[0] + parts[1] / 60 + parts[2] / 3600);
    }

    /// <summary>Feet of the station "12+50.00".</summary>
    internal static double Station(string text)
    {
        var parts = text.Split('+');
        return 100 * double.Parse(parts[0], CultureInfo.InvariantCulture) + double.Parse(parts[1], CultureInfo.InvariantCulture);
    }

    /// <summary>One line of WKT, of whatever kind, as a path; odd places of a CIRCULARSTRING are through-places.</summary>
    internal static Path Path(string wkt)
    {
        var vertices = new List<PathVertex>();
        foreach (Match part in Part().Matches(wkt))
        {
            var circular = part.Groups[1].Value == "CIRCULARSTRING";
            var numbers = part.Groups[2].Value.Split(',').Select(p => p.Trim().Split(' ').Select(x => double.Parse(x, CultureInfo.InvariantCulture)).ToArray()).ToArray();
            for (var i = 0; i < numbers.Length; i++)
            {
                var at = new Point2(numbers[i][0], numbers[i][1]);
                if (i == 0 && vertices.Count > 0 && vertices[^1].At == at) continue;
                vertices.Add(new(at, numbers[i].Length > 2 ? numbers[i][2] : null, circular && i % 2 == 1));
            }
        }
        Assert.True(Geometry.Path.TryBuild([.. vertices], 1e-12, out var path, out var notes));
        Assert.Empty(notes);
        return path;
    }

    [GeneratedRegex(@"(CIRCULARSTRING|LINESTRING|POLYGON|)\s*(?:ZM)?\s*\(+([^()]+)\)")]
    private static partial Regex Part();
}
