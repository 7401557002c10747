using System.Globalization;
using Aslaid.Geometry;

namespace Aslaid.Exchange;

/// <summary>Turns entities into lines, points and surfaces, blocks expanded where they are inserted.</summary>
internal sealed class DxfDrawer(double unit, Dictionary<string, (List<DxfEntity> Entities, double X, double Y, double Z)> blocks, DesignGather into)
{
    private const int Deepest = 32; // blocks in blocks
    private const int MostExpanded = 2_000_000;
    private const double Upright = 1e-9;

    private readonly Dictionary<string, DxfFaces> faces = new(StringComparer.OrdinalIgnoreCase);
    private readonly List<string> within = [];
    private int expanded;
    private int flat;

    /// <summary>An entity of the drawing itself.</summary>
    public void Draw(DxfEntity entity)
    {
        if (entity.Number(67) == 1) into.Skip(entity.Type, "it lies in paper space");
        else Draw(entity, DxfPlacing.None, null, "0");
    }

    /// <summary>Hands the surfaces over and says what was taken as having no height.</summary>
    public void End()
    {
        foreach (var (layer, surface) in faces) surface.Give(layer, into);
        if (flat > 0) into.Remark(string.Create(CultureInfo.InvariantCulture, $"{flat} entities lie at height 0 exactly: they were taken as having no height."));
    }

    private void Draw(DxfEntity entity, DxfPlacing placing, string? block, string layer)
    {
        if (within.Count > 0 && ++expanded > MostExpanded) throw new DesignRefusedException(entity.Line, null, string.Create(CultureInfo.InvariantCulture, $"the blocks expand to more than {MostExpanded} entities; a design of one site was expected"));
        var own = entity.Layer == "0" ? layer : entity.Layer; // what lies on layer 0 of a block is of the layer that it is inserted on
        var target = new Target(own, block, entity, placing);
        switch (entity.Type)
        {
            case "LINE": Line(target); break;
            case "POINT": Point(target); break;
            case "3DFACE": Face(target); break;
            case "ARC" or "CIRCLE": Arc(target); break;
            case "LWPOLYLINE": Light(target); break;
            case "POLYLINE": Heavy(target); break;
            case "INSERT": Insert(target); break;
            case "ATTRIB" or "SEQEND": break; // words on an insert
            default: into.Skip(entity.Type, entity.Type is "SPLINE" or "ELLIPSE" ? "it is neither straights nor circular arcs" : "it is no line, point or surface that is read"); break;
        }
    }

    private readonly record struct Target(string Layer, string? Block, DxfEntity Entity, DxfPlacing Placing)
    {
        public string Name => Entity.Handle.Length > 0 ? $"{Layer} {Entity.Handle}" : Layer;

        public string?[] Words => [Layer, Block];
    }

    private void Line(Target target)
    {
        var (entity, chain) = (target.Entity, new PathChain());
        var (from, to) = (At(target.Placing, entity.Number(10), entity.Number(20), entity.Number(30), entity), At(target.Placing, entity.Number(11), entity.Number(21), entity.Number(31), entity));
        var has = Has(from.Height, to.Height);
        chain.Start(from.At, has ? from.Height : null);
        chain.LineTo(to.At, has ? to.Height : null);
        Give(target, chain);
    }

    private void Point(Target target)
    {
        var entity = target.Entity;
        var (at, height) = At(target.Placing, entity.Number(10), entity.Number(20), entity.Number(30), entity);
        into.Point(target.Name, target.Words, at, Has(height) ? height : null);
    }

    private void Face(Target target)
    {
        var entity = target.Entity;
        var corners = new (Point2 At, double Height)[4];
        for (var i = 0; i < 4; i++) corners[i] = At(target.Placing, entity.Number(10 + i, entity.Number(12)), entity.Number(20 + i, entity.Number(22)), entity.Number(30 + i, entity.Number(32)), entity);
        if (!faces.TryGetValue(target.Layer, out var surface)) faces.Add(target.Layer, surface = new());
        surface.Add(corners[0], corners[1], corners[2]);
        if (corners[3] != corners[2]) surface.Add(corners[0], corners[2], corners[3]);
    }

    private void Arc(Target target)
    {
        if (Object(target) is not { } placing) return;
        var (entity, radius) = (target.Entity, target.Entity.Number(40));
        if (!(radius > 0))
        {
            into.Skip(entity.Type, "its radius is not above 0");
            return;
        }

        if (!placing.KeepsCircles)
        {
            into.Skip(entity.Type, "it lies in a block stretched unequally and is no circle there");
            return;
        }

        var whole = entity.Type == "CIRCLE";
        var first = whole ? 0 : double.DegreesToRadians(entity.Number(50));
        var sweep = whole ? double.Tau : double.DegreesToRadians(entity.Number(51) - entity.Number(50)) % double.Tau;
        if (sweep <= 0) sweep += double.Tau;
        var turn = placing.Mirrors ? Turn.Right : Turn.Left;
        var (centre, height) = At(placing, entity.Number(10), entity.Number(20), entity.Number(30), entity);
        var from = OnCircle(first);
        double? level = Has(height) ? height : null;
        var chain = new PathChain();
        chain.Start(from, level);
        chain.ArcTo(whole || sweep == double.Tau ? Geometry.Arc.FromParts(from, from, centre, radius * placing.Stretch * unit, double.Tau, turn) : Geometry.Arc.OfSweep(from, OnCircle(first + sweep), sweep, turn), level);
        Give(target, chain);

        Point2 OnCircle(double angle)
        {
            var (sin, cos) = Math.SinCos(angle);
            return At(placing, entity.Number(10) + radius * cos, entity.Number(20) + radius * sin, entity.Number(30), entity).At;
        }
    }

    private void Light(Target target)
    {
        if (Object(target) is not { } placing) return;
        var (entity, places) = (target.Entity, new List<(double X, double Y, double Bulge)>());
        foreach (var (code, number) in entity.Numbers)
        {
            if (code == 10) places.Add((number, 0, 0));
            else if (places.Count > 0 && code == 20) places[^1] = places[^1] with { Y = number };
            else if (places.Count > 0 && code == 42) places[^1] = places[^1] with { Bulge = number };
        }

        Bulged(target, placing, places, entity.Number(38), (entity.Flags & 1) != 0);
    }

    private void Heavy(Target target)
    {
        var (entity, vertices) = (target.Entity, target.Entity.Vertices!);
        if ((entity.Flags & (16 | 64)) != 0) into.Skip("POLYLINE", "it is a mesh, not a line");
        else if ((entity.Flags & 8) != 0)
        {
            var places = vertices.Where(vertex => (vertex.Flags & 16) == 0).Select(vertex => At(target.Placing, vertex.Number(10), vertex.Number(20), vertex.Number(30), vertex)).ToList();
            if (places.Count == 0) return;
            if ((entity.Flags & 1) != 0) places.Add(places[0]);
            var (chain, has) = (new PathChain(), Has([.. places.Select(place => place.Height)]));
            chain.Start(places[0].At, has ? places[0].Height : null);
            foreach (var place in places.Skip(1)) chain.LineTo(place.At, has ? place.Height : null);
            Give(target, chain);
        }
        else if (Object(target) is { } placing)
        {
            if ((entity.Flags & (2 | 4)) != 0) into.Remark("A POLYLINE fitted to a curve was followed by its vertices and bulges.");
            Bulged(target, placing, [.. vertices.Where(vertex => (vertex.Flags & 16) == 0).Select(vertex => (vertex.Number(10), vertex.Number(20), vertex.Number(42)))], entity.Number(30), (entity.Flags & 1) != 0);
        }
    }

    /// <summary>A bulge is the tangent of a quarter of the sweep, left positive.</summary>
    private void Bulged(Target target, DxfPlacing placing, List<(double X, double Y, double Bulge)> places, double elevation, bool closed)
    {
        if (places.Count == 0) return;
        if (!placing.KeepsCircles && places.Exists(place => place.Bulge != 0))
        {
            into.Skip(target.Entity.Type, "it has arcs and lies in a block stretched unequally, where they are none");
            return;
        }

        if (closed) places.Add(places[0]);
        var (start, height) = At(placing, places[0].X, places[0].Y, elevation, target.Entity);
        double? level = Has(height) ? height : null;
        var chain = new PathChain();
        chain.Start(start, level);
        for (var i = 1; i < places.Count; i++)
        {
            var to = At(placing, places[i].X, places[i].Y, elevation, target.Entity).At;
            var bulge = places[i - 1].Bulge;
            var sweep = 4 * Math.Atan(Math.Abs(bulge));
            if (sweep > 0 && to != chain.End) chain.ArcTo(Geometry.Arc.OfSweep(chain.End, to, sweep, bulge > 0 != placing.Mirrors ? Turn.Left : Turn.Right), level);
            else chain.LineTo(to, level);
        }

        Give(target, chain);
    }

    private void Insert(Target target)
    {
        var entity = target.Entity;
        if (!blocks.TryGetValue(entity.Name, out var block))
        {
            into.Skip($"INSERT of {entity.Name}", "the drawing has no such block");
            return;
        }

        if (within.Contains(entity.Name, StringComparer.OrdinalIgnoreCase)) throw new DesignRefusedException(entity.Line, entity.Name, $"is a block that holds itself, by way of {string.Join(", ", within)}");
        if (within.Count >= Deepest) throw new DesignRefusedException(entity.Line, entity.Name, string.Create(CultureInfo.InvariantCulture, $"lies in blocks more than {Deepest} deep"));
        if (Object(target) is not { } placing) return;
        var (columns, rows) = (Math.Max(1, (int)Math.Min(entity.Number(70, 1), 1e6)), Math.Max(1, (int)Math.Min(entity.Number(71, 1), 1e6)));
        if ((long)columns * rows > MostExpanded) throw new DesignRefusedException(entity.Line, entity.Name, "is inserted in more rows and columns than a design of one site has");
        double x = entity.Number(41, 1), y = entity.Number(42, 1), z = entity.Number(43, 1);
        var base_ = (block.X, block.Y, block.Z);
        within.Add(entity.Name);
        for (var row = 0; row < rows; row++)
            for (var column = 0; column < columns; column++)
            {
                var (sin, cos) = Math.SinCos(double.DegreesToRadians(entity.Number(50)));
                double across = column * entity.Number(44), up = row * entity.Number(45);
                var own = DxfPlacing.Insert(entity.Number(10) + cos * across - sin * up, entity.Number(20) + sin * across + cos * up, entity.Number(30), x, y, z, entity.Number(50), base_);
                var whole = placing.After(own);
                if (within.Count == 1)
                {
                    var (at, height) = At(placing, entity.Number(10) + cos * across - sin * up, entity.Number(20) + sin * across + cos * up, entity.Number(30), entity);
                    into.Point($"{entity.Name} {entity.Handle}".TrimEnd(), [entity.Name, target.Layer], at, Has(height) ? height : null);
                }

                foreach (var inner in block.Entities) Draw(inner, whole, entity.Name, target.Layer);
            }

        within.RemoveAt(within.Count - 1);
    }

    /// <summary>The placing with the entity's own coordinates; null where it stands askew.</summary>
    private DxfPlacing? Object(Target target)
    {
        double x = target.Entity.Number(210), y = target.Entity.Number(220), z = target.Entity.Number(230, 1);
        var size = Math.Sqrt(x * x + y * y + z * z);
        if (size > 0 && Math.Abs(x) <= Upright * size && Math.Abs(y) <= Upright * size) return z > 0 ? target.Placing : target.Placing.After(DxfPlacing.Below);
        into.Skip(target.Entity.Type, "its extrusion is not vertical: it does not lie in plan");
        return null;
    }

    private (Point2 At, double Height) At(DxfPlacing placing, double x, double y, double z, DxfEntity entity)
    {
        var (east, north, height) = placing.Of(x, y, z);
        return (DesignGather.Place(unit * east, unit * north, entity.Line), DesignGather.Height(unit * height, entity.Line));
    }

    private bool Has(params ReadOnlySpan<double> heights)
    {
        foreach (var height in heights)
            if (height != 0) return true;
        flat++;
        return false;
    }

    private void Give(Target target, PathChain chain)
    {
        if (chain.Build() is { } path) into.Line(target.Name, target.Words, path);
        else into.Skip(target.Entity.Type, "it has no length");
    }
}

/// <summary>Faces of one layer as triangles; corners in one place are one point.</summary>
internal sealed class DxfFaces
{
    private readonly Dictionary<(Point2 At, double Height), int> known = [];
    private readonly List<Point2> places = [];
    private readonly List<double> heights = [];
    private readonly List<int> corners = [];

    public void Add(params ReadOnlySpan<(Point2 At, double Height)> triangle)
    {
        foreach (var corner in triangle)
        {
            if (!known.TryGetValue(corner, out var place))
            {
                known.Add(corner, place = places.Count);
                places.Add(corner.At);
                heights.Add(corner.Height);
            }

            corners.Add(place);
        }
    }

    public void Give(string layer, DesignGather into) => into.Surface(layer, [.. places], [.. heights], [.. corners]);
}
