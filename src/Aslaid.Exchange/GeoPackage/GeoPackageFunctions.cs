using Microsoft.Data.Sqlite;

namespace Aslaid.Exchange;

/// <summary>The SQL functions on which the triggers of a spatial index rest (OGC 12-128r17, annex F.3). A program that edits a
/// GeoPackage must bring them.</summary>
public static class GeoPackageFunctions
{
    /// <summary>Registers <c>ST_MinX</c>, <c>ST_MaxX</c>, <c>ST_MinY</c>, <c>ST_MaxY</c> and <c>ST_IsEmpty</c>. All give null for null;
    /// the first four also for an empty geometry. Bytes that are no geometry fail the statement, and the edit with it.</summary>
    public static void Register(SqliteConnection connection)
    {
        ArgumentNullException.ThrowIfNull(connection);
        Add("ST_MinX", box => box.MinEast);
        Add("ST_MaxX", box => box.MaxEast);
        Add("ST_MinY", box => box.MinNorth);
        Add("ST_MaxY", box => box.MaxNorth);
        connection.CreateFunction<byte[]?, bool?>("ST_IsEmpty", blob => blob is null ? null : BoxOf(blob).IsEmpty, isDeterministic: true);

        void Add(string name, Func<CurveBox, double> side) => connection.CreateFunction<byte[]?, double?>(name,
            blob => blob is not null && BoxOf(blob) is { IsEmpty: false } box ? side(box) : null, isDeterministic: true);
    }

    private static CurveBox BoxOf(byte[] blob)
    {
        var header = GeoPackageBlob.ReadHeader(blob);
        if (header.IsEmpty) return CurveBox.Empty;
        if (header.Box is { } stated) return stated;
        var shape = new CurveShape();
        CurveWkb.Read(blob.AsSpan(header.WkbOffset), shape);
        return CurveBox.Of(shape.Vertices);
    }
}
