using System.Globalization;

namespace Aslaid.Exchange;

/// <summary>A block: entities drawn once and inserted wherever it is named.</summary>
/// <param name="name">Large and small letters are the same.</param>
/// <param name="basePlace">Comes to lie where it is inserted.</param>
/// <param name="isElsewhere">Whether another file holds it.</param>
internal sealed class DxfBlock(string name, DxfPlace basePlace, bool isElsewhere)
{
    public string Name => name;

    public DxfPlace Base => basePlace;

    public bool IsElsewhere => isElsewhere;

    public List<DxfEntity> Entities { get; } = [];

    /// <summary>Whether another block has its name.</summary>
    public bool IsTwice { get; set; }

    /// <summary>Whether it is being drawn: then inserting it again would never end.</summary>
    public bool IsOpen { get; set; }
}

/// <summary>Where entities are drawn: in the drawing itself or in a block inserted there.</summary>
/// <param name="By">How their coordinates become the drawing's.</param>
/// <param name="Layer">Stands for layer 0 of the block; null in the drawing itself.</param>
/// <param name="Block">Null in the drawing itself.</param>
/// <param name="Depth">Blocks within blocks; 0 in the drawing itself.</param>
internal sealed record DxfFrame(DxfTransform By, string? Layer, DxfBlock? Block, DxfFrame? Outer, int Depth)
{
    public static DxfFrame Outermost { get; } = new(DxfTransform.Identity, null, null, null, 0);

    public string LayerOf(in DxfCommon entity) => entity.Layer == "0" && Layer is not null ? Layer : entity.Layer;

    /// <summary>What may say a code: the layer, then the blocks from the innermost outwards.</summary>
    public string[] Words(in DxfCommon entity)
    {
        var words = new string[Depth + 1];
        words[0] = LayerOf(entity);
        var frame = this;
        for (var i = 1; i < words.Length; i++, frame = frame.Outer!) words[i] = frame.Block!.Name;
        return words;
    }
}

/// <summary>INSERT: a block drawn once, or in rows and columns.</summary>
internal sealed class DxfInsert(in DxfCommon common, bool below, string name) : DxfEntity(common)
{
    private const int Deepest = 32;

    public required DxfPlace At { get; init; }

    public required DxfPlace Scale { get; init; }

    /// <summary>Turned to the left.</summary>
    public required double Degrees { get; init; }

    public required int Columns { get; init; }

    public required int Rows { get; init; }

    /// <summary>Between columns, along the turned x.</summary>
    public required double ColumnStep { get; init; }

    /// <summary>Between rows, along the turned y.</summary>
    public required double RowStep { get; init; }

    public override void Draw(DxfTaken into, DxfFrame frame)
    {
        if (into.Block(name) is not { } block)
        {
            into.Skip("INSERT", $"the drawing has no block {CellText.Shown(name)}");
            return;
        }

        if (block.IsElsewhere) into.Skip("INSERT", $"block {CellText.Shown(name)} lies in another file; bind it into the drawing");
        else if (Scale.X == 0 || Scale.Y == 0) into.Skip("INSERT", "its scale is 0");
        else Draw(block, into, frame);
    }

    private void Draw(DxfBlock block, DxfTaken into, DxfFrame frame)
    {
        if (block.IsTwice) throw new DesignRefusedException(Common.Line, name, "is inserted here and is the name of two blocks; one was expected");
        if (block.IsOpen) throw new DesignRefusedException(Common.Line, name, "is a block that is inserted in itself, straight or by another; blocks that end were expected");
        if (frame.Depth == Deepest) throw new DesignRefusedException(Common.Line, name, string.Create(CultureInfo.InvariantCulture, $"is a block within {Deepest} others; fewer were expected"));
        block.IsOpen = true;
        var layer = frame.LayerOf(Common);
        for (var row = 0; row < Rows; row++)
        {
            for (var column = 0; column < Columns; column++)
            {
                into.Expand(1, Common.Line);
                var step = DxfTransform.Inserted(default, default, new(1, 1, 1), Degrees).Way(column * ColumnStep, row * RowStep);
                var own = DxfTransform.Inserted(block.Base, new(At.X + step.X, At.Y + step.Y, At.Z), Scale, Degrees);
                var inner = new DxfFrame(frame.By.Over(below ? DxfTransform.Below.Over(own) : own), layer, block, frame, frame.Depth + 1);
                if (frame.Depth == 0 && !block.Entities.Exists(entity => entity is DxfDot)) into.Symbol(block.Name, Common, inner, inner.By.Of(block.Base));
                foreach (var entity in block.Entities)
                {
                    into.Expand(entity.Vertices, Common.Line);
                    entity.Draw(into, inner);
                }
            }
        }

        block.IsOpen = false;
    }
}
