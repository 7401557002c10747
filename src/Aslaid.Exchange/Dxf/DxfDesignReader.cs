using System.Globalization;
using System.IO;
using System.Text;
using Aslaid.Geometry;

namespace Aslaid.Exchange;

/// <summary>
/// A design as text DXF, R12 to 2018: LINE, ARC, CIRCLE, LWPOLYLINE and POLYLINE with bulges, 3D POLYLINE, POINT, 3DFACE (a surface for each layer), INSERT expanded. A line's code is sought
/// in its layer, then in the name of its block.
/// </summary>
/// <remarks>
/// Where all heights of an entity are exactly 0 it has none: a plan has no heights. Entities of paper space are passed over. Object coordinates are known for
/// extrusions straight up and straight down.
/// </remarks>
internal sealed class DxfDesignReader : IDesignReader
{
    public string Name => "DXF";

    public bool Recognises(ReadOnlySpan<byte> head, string fileName)
    {
        if (head.StartsWith("AutoCAD Binary DXF"u8)) return true;
        var text = Encoding.Latin1.GetString(head[..Math.Min(head.Length, 1024)]).TrimStart('\uFEFF', 'ï', '»', '¿');
        var lines = text.Split('\n', 3);
        return lines.Length > 1 && (lines[0].Trim() == "999" || lines[0].Trim() == "0" && lines[1].Trim() == "SECTION") || fileName.EndsWith(".dxf", StringComparison.OrdinalIgnoreCase);
    }

    public void Read(Stream file, DesignOptions options, DesignGather into)
    {
        var binary = new byte[18];
        var got = file.ReadAtLeast(binary, binary.Length, throwOnEndOfStream: false);
        if (got == binary.Length && binary.AsSpan().SequenceEqual("AutoCAD Binary DXF"u8)) throw new DesignRefusedException(0, null, "the drawing is a binary DXF; save it as a text (ASCII) DXF");
        file.Position = 0;
        new DxfReading(new(file), options, into).Whole();
    }
}

/// <summary>One drawing being read.</summary>
internal sealed class DxfReading(DxfPairs pairs, DesignOptions options, DesignGather into)
{
    private readonly Dictionary<string, (List<DxfEntity> Entities, double X, double Y, double Z)> blocks = new(StringComparer.OrdinalIgnoreCase);
    private double? unit;

    public void Whole()
    {
        DxfDrawer? drawer = null;
        while (true)
        {
            pairs.Next();
            if (pairs.Code == 999) continue;
            if (pairs.Code != 0) throw new DesignRefusedException(pairs.Line, null, "a section was expected, which begins with group 0");
            if (pairs.Text == "EOF") break;
            if (pairs.Text != "SECTION") throw new DesignRefusedException(pairs.Line, pairs.Text, "stands where a section or EOF was expected");
            pairs.Next();
            switch (pairs.Code == 2 ? pairs.Text : "")
            {
                case "HEADER": Header(); break;
                case "BLOCKS": Blocks(); break;
                case "ENTITIES":
                    drawer ??= new(Unit(), blocks, into);
                    Entities(drawer.Draw);
                    break;
                default: Pass(); break;
            }
        }

        if (drawer is null) throw new DesignRefusedException(0, null, "the drawing has no section of entities");
        drawer.End();
    }

    private double Unit()
    {
        if (unit is { } known) return known;
        if (options.UnitInMetres is { } said) return said;
        into.Remark("The drawing states no unit ($INSUNITS): metres were assumed.");
        return 1;
    }

    private void Header()
    {
        var variable = "";
        while (true)
        {
            pairs.Next();
            if (pairs.Code == 0 && pairs.Text == "ENDSEC") return;
            if (pairs.Code == 9) variable = pairs.Text;
            else if (variable == "$INSUNITS" && pairs.Code == 70) unit = UnitOf((int)pairs.Number) ?? unit;
        }
    }

    /// <summary>Metres to a unit by the number of $INSUNITS; null for none.</summary>
    private double? UnitOf(int number) => number switch
    {
        0 => null,
        1 => 0.0254, 2 => 0.3048, 3 => 1609.344, 4 => 0.001, 5 => 0.01, 6 => 1, 7 => 1000, 10 => 0.9144, 13 => 1e-6, 14 => 0.1, 15 => 10, 16 => 100,
        21 => 1200.0 / 3937, 22 => 100.0 / 3937, 23 => 3600.0 / 3937, 24 => 5280.0 * 1200 / 3937,
        _ => throw new DesignRefusedException(pairs.Line, number.ToString(CultureInfo.InvariantCulture), "is no unit of a site ($INSUNITS); metres, feet or inches were expected"),
    };

    private void Pass()
    {
        while (true)
        {
            pairs.Next();
            if (pairs.Code == 0 && pairs.Text == "ENDSEC") return;
        }
    }

    private void Blocks()
    {
        while (true)
        {
            pairs.Next();
            if (pairs.Code != 0) continue;
            if (pairs.Text == "ENDSEC") return;
            if (pairs.Text != "BLOCK") continue;
            var head = Groups(new("BLOCK", pairs.Line));
            var entities = new List<DxfEntity>();
            Entities(entities.Add, "ENDBLK");
            if (!blocks.TryAdd(head.Name, (entities, head.Number(10), head.Number(20), head.Number(30)))) throw new DesignRefusedException(head.Line, head.Name, "is the name of two blocks");
        }
    }

    private void Entities(Action<DxfEntity> take, string until = "ENDSEC")
    {
        while (true)
        {
            pairs.Next();
            if (pairs.Code != 0) continue; // groups of what is passed over
            if (pairs.Text == until) return;
            if (pairs.Text is "ENDSEC" or "EOF" or "SECTION") throw new DesignRefusedException(pairs.Line, pairs.Text, $"stands where {until} was expected");
            var entity = Groups(new(pairs.Text, pairs.Line));
            if (entity.Type == "POLYLINE")
            {
                entity.Vertices = [];
                Entities(vertex =>
                {
                    if (vertex.Type == "VERTEX") entity.Vertices.Add(vertex);
                }, "SEQEND");
            }

            take(entity);
        }
    }

    private DxfEntity Groups(DxfEntity entity)
    {
        while (true)
        {
            pairs.Next();
            switch (pairs.Code)
            {
                case 0:
                    pairs.Hold();
                    return entity;
                case 2: entity.Name = pairs.Text; break;
                case 5: entity.Handle = pairs.Text; break;
                case 8: entity.Layer = pairs.Text; break;
                case 10 or 11 or 12 or 13 or 20 or 21 or 22 or 23 or 30 or 31 or 32 or 33 or 38 or >= 40 and <= 51 or 67 or 70 or 71 or 90 or 210 or 220 or 230: entity.Add(pairs.Code, pairs.Number); break;
            }
        }
    }
}
