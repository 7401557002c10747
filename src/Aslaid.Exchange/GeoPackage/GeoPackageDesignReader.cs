using System.IO;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace Aslaid.Exchange;

/// <summary>
/// A design as a GeoPackage (OGC 12-128r17), whoever wrote it: points, lines, areas and triangles of every feature table, arcs as true arcs, each ring a
/// closed line.
/// </summary>
/// <remarks>Nothing of the file is run: views and virtual tables are passed over, and each table's pages are checked before its rows are read.</remarks>
internal sealed class GeoPackageDesignReader : IDesignReader
{
    private const int LongestCell = 256 << 20; // bytes, a line of ten million vertices
    private static readonly string[] Required = ["gpkg_contents", "gpkg_geometry_columns", "gpkg_spatial_ref_sys"];

    static GeoPackageDesignReader() => SqliteRaw.OneThreadAConnection();

    public string Name => "GeoPackage";

    public bool Recognises(ReadOnlySpan<byte> head, string fileName) => head.StartsWith("SQLite format 3\0"u8);

    public void Read(Stream file, DesignOptions options, DesignGather into)
    {
        if (file is FileStream { CanWrite: false } there && File.Exists(there.Name))
        {
            DemandWhole(there.Name);
            Read(there.Name, options, into);
            return;
        }

        var folder = Directory.CreateTempSubdirectory("aslaid-");
        try
        {
            var copy = Path.Combine(folder.FullName, "design.gpkg");
            using (var to = new FileStream(copy, FileMode.CreateNew, FileAccess.Write)) file.CopyTo(to);
            Read(copy, options, into);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    /// <summary>Refuses a file of which the last changes still stand beside it.</summary>
    private static void DemandWhole(string name)
    {
        foreach (var beside in (string[])[name + "-wal", name + "-journal"])
        {
            if (!File.Exists(beside)) continue;
            using var stream = new FileStream(beside, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
            if (stream.ReadByte() > 0) // a journal that is done with begins with zeros
                throw new DesignRefusedException(0, Path.GetFileName(beside), "lies beside the file and holds changes that are not in it yet; close the file in the program that has it open, or open and close it there once");
        }
    }

    private static void Read(string name, DesignOptions options, DesignGather into)
    {
        var settings = new SqliteConnectionStringBuilder { DataSource = new Uri(Path.GetFullPath(name)).AbsoluteUri + "?immutable=1", Mode = SqliteOpenMode.ReadOnly, Pooling = false };
        try
        {
            using var connection = new SqliteConnection(settings.ToString());
            connection.Open();
            _ = raw.sqlite3_limit(SqliteRaw.HandleOf(connection), raw.SQLITE_LIMIT_LENGTH, LongestCell);
            SqliteRaw.Execute(connection, "PRAGMA trusted_schema=OFF; PRAGMA query_only=ON; PRAGMA cell_size_check=ON; PRAGMA ignore_check_constraints=ON");
            if (SqliteRaw.Scalar(connection, "PRAGMA encoding") != "UTF-8") throw new DesignRefusedException(0, null, "the file keeps its texts in UTF-16; save it with texts in UTF-8");
            Tables(connection, options, into);
        }
        catch (SqliteException fault)
        {
            throw new DesignRefusedException(0, null, $"SQLite cannot read the file ({fault.Message.TrimEnd('.')}); a whole GeoPackage was expected: open it in the program that wrote it and save it anew");
        }
    }

    private static void Tables(SqliteConnection connection, DesignOptions options, DesignGather into)
    {
        var stored = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        using (var read = new BulkRead(connection, "SELECT name FROM sqlite_master WHERE type = 'table' AND rootpage > 0")) // neither a view nor virtual
            while (read.Next()) stored.Add(read.Text(0));
        if (!stored.Contains(Required[0])) throw new DesignRefusedException(0, null, "the file is of SQLite but no GeoPackage: it has no table gpkg_contents");
        foreach (var table in Required)
            if (stored.Contains(table)) GeoPackageDesignTable.DemandSound(connection, table);

        var features = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        using (var read = new BulkRead(connection, "SELECT table_name FROM gpkg_contents WHERE data_type = 'features'"))
            while (read.Next()) features.Add(read.Text(0));
        var tables = new List<GeoPackageDesignTable>();
        if (features.Count > 0 && stored.Contains(Required[1]))
        {
            using var read = new BulkRead(connection, "SELECT table_name, column_name, upper(geometry_type_name), srs_id FROM gpkg_geometry_columns");
            while (read.Next())
                if (features.Contains(read.Text(0))) tables.Add(new(read.Text(0), read.Text(1), read.Text(2), read.WholeOrNull(3)));
        }

        if (tables.Count == 0) throw new DesignRefusedException(0, null, "the GeoPackage lists no table of features; lines, points or areas of a design were expected");
        tables.Sort((one, other) => string.CompareOrdinal(one.Name, other.Name));
        var curved = tables.Where(table => table.GeometryType is "COMPOUNDCURVE" or "CURVEPOLYGON").Select(table => table.Name).ToHashSet(StringComparer.OrdinalIgnoreCase);
        foreach (var table in tables)
        {
            const string copy = "_chorded"; // what RecordLayers calls its copies for readers without curves
            var shown = CellText.Shown(table.Name);
            if (!stored.Contains(table.Name)) into.Skip("table " + shown, "it is no table stored in the file; views are not run");
            else if (table.Name.EndsWith(copy, StringComparison.OrdinalIgnoreCase) && curved.Contains(table.Name[..^copy.Length])) into.Skip("table " + shown, $"it is a copy of {CellText.Shown(table.Name[..^copy.Length])} without arcs");
            else table.Read(connection, hasReferences: stored.Contains(Required[2]), options, into);
        }
    }
}
