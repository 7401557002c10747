using System.Buffers;
using System.Buffers.Binary;

namespace Aslaid.Exchange;

/// <summary>Fills a table of a GeoPackage anew: what it held goes, and its spatial index is packed at the end.</summary>
/// <remarks>Use inside a transaction. For each row <see cref="Start(long)"/> or <see cref="Start(long, ReadOnlySpan{CurveVertex}, ReadOnlySpan{int})"/>,
/// then the columns of <see cref="Rows"/> from <see cref="FirstColumn"/> on, in the order of the table, then <see cref="BulkInsert.Row"/>;
/// at the end <see cref="Complete"/>. Until then the index has no triggers: a fill that is not completed must be rolled back.</remarks>
public sealed class TableFill : IDisposable
{
    private readonly GeoPackageFile _file;
    private readonly GeoPackageTable _table;
    private readonly ArrayBufferWriter<byte> _blob = new(1024);
    private readonly PackedRTree _index = new();
    private CurveBox _extent = CurveBox.Empty;
    private bool _lacksHeights;

    internal TableFill(GeoPackageFile file, GeoPackageTable table)
    {
        (_file, _table) = (file, table);
        FirstColumn = table.Geometry is null ? 1 : 2;
        var empty = $"DELETE FROM {GeoPackageNames.Plain(table.Name, nameof(table))}"; // without triggers SQLite drops whole pages
        SqliteRaw.Execute(file.Connection, table.Geometry is null ? empty : GeoPackageSchema.DropTriggers(table.Name) + empty);
        string[] leading = table.Geometry is null ? [GeoPackageTable.Key] : [GeoPackageTable.Key, GeoPackageGeometry.Column];
        Rows = new BulkInsert(file.Connection, table.Name, [.. leading, .. table.Columns.Select(c => c.Name)]);
    }

    /// <summary>Takes the columns.</summary>
    public BulkInsert Rows { get; }

    /// <summary>Where the table's own columns start in <see cref="Rows"/>, behind key and geometry.</summary>
    public int FirstColumn { get; }

    /// <summary>Starts a row without geometry.</summary>
    public void Start(long id) => Rows.Whole(0, id);

    /// <summary>Starts a row with a geometry of the table's kind; the index learns its box. Where one of its heights is NaN, the geometry
    /// is written without heights, and the layer is marked as having them now and then (z = 2).</summary>
    /// <inheritdoc cref="CurveWkb.Write(IBufferWriter{byte}, CurveKind, ReadOnlySpan{CurveVertex}, ReadOnlySpan{int}, CurveDimensions)"/>
    public void Start(long id, ReadOnlySpan<CurveVertex> vertices, ReadOnlySpan<int> ringEnds = default)
    {
        var geometry = _table.Geometry ?? throw new InvalidOperationException($"{_table.Name} is an attribute table and takes no geometry.");
        Rows.Whole(0, id);
        _blob.ResetWrittenCount();
        var box = GeoPackageBlob.Write(_blob, geometry.SrsId, geometry.Kind, vertices, ringEnds, DimensionsOf(geometry, vertices));
        Rows.Blob(1, _blob.WrittenSpan);
        _index.Add(id, box);
        _extent = _extent.Join(box);
    }

    /// <summary>Starts a row with a point Z: what comes by the million goes straight to its bytes.</summary>
    /// <param name="height">NaN for a point without a height.</param>
    public void Start(long id, double east, double north, double height)
    {
        var geometry = _table.Geometry;
        if (geometry is not { Kind: CurveKind.Point, Dimensions: CurveDimensions.Height })
            throw new InvalidOperationException($"{_table.Name} holds no points with heights.");
        if (!double.IsFinite(east) || !double.IsFinite(north) || double.IsInfinity(height))
            throw new ArgumentException($"Row {id} of {_table.Name} has a coordinate that is not finite.", nameof(east));
        var flat = double.IsNaN(height);
        _lacksHeights |= flat;
        Span<byte> blob = stackalloc byte[37];
        "GP\0\u0001"u8.CopyTo(blob); // magic, version 1, little endian without envelope
        BinaryPrimitives.WriteInt32LittleEndian(blob[4..], geometry.SrsId);
        blob[8] = 1; // little endian
        BinaryPrimitives.WriteInt32LittleEndian(blob[9..], flat ? 1 : 1001); // ISO 13249-3: point, point Z
        BinaryPrimitives.WriteDoubleLittleEndian(blob[13..], east);
        BinaryPrimitives.WriteDoubleLittleEndian(blob[21..], north);
        if (!flat) BinaryPrimitives.WriteDoubleLittleEndian(blob[29..], height);
        Rows.Whole(0, id);
        Rows.Blob(1, blob[..(flat ? 29 : 37)]);
        var box = new CurveBox(east, east, north, north, flat ? double.PositiveInfinity : height, flat ? double.NegativeInfinity : height);
        _index.Add(id, box);
        _extent = _extent.Join(box);
    }

    /// <summary>Starts a row with a geometry that was encoded before, for this table's kind and reference.</summary>
    public void Start(long id, EncodedGeometry geometry)
    {
        Rows.Whole(0, id);
        Rows.Blob(1, geometry.Blob);
        _index.Add(id, geometry.Box);
        _extent = _extent.Join(geometry.Box);
        _lacksHeights |= geometry.LacksHeights;
    }

    private CurveDimensions DimensionsOf(GeoPackageGeometry geometry, ReadOnlySpan<CurveVertex> vertices)
    {
        if ((geometry.Dimensions & CurveDimensions.Height) == 0) return geometry.Dimensions;
        foreach (ref readonly var vertex in vertices)
        {
            if (!double.IsNaN(vertex.Height)) continue;
            _lacksHeights = true;
            return geometry.Dimensions & ~CurveDimensions.Height;
        }

        return geometry.Dimensions;
    }

    /// <summary>Writes the index and its triggers, and notes extent and time of the change in the file's contents.</summary>
    public void Complete(DateTimeOffset lastChange)
    {
        if (_table.Geometry is { } geometry)
        {
            if ((geometry.Dimensions & CurveDimensions.Height) != 0)
                SqliteRaw.Execute(_file.Connection, $"UPDATE gpkg_geometry_columns SET z = {(_lacksHeights ? 2 : 1)} WHERE table_name = {GeoPackageNames.Literal(_table.Name)}");
            _index.Write(_file.Connection, GeoPackageSchema.IndexOf(_table.Name));
            SqliteRaw.Execute(_file.Connection, GeoPackageSchema.CreateTriggers(_table.Name));
        }
        _file.SetContents(_table.Name, _extent, lastChange);
    }

    /// <summary>Gives the statement back.</summary>
    public void Dispose() => Rows.Dispose();
}
