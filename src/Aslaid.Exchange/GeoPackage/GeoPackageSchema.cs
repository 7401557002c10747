using System.Globalization;
using System.Text;

namespace Aslaid.Exchange;

/// <summary>The SQL that OGC 12-128r17 (GeoPackage 1.3) prescribes.</summary>
internal static class GeoPackageSchema
{
    public const int ApplicationId = 0x47504B47; // "GPKG"
    public const int Version = 10300;

    /// <summary>Annex C: the tables every file has, and those of features and extensions.</summary>
    public const string CoreTables = """
        CREATE TABLE gpkg_spatial_ref_sys (
          srs_name TEXT NOT NULL,
          srs_id INTEGER PRIMARY KEY,
          organization TEXT NOT NULL,
          organization_coordsys_id INTEGER NOT NULL,
          definition TEXT NOT NULL,
          description TEXT);
        CREATE TABLE gpkg_contents (
          table_name TEXT NOT NULL PRIMARY KEY,
          data_type TEXT NOT NULL,
          identifier TEXT UNIQUE,
          description TEXT DEFAULT '',
          last_change DATETIME NOT NULL DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ','now')),
          min_x DOUBLE, min_y DOUBLE, max_x DOUBLE, max_y DOUBLE,
          srs_id INTEGER,
          CONSTRAINT fk_gc_r_srs_id FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys(srs_id));
        CREATE TABLE gpkg_geometry_columns (
          table_name TEXT NOT NULL,
          column_name TEXT NOT NULL,
          geometry_type_name TEXT NOT NULL,
          srs_id INTEGER NOT NULL,
          z TINYINT NOT NULL,
          m TINYINT NOT NULL,
          CONSTRAINT pk_geom_cols PRIMARY KEY (table_name, column_name),
          CONSTRAINT uk_gc_table_name UNIQUE (table_name),
          CONSTRAINT fk_gc_tn FOREIGN KEY (table_name) REFERENCES gpkg_contents(table_name),
          CONSTRAINT fk_gc_srs FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys (srs_id));
        CREATE TABLE gpkg_extensions (
          table_name TEXT,
          column_name TEXT,
          extension_name TEXT NOT NULL,
          definition TEXT NOT NULL,
          scope TEXT NOT NULL,
          CONSTRAINT ge_tce UNIQUE (table_name, column_name, extension_name));
        """;

    public static string TypeOf(GeoPackageType type) => type switch
    {
        GeoPackageType.Whole => "INTEGER",
        GeoPackageType.Real => "DOUBLE",
        GeoPackageType.Text => "TEXT",
        GeoPackageType.Blob => "BLOB",
        GeoPackageType.Boolean => "BOOLEAN",
        GeoPackageType.Time => "DATETIME",
        GeoPackageType.Date => "DATE",
        _ => throw new ArgumentOutOfRangeException(nameof(type), type, "No such column type."),
    };

    public static string TypeOf(CurveKind kind) => kind switch
    {
        CurveKind.Point => "POINT",
        CurveKind.LineString => "LINESTRING",
        CurveKind.Polygon => "POLYGON",
        CurveKind.CompoundCurve => "COMPOUNDCURVE",
        CurveKind.CurvePolygon => "CURVEPOLYGON",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "A layer holds points, line strings, polygons, compound curves or curve polygons."),
    };

    public static string CreateTable(GeoPackageTable table)
    {
        var sql = new StringBuilder($"CREATE TABLE {GeoPackageNames.Plain(table.Name, nameof(table))} ({GeoPackageTable.Key} INTEGER PRIMARY KEY NOT NULL");
        if (table.Geometry is { } geometry)
            sql.Append(CultureInfo.InvariantCulture, $", {GeoPackageGeometry.Column} {TypeOf(geometry.Kind)}"); // the declared type must be the registered one
        foreach (var column in table.Columns)
            sql.Append(CultureInfo.InvariantCulture, $", {GeoPackageNames.Quote(GeoPackageNames.Plain(column.Name, nameof(table)))} {TypeOf(column.Type)}{(column.Required ? " NOT NULL" : "")}");
        return sql.Append(')').ToString();
    }

    /// <summary>Takes a table, its index and all mention of it away.</summary>
    public static string Remove(GeoPackageTable table)
    {
        var name = GeoPackageNames.Plain(table.Name, nameof(table));
        var sql = new StringBuilder();
        if (table.Geometry is not null) sql.Append(DropTriggers(name)).Append(CultureInfo.InvariantCulture, $"DROP TABLE IF EXISTS {IndexOf(name)};");
        sql.Append(CultureInfo.InvariantCulture, $"DELETE FROM gpkg_extensions WHERE table_name = '{name}';DELETE FROM gpkg_geometry_columns WHERE table_name = '{name}';");
        return sql.Append(CultureInfo.InvariantCulture, $"DELETE FROM gpkg_contents WHERE table_name = '{name}';DROP TABLE {name};").ToString();
    }

    public static string IndexOf(string table) => $"rtree_{table}_{GeoPackageGeometry.Column}";

    public static string CreateIndex(string table) => $"CREATE VIRTUAL TABLE {IndexOf(table)} USING rtree(id, minx, maxx, miny, maxy)";

    private static readonly string[] TriggerNames = ["insert", "update1", "update2", "update3", "update4", "delete"];

    public static string DropTriggers(string table) =>
        string.Concat(TriggerNames.Select(name => $"DROP TRIGGER IF EXISTS {IndexOf(table)}_{name};"));

    /// <summary>Annex F.3, requirement 75: the index follows every ordinary change of the table.</summary>
    public static string CreateTriggers(string table)
    {
        const string g = GeoPackageGeometry.Column, id = GeoPackageTable.Key;
        var index = IndexOf(table);
        const string isThere = $"NEW.{g} NOT NULL AND NOT ST_IsEmpty(NEW.{g})", isNot = $"NEW.{g} ISNULL OR ST_IsEmpty(NEW.{g})";
        var put = $"INSERT OR REPLACE INTO {index} VALUES (NEW.{id}, ST_MinX(NEW.{g}), ST_MaxX(NEW.{g}), ST_MinY(NEW.{g}), ST_MaxY(NEW.{g}))";
        return $"""
            CREATE TRIGGER {index}_insert AFTER INSERT ON {table} WHEN ({isThere}) BEGIN {put}; END;
            CREATE TRIGGER {index}_update1 AFTER UPDATE OF {g} ON {table} WHEN OLD.{id} = NEW.{id} AND ({isThere}) BEGIN {put}; END;
            CREATE TRIGGER {index}_update2 AFTER UPDATE OF {g} ON {table} WHEN OLD.{id} = NEW.{id} AND ({isNot}) BEGIN DELETE FROM {index} WHERE id = OLD.{id}; END;
            CREATE TRIGGER {index}_update3 AFTER UPDATE ON {table} WHEN OLD.{id} != NEW.{id} AND ({isThere}) BEGIN DELETE FROM {index} WHERE id = OLD.{id}; {put}; END;
            CREATE TRIGGER {index}_update4 AFTER UPDATE ON {table} WHEN OLD.{id} != NEW.{id} AND ({isNot}) BEGIN DELETE FROM {index} WHERE id IN (OLD.{id}, NEW.{id}); END;
            CREATE TRIGGER {index}_delete AFTER DELETE ON {table} WHEN OLD.{g} NOT NULL BEGIN DELETE FROM {index} WHERE id = OLD.{id}; END;
            """;
    }

    /// <summary>Milliseconds in UTC, as requirement 15 and table 1 ask.</summary>
    public static string Time(DateTimeOffset time) => time.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);
}
