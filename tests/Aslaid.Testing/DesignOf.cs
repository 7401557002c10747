using System.Collections.Immutable;
using System.Globalization;
using Aslaid.Geometry;
using Aslaid.Record;

namespace Aslaid.Testing;

/// <summary>
/// Makes designs from a few lines: <c>CODE NAME east north height; east north height; ~ …</c>, <c>~</c> for a through-place, <c>-</c> for no height. A line that
/// begins with <c>existing</c> is there already, one that begins with <c>point</c> has one place. Coordinates count from those of <see cref="ShotsOf"/>.
/// </summary>
public static class DesignOf
{
    /// <summary>Codes with what designs are held against: limits in round figures, none of them a recommendation.</summary>
    public static CodeBook Codes { get; } = new(
    [
        new("PIPE", CodeKind.Line)
        {
            Service = "water", MeasuredAt = "top", OutsideDiameter = 0.2, Wall = 0.01, TolerancePlan = 0.1, ToleranceHeight = 0.05, CoverMin = 0.75, SpacingMax = 20, SagittaMax = 0.025, RadiusMin = 1, NeedsProof = true,
        },
        new("CABLE", CodeKind.Line) { Service = "power", MeasuredAt = "top", OutsideDiameter = 0.1, TolerancePlan = 0.1, ToleranceHeight = 0.1, CoverMin = 0.6, SpacingMax = 20, SagittaMax = 0.025, NeedsProof = true },
        new("GAS", CodeKind.Line) { Service = "gas", MeasuredAt = "top", OutsideDiameter = 0.15 },
        new("FACE", CodeKind.Line) { MeasuredAt = "face", TolerancePlan = 0.05, ToleranceHeight = 0.05, SpacingMax = 20, SagittaMax = 0.01 },
        new("BACK", CodeKind.Line) { MeasuredAt = "back", TolerancePlan = 0.05, ToleranceHeight = 0.05, SpacingMax = 20, SagittaMax = 0.01 },
        new("LAMP", CodeKind.Point) { TolerancePlan = 0.1, ToleranceHeight = 0.05 },
    ]);

    /// <summary>Shots of <see cref="ShotsOf.Lines"/> with the codes of <see cref="Codes"/>.</summary>
    public static RecordInputs Lines(string shots) => ShotsOf.Lines(shots) with { Codes = Codes };

    /// <summary>The same with a design file; adopted at the journal's end.</summary>
    /// <param name="surface">Height of a level finished ground over all of the site; null for none.</param>
    public static RecordInputs WithDesign(this RecordInputs inputs, string lines, double? surface = null, string file = "design.csv")
    {
        var (made, points) = (ImmutableArray.CreateBuilder<DesignLine>(), ImmutableArray.CreateBuilder<DesignPoint>());
        foreach (var text in lines.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            var words = text.Split(' ', StringSplitOptions.RemoveEmptyEntries);
            var special = words[0] is "existing" or "point" ? 1 : 0;
            var vertices = string.Join(' ', words[(special + 2)..]).Split(';').Select(Vertex).ToArray();
            if (words[0] == "point") points.Add(new(words[2], [words[1]], vertices[0].At, vertices[0].Height));
            else if (Path.TryBuild(vertices, 0, out var path, out _)) made.Add(new(words[special + 1], [words[special]], path) { IsExisting = words[0] == "existing" });
        }

        var (what, entry) = (new DesignAdopted(file, lines.GetHashCode(StringComparison.Ordinal).ToString("x8", CultureInfo.InvariantCulture), null, null, SurfaceKind.Designed, null, null), inputs.Journal.Length + 1);
        return inputs.Then(what) with
        {
            Designs = [.. inputs.Designs.Select(known => known.What.FileName == file ? known with { Holds = false } : known), new(what, entry, true, new(made.ToImmutable(), points.ToImmutable(), surface is { } level ? [new("ground", Level(level))] : [], []))],
        };
    }

    /// <summary>Two triangles over the site, level.</summary>
    public static Tin Level(double height)
    {
        SurfacePoint Corner(double east, double north) => new(new(ShotsOf.East + east, ShotsOf.North + north), height);
        return Tin.TryOf([Corner(-500, -500), Corner(500, -500), Corner(500, 500), Corner(-500, 500)], [0, 1, 2, 0, 2, 3], out var tin, out var fault) ? tin : throw new InvalidOperationException(fault);
    }

    private static PathVertex Vertex(string text)
    {
        var cells = text.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var through = cells[0].StartsWith('~');
        double Number(string cell) => double.Parse(cell.TrimStart('~'), CultureInfo.InvariantCulture);
        return new(new(ShotsOf.East + Number(cells[0]), ShotsOf.North + Number(cells[1])), cells[2] == "-" ? null : Number(cells[2]), through);
    }
}
