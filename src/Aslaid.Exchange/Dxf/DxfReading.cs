using System.IO;

namespace Aslaid.Exchange;

/// <summary>The reading of one drawing, section by section.</summary>
internal sealed class DxfReading(Stream file, DesignOptions options, DesignGather gather)
{
    private readonly DxfPairs pairs = new(file);
    private readonly DxfNames names = new();
    private readonly DxfGroups groups = new();
    private readonly DxfGroups corner = new();
    private readonly Dictionary<string, DxfBlock> blocks = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<(string, string), DxfPassedOver> passedOver = [];
    private DxfUnit? stated;
    private DxfTaken? taken; // from the first entities on

    public void Read()
    {
        while (true)
        {
            pairs.Next();
            if (pairs.Begins("EOF"u8)) break;
            if (!pairs.Begins("SECTION"u8)) throw pairs.Refused("stands outside the sections; SECTION or EOF was expected: the file is damaged");
            pairs.Next();
            if (pairs.Code != 2) throw pairs.Refused("follows SECTION; group code 2 with the section's name was expected");
            var name = names.Read(pairs.Value);
            if (taken is not null && name is "HEADER" or "BLOCKS") throw pairs.Refused("comes after the section ENTITIES; it was expected before it");
            pairs.Next();
            switch (name)
            {
                case "HEADER": Header(); break;
                case "BLOCKS": Blocks(); break;
                case "ENTITIES": Entities(); break;
                default:
                    while (!Ends(name)) pairs.Next();
                    break;
            }
        }

        if (taken is null) throw new DesignRefusedException(0, null, "the drawing has no section ENTITIES; one was expected");
        taken.Finish();
    }

    /// <summary>Whether the section ends here; refuses what shows that its end is missing.</summary>
    private bool Ends(string section)
    {
        if (pairs.Begins("ENDSEC"u8)) return true;
        return pairs.Begins("SECTION"u8) || pairs.Begins("EOF"u8) ? throw pairs.Refused($"comes before section {section} has ended; ENDSEC was expected: the file is damaged") : false;
    }

    private void Header()
    {
        string? version = null, page = null;
        var variable = "";
        for (; !Ends("HEADER"); pairs.Next())
        {
            switch (pairs.Code)
            {
                case 9: variable = names.Read(pairs.Value); break;
                case 1 when variable == "$ACADVER": version = names.Read(pairs.Value); break;
                case 3 when variable == "$DWGCODEPAGE": page = names.Read(pairs.Value); break;
                case 70 when variable == "$INSUNITS" && pairs.Whole() is not 0 and var number:
                    stated = DxfUnit.Known(number) ?? throw pairs.Refused("is a unit ($INSUNITS) in which no site is drawn; one from inch to mile or millimetre to kilometre was expected");
                    break;
            }
        }

        names.Settle(version, page);
    }

    private void Blocks()
    {
        while (!Ends("BLOCKS"))
        {
            if (!pairs.Begins("BLOCK"u8)) throw pairs.Refused("stands between blocks; BLOCK or ENDSEC was expected");
            groups.Read(pairs, names, "BLOCK");
            var name = groups.Name is { Length: > 0 } told ? told : throw new DesignRefusedException(groups.Line, "BLOCK", "lacks group code 2; a name was expected");
            var block = new DxfBlock(name, new(groups.Or(10, 0), groups.Or(20, 0), groups.Or(30, 0)), (groups.Flags & 12) != 0);
            while (!pairs.Begins("ENDBLK"u8))
            {
                if (pairs.Begins("BLOCK"u8) || pairs.Begins("ENDSEC"u8) || pairs.Begins("SECTION"u8) || pairs.Begins("EOF"u8))
                    throw pairs.Refused($"comes before block {CellText.Shown(name)} has ended; ENDBLK was expected: the file is damaged");
                if (Entity() is { } entity) block.Entities.Add(entity);
            }

            groups.Read(pairs, names, "ENDBLK");
            if (!blocks.TryAdd(name, block)) blocks[name].IsTwice = true;
        }
    }

    private void Entities()
    {
        taken ??= new(gather, Unit(), blocks);
        while (!Ends("ENTITIES"))
        {
            if (pairs.Code != 0) throw pairs.Refused("stands before the first entity; group code 0 was expected");
            Entity()?.Draw(taken, DxfFrame.Outermost);
        }
    }

    private DxfUnit Unit()
    {
        if (stated is { } unit) return unit;
        if (options.UnitInMetres is { } told) return double.IsFinite(told) && told > 0 ? new(told, 1) : throw new DesignRefusedException(0, null, "the unit told for the drawing is no length; metres above 0 were expected");
        gather.Remark("The drawing states no unit ($INSUNITS): metres are assumed.");
        return new(1, 1);
    }

    /// <summary>The entity that begins here; null for a mark of the format. Leaves off where the next begins.</summary>
    private DxfEntity? Entity()
    {
        var type = names.Read(pairs.Value);
        groups.Read(pairs, names, type);
        if (type == "SEQEND") return null;
        var corners = type == "POLYLINE" ? Corners() : [];
        if (groups.IsPaper) return PassedOver(type, "it lies in paper space");
        if (groups.IsInvisible) return PassedOver(type, "it is marked invisible");
        if (DxfPassedOver.Why(type) is { } why) return PassedOver(type, why);
        var common = new DxfCommon(type, groups.Line, groups.Handle, groups.Layer);
        if (type == "POLYLINE" && (groups.Flags & (16 | 64)) != 0) return PassedOver("POLYLINE", "it is a mesh; of surfaces only 3DFACE is read");
        if (type == "POLYLINE" && (groups.Flags & 8) != 0) return new DxfSpaceChain(common, corners, (groups.Flags & 1) != 0);
        switch (type)
        {
            case "LINE": return new DxfStraight(common, groups.Place(10), groups.Place(11));
            case "POINT": return new DxfDot(common, groups.Place(10));
            case "3DFACE": return new DxfFace(common, groups.Place(10), groups.Place(11), groups.Place(12), groups.Has(13) || groups.Has(23) ? groups.Place(13) : groups.Place(12));
            case "VERTEX": throw new DesignRefusedException(groups.Line, type, "belongs to no POLYLINE; one was expected before it");
        }

        if (groups.IsBelow is not { } below) return PassedOver(type, "its extrusion is not vertical: it does not lie in plan");
        var closed = (groups.Flags & 1) != 0;
        switch (type)
        {
            case "ARC": return new DxfArc(common, below, groups.Place(10), Radius(), groups.Need(50), groups.Need(51));
            case "CIRCLE": return new DxfArc(common, below, groups.Place(10), Radius(), 0, 360);
            case "LWPOLYLINE": return new DxfChain(common, below, [.. groups.Corners], groups.Or(38, 0), closed);
            case "POLYLINE": return new DxfChain(common, below, corners, groups.Or(30, 0), closed);
            default: return Insert(common, below);
        }
    }

    private DxfInsert Insert(in DxfCommon common, bool below)
    {
        var name = groups.Name is { Length: > 0 } told ? told : throw new DesignRefusedException(groups.Line, "INSERT", "lacks group code 2; the name of a block was expected");
        if (groups.Flags < 0 || groups.Rows < 0) throw new DesignRefusedException(groups.Line, "INSERT", "has fewer than no rows or columns; one or more were expected");
        return new(common, below, name)
        {
            At = groups.Place(10),
            Scale = new(groups.Or(41, 1), groups.Or(42, 1), groups.Or(43, 1)),
            Degrees = groups.Or(50, 0),
            Columns = Math.Max(1, groups.Flags),
            Rows = Math.Max(1, groups.Rows),
            ColumnStep = groups.Or(44, 0),
            RowStep = groups.Or(45, 0),
        };
    }

    private double Radius() => groups.Need(40) is >= 0 and var radius ? radius : throw new DesignRefusedException(groups.Line, groups.Type, "has a radius below 0; one of 0 or more was expected");

    /// <summary>The vertices that follow a polyline, up to its SEQEND.</summary>
    private DxfVertex[] Corners()
    {
        const int frame = 16; // a vertex of the frame that pulls a curve, not on the line
        var corners = new List<DxfVertex>();
        var mesh = (groups.Flags & (16 | 64)) != 0;
        var uneven = false;
        while (!pairs.Begins("SEQEND"u8))
        {
            if (!pairs.Begins("VERTEX"u8)) throw pairs.Refused("comes before a POLYLINE has ended; VERTEX or SEQEND was expected: the file is damaged");
            corner.Read(pairs, names, "VERTEX");
            if (mesh || (corner.Flags & frame) != 0) continue;
            var place = corner.Place(10);
            corners.Add(new(place.X, place.Y, place.Z, corner.Or(42, 0)));
            uneven |= place.Z != 0 && place.Z != groups.Or(30, 0);
        }

        corner.Read(pairs, names, "SEQEND");
        if (uneven && (groups.Flags & 8) == 0 && !groups.IsPaper) gather.Skip("heights of the vertices of a flat POLYLINE", "by the format it has one elevation only");
        return [.. corners];
    }

    private DxfPassedOver PassedOver(string type, string why)
    {
        if (!passedOver.TryGetValue((type, why), out var known)) passedOver.Add((type, why), known = new(CellText.Shown(type), why));
        return known;
    }
}
