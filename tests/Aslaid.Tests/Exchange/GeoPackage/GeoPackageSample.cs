using Aslaid.Exchange;

namespace Aslaid.Tests;

/// <summary>Tables as the project file and a deliverable hold them, on the invented site.</summary>
internal static class GeoPackageSample
{
    public static DateTimeOffset Noon { get; } = new(2031, 5, 4, 12, 0, 0, TimeSpan.Zero);

    public static GeoPackageTable Points { get; } = new("points", "Points", "Shots as points", [new("code", GeoPackageType.Text)],
        new(CurveKind.Point, CurveDimensions.Height, 100001));

    public static GeoPackageTable Runs { get; } = new("runs", "Runs", "Lines with true arcs", [new("code", GeoPackageType.Text, Required: true), new("plan_length_m", GeoPackageType.Real)],
        new(CurveKind.CompoundCurve, CurveDimensions.HeightAndMeasure, 100001));

    public static GeoPackageTable Areas { get; } = new("areas", "Areas", "Areas with true arcs", [new("area_m2", GeoPackageType.Real)],
        new(CurveKind.CurvePolygon, CurveDimensions.Height, 100001));

    public static GeoPackageTable Linear { get; } = new("runs_linear", "Runs, linear copy", "", [],
        new(CurveKind.LineString, CurveDimensions.Height, 100001));

    public static GeoPackageTable Entries { get; } = new("journal", "Journal", "", [new("kind", GeoPackageType.Text), new("bytes", GeoPackageType.Blob), new("at", GeoPackageType.Time), new("size", GeoPackageType.Whole), new("is_kept", GeoPackageType.Boolean), new("value", GeoPackageType.Real)]);

    /// <summary>A new file with the tables, empty.</summary>
    public static GeoPackageFile Create(string name, params ReadOnlySpan<GeoPackageTable> tables)
    {
        var file = GeoPackageFile.Create(name, SpatialReference.SiteGrid);
        using var transaction = file.Begin();
        foreach (var table in tables) file.Add(table, Noon);
        transaction.Commit();
        return file;
    }

    public static CurveVertex Vertex(double east, double north, bool onArc = false, double measure = 0) =>
        new(512_000 + east, 6_243_000 + north, 5, measure, onArc);

    public static void Fill(GeoPackageFile file, GeoPackageTable table, IEnumerable<(long Id, CurveVertex[] Vertices)> rows)
    {
        using var fill = file.Fill(table);
        foreach (var (id, vertices) in rows)
        {
            fill.Start(id, vertices);
            if (table == Runs || table == Points) fill.Rows.Text(fill.FirstColumn, "WM1");
            fill.Rows.Row();
        }
        fill.Complete(Noon);
    }

    public static string? Scalar(GeoPackageFile file, string sql)
    {
        using var read = new BulkRead(file.Connection, sql);
        return read.Next() && !read.IsNull(0) ? read.Text(0) : null;
    }
}
