using System.Collections.Immutable;
using System.Globalization;
using System.IO;
using Microsoft.Data.Sqlite;

namespace Aslaid.Exchange;

/// <summary>A GeoPackage (OGC 12-128r17, version 1.3): one SQLite file that any GIS opens.</summary>
/// <remarks>Rollback journal, so that a copied file is whole; every commit is on the disk, its directory entry included, when it returns
/// (synchronous EXTRA); another program's lock is waited for 5 s. The connection knows the functions of the index triggers. Holds no
/// clock: times are given. Not safe for use from two threads.</remarks>
public sealed class GeoPackageFile : IDisposable
{
    private const int WaitMilliseconds = 5000;
    private const int CacheKibibytes = 65536;

    static GeoPackageFile() => SqliteRaw.OneThreadAConnection();

    private GeoPackageFile(SqliteConnection connection) => Connection = connection;

    /// <summary>The open connection, for SQL of one's own.</summary>
    public SqliteConnection Connection { get; }

    /// <summary>Makes a new file with the required tables and the spatial references given besides the three required ones.</summary>
    /// <exception cref="IOException">The file exists, or cannot be made.</exception>
    public static GeoPackageFile Create(string path, params ReadOnlySpan<SpatialReference> references)
    {
        if (File.Exists(path)) throw new IOException($"{path} exists; a new GeoPackage is not written over it.");
        SpatialReference[] all = [SpatialReference.UndefinedPlane, SpatialReference.UndefinedGeographic, SpatialReference.Wgs84, .. references];
        return Connect(path, SqliteOpenMode.ReadWriteCreate, file =>
        {
            SqliteRaw.Execute(file.Connection, string.Create(CultureInfo.InvariantCulture,
                $"PRAGMA application_id={GeoPackageSchema.ApplicationId}; PRAGMA user_version={GeoPackageSchema.Version}"));
            using var transaction = file.Begin();
            SqliteRaw.Execute(file.Connection, GeoPackageSchema.CoreTables);
            foreach (var reference in all.Distinct()) file.Add(reference);
            transaction.Commit();
        });
    }

    /// <summary>Opens a GeoPackage, of whichever version and writer.</summary>
    /// <param name="readOnly">Nothing is changed, also not the journal mode; otherwise a file left in WAL mode is brought back to a rollback
    /// journal. One thing is done even so: what a crash left half written is rolled back first, for without that nothing can be read.</param>
    /// <exception cref="IOException">The file is not there, cannot be opened, is held in WAL mode by another program, or was left half written
    /// and cannot be rolled back.</exception>
    /// <exception cref="InvalidDataException">The file is no GeoPackage.</exception>
    public static GeoPackageFile Open(string path, bool readOnly = false)
    {
        if (!File.Exists(path)) throw new FileNotFoundException($"{path} is not there.", path);
        if (!readOnly) return Connect(path, SqliteOpenMode.ReadWrite, Ready);
        try
        {
            return Connect(path, SqliteOpenMode.ReadOnly, Ready);
        }
        catch (IOException fault) when (fault.InnerException is SqliteException { SqliteErrorCode: SQLitePCL.raw.SQLITE_READONLY })
        {
            RollBack(path);
            return Connect(path, SqliteOpenMode.ReadOnly, Ready);
        }

        void Ready(GeoPackageFile file)
        {
            if (SqliteRaw.Scalar(file.Connection, "SELECT 1 FROM sqlite_master WHERE name = 'gpkg_contents'") is null)
                throw new InvalidDataException($"{path} is no GeoPackage: it has no table gpkg_contents.");
        }
    }

    /// <summary>Brings a file back to its last commit: the first read of a connection that may write plays the journal back.</summary>
    private static void RollBack(string path)
    {
        try
        {
            using var file = Connect(path, SqliteOpenMode.ReadWrite, file => SqliteRaw.Scalar(file.Connection, "SELECT 1 FROM sqlite_master"));
        }
        catch (IOException fault)
        {
            throw new IOException($"{path} was left half written by a program that ended too soon; its last whole state is in {path}-journal, but the file "
                + "cannot be written to bring it back. Allow writing to both and their folder, or copy both together to where you may write.", fault);
        }
    }

    private static GeoPackageFile Connect(string path, SqliteOpenMode mode, Action<GeoPackageFile> ready)
    {
        var settings = new SqliteConnectionStringBuilder { DataSource = path, Mode = mode, Pooling = false };
        var file = new GeoPackageFile(new SqliteConnection(settings.ToString()));
        try
        {
            file.Connection.Open();
            SqliteRaw.Execute(file.Connection, string.Create(CultureInfo.InvariantCulture,
                $"PRAGMA busy_timeout={WaitMilliseconds}; PRAGMA synchronous=EXTRA; PRAGMA foreign_keys=ON; PRAGMA cache_size=-{CacheKibibytes}"));
            if (mode != SqliteOpenMode.ReadOnly)
            {
                GeoPackageFunctions.Register(file.Connection);
                var journal = SqliteRaw.Scalar(file.Connection, "PRAGMA journal_mode=DELETE");
                if (journal != "delete") throw new IOException($"{path} is held in journal mode {journal} by another program; close it there first.");
            }
            ready(file);
            return file;
        }
        catch (SqliteException fault)
        {
            file.Dispose();
            throw fault.SqliteErrorCode == SQLitePCL.raw.SQLITE_NOTADB
                ? new InvalidDataException($"{path} is no GeoPackage: it is no SQLite file.", fault)
                : new IOException($"{path} cannot be opened: {fault.Message}", fault);
        }
        catch
        {
            file.Dispose();
            throw;
        }
    }

    /// <summary>Starts a write transaction at once; waits for another writer as long as the file does.</summary>
    /// <exception cref="SqliteException">Code 5 (busy): another program was still writing after that.</exception>
    public GeoPackageTransaction Begin() => new(Connection);

    /// <summary>Adds a spatial reference.</summary>
    /// <exception cref="SqliteException">The file has one of this key.</exception>
    public void Add(SpatialReference reference)
    {
        ArgumentNullException.ThrowIfNull(reference);
        using var insert = new BulkInsert(Connection, "gpkg_spatial_ref_sys", "srs_name", "srs_id", "organization", "organization_coordsys_id", "definition");
        insert.Text(0, reference.Name);
        insert.Whole(1, reference.SrsId);
        insert.Text(2, reference.Organization);
        insert.Whole(3, reference.OrganizationId);
        insert.Text(4, reference.Definition);
        insert.Row();
    }

    /// <summary>Makes a table and lists it in the file's contents; a feature table gets an empty spatial index with its triggers.</summary>
    public void Add(GeoPackageTable table, DateTimeOffset lastChange)
    {
        ArgumentNullException.ThrowIfNull(table);
        SqliteRaw.Execute(Connection, GeoPackageSchema.CreateTable(table));
        using (var contents = new BulkInsert(Connection, "gpkg_contents", "table_name", "data_type", "identifier", "description", "last_change", "srs_id"))
        {
            contents.Text(0, table.Name);
            contents.Text(1, table.Geometry is null ? "attributes" : "features");
            contents.Text(2, table.Title);
            contents.Text(3, table.Description);
            contents.Text(4, GeoPackageSchema.Time(lastChange));
            contents.Whole(5, table.Geometry?.SrsId);
            contents.Row();
        }
        if (table.Geometry is { } geometry) AddGeometry(table.Name, geometry);
    }

    /// <summary>
    /// Makes sure that a table of what can be derived anew is there with just these columns: makes it, or makes it anew, empty,
    /// where an earlier program left it with others. To be called inside a transaction.
    /// </summary>
    public void Shape(GeoPackageTable table, DateTimeOffset lastChange)
    {
        ArgumentNullException.ThrowIfNull(table);
        var wanted = new List<string> { GeoPackageTable.Key };
        if (table.Geometry is not null) wanted.Add(GeoPackageGeometry.Column);
        wanted.AddRange(table.Columns.Select(column => column.Name));
        var there = new List<string>();
        using (var columns = new BulkRead(Connection, "SELECT name FROM pragma_table_info(?1) ORDER BY cid"))
        {
            columns.Bind(1, table.Name);
            while (columns.Next()) there.Add(columns.Text(0));
        }

        if (there.SequenceEqual(wanted)) return;
        if (there.Count > 0)
        {
            if (TitleOf(table.Name) != table.Title)
                throw new IOException($"The file has a table {table.Name} that this program did not make; rename it, since derived data goes there.");
            foreach (var mention in (ReadOnlySpan<string>)["gpkg_data_columns", "gpkg_metadata_reference"]) // where a GIS has kept words about our columns
                if (SqliteRaw.Scalar(Connection, $"SELECT 1 FROM sqlite_master WHERE name = '{mention}'") is not null)
                    SqliteRaw.Execute(Connection, $"DELETE FROM {mention} WHERE table_name = '{GeoPackageNames.Plain(table.Name, nameof(table))}'");
            SqliteRaw.Execute(Connection, GeoPackageSchema.Remove(table));
        }

        Add(table, lastChange);
    }

    private string? TitleOf(string table)
    {
        using var title = new BulkRead(Connection, "SELECT identifier FROM gpkg_contents WHERE table_name = ?1");
        title.Bind(1, table);
        return title.Next() ? title.Text(0) : null;
    }

    private void AddGeometry(string table, GeoPackageGeometry geometry)
    {
        using (var columns = new BulkInsert(Connection, "gpkg_geometry_columns", "table_name", "column_name", "geometry_type_name", "srs_id", "z", "m"))
        {
            columns.Text(0, table);
            columns.Text(1, GeoPackageGeometry.Column);
            columns.Text(2, GeoPackageSchema.TypeOf(geometry.Kind));
            columns.Whole(3, geometry.SrsId);
            columns.Whole(4, geometry.Dimensions.HasFlag(CurveDimensions.Height) ? 1 : 0); // 1: mandatory, 0: prohibited
            columns.Whole(5, geometry.Dimensions.HasFlag(CurveDimensions.Measure) ? 1 : 0);
            columns.Row();
        }
        using (var extensions = new BulkInsert(Connection, "gpkg_extensions", "table_name", "column_name", "extension_name", "definition", "scope"))
        {
            Extension("gpkg_rtree_index", "http://www.geopackage.org/spec120/#extension_rtree", "write-only");
            if (geometry.Kind is CurveKind.CompoundCurve or CurveKind.CurvePolygon)
                Extension($"gpkg_geom_{GeoPackageSchema.TypeOf(geometry.Kind)}", "http://www.geopackage.org/spec120/#extension_geometry_types", "read-write");

            void Extension(string name, string definition, string scope)
            {
                extensions.Text(0, table);
                extensions.Text(1, GeoPackageGeometry.Column);
                extensions.Text(2, name);
                extensions.Text(3, definition);
                extensions.Text(4, scope);
                extensions.Row();
            }
        }
        SqliteRaw.Execute(Connection, GeoPackageSchema.CreateIndex(table));
        SqliteRaw.Execute(Connection, GeoPackageSchema.CreateTriggers(table));
    }

    /// <summary>Empties a table made by <see cref="Add(GeoPackageTable, DateTimeOffset)"/> and fills it anew.</summary>
    public TableFill Fill(GeoPackageTable table)
    {
        ArgumentNullException.ThrowIfNull(table);
        return new(this, table);
    }

    /// <summary>Notes in the contents when a table changed and what box it covers.</summary>
    /// <param name="extent">Empty where the table holds no geometry.</param>
    public void SetContents(string table, in CurveBox extent, DateTimeOffset lastChange)
    {
        using var update = new BulkRead(Connection,
            "UPDATE gpkg_contents SET last_change = ?2, min_x = ?3, min_y = ?4, max_x = ?5, max_y = ?6 WHERE table_name = ?1");
        update.Bind(1, table);
        update.Bind(2, GeoPackageSchema.Time(lastChange));
        if (!extent.IsEmpty)
        {
            update.Bind(3, extent.MinEast);
            update.Bind(4, extent.MinNorth);
            update.Bind(5, extent.MaxEast);
            update.Bind(6, extent.MaxNorth);
        }
        update.Next();
    }

    /// <summary>The tables the file lists, by name.</summary>
    public ImmutableArray<GeoPackageListing> Contents()
    {
        var hasGeometry = Has("gpkg_geometry_columns");
        var hasExtensions = Has("gpkg_extensions");
        using var read = new BulkRead(Connection, $"""
            SELECT c.table_name, c.data_type, c.identifier, c.last_change, {(hasGeometry ? "g.column_name, upper(g.geometry_type_name), g.srs_id" : "NULL, NULL, c.srs_id")},
              {(hasExtensions ? "EXISTS(SELECT 1 FROM gpkg_extensions e WHERE lower(e.table_name) = lower(c.table_name) AND e.extension_name = 'gpkg_rtree_index')" : "0")}
            FROM gpkg_contents c {(hasGeometry ? "LEFT JOIN gpkg_geometry_columns g ON lower(g.table_name) = lower(c.table_name)" : "")}
            ORDER BY c.table_name
            """);
        var all = ImmutableArray.CreateBuilder<GeoPackageListing>();
        while (read.Next())
            all.Add(new(read.Text(0), read.Text(1), Maybe(2), read.Text(3), Maybe(4), Maybe(5), (int?)read.WholeOrNull(6), read.Whole(7) != 0));
        return all.ToImmutable();

        string? Maybe(int column) => read.IsNull(column) ? null : read.Text(column);
        bool Has(string table) => SqliteRaw.Scalar(Connection, $"SELECT 1 FROM sqlite_master WHERE name = {GeoPackageNames.Literal(table)}") is not null;
    }

    /// <summary>Closes the file and lets go of it.</summary>
    public void Dispose() => Connection.Dispose();
}
