using System.Globalization;
using System.IO;
using Aslaid.Exchange;
using Microsoft.Data.Sqlite;
using static Aslaid.Tests.GeoPackageSample;

namespace Aslaid.Tests;

public sealed class GeoPackageFileTests : IDisposable
{
    private readonly TemporaryFile _at = new(".gpkg");

    public void Dispose() => _at.Dispose();

    private static void Sql(GeoPackageFile file, string sql)
    {
        using var command = file.Connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    private static List<(long, CurveVertex[])> SomePoints(int count) =>
        [.. Enumerable.Range(1, count).Select(i => ((long)i, (CurveVertex[])[Vertex(i, 2 * i)]))];

    private static string? IndexCheck(GeoPackageFile file) => Scalar(file, "SELECT rtreecheck('rtree_points_geom')");

    private static List<long> Found(GeoPackageFile file, double east, double north)
    {
        using var read = new BulkRead(file.Connection, "SELECT id FROM rtree_points_geom WHERE minx <= ?1 + 0.5 AND maxx >= ?1 - 0.5 AND miny <= ?2 + 0.5 AND maxy >= ?2 - 0.5 ORDER BY id");
        read.Bind(1, 512_000 + east);
        read.Bind(2, 6_243_000 + north);
        List<long> ids = [];
        while (read.Next()) ids.Add(read.Whole(0));
        return ids;
    }

    [Fact]
    public void Create_WithEveryKindOfTable_IsMarkedAndConsistent()
    {
        using var file = Create(_at.Name, Points, Runs, Areas, Linear, Entries);
        Assert.Equal("1196444487", Scalar(file, "PRAGMA application_id")); // OGC 12-128r17, requirement 2: "GPKG"
        Assert.Equal("10300", Scalar(file, "PRAGMA user_version"));
        Assert.Equal("ok", Scalar(file, "PRAGMA integrity_check"));
        Assert.Null(Scalar(file, "PRAGMA foreign_key_check"));
        Assert.Equal("delete", Scalar(file, "PRAGMA journal_mode"));
        Assert.Equal("3", Scalar(file, "PRAGMA synchronous")); // EXTRA
        Assert.Equal("4", Scalar(file, "SELECT count(*) FROM gpkg_geometry_columns g JOIN pragma_table_info(g.table_name) t ON t.name = g.column_name AND t.type = g.geometry_type_name"));
    }

    [Fact]
    public void Contents_AfterReopening_ListsEveryTable()
    {
        using (Create(_at.Name, Points, Runs, Entries)) { }
        using var file = GeoPackageFile.Open(_at.Name, readOnly: true);
        Assert.Equal(
        [
            new("journal", "attributes", "Journal", "2031-05-04T12:00:00.000Z", null, null, null, false),
            new("points", "features", "Points", "2031-05-04T12:00:00.000Z", "geom", "POINT", 100001, true),
            new("runs", "features", "Runs", "2031-05-04T12:00:00.000Z", "geom", "COMPOUNDCURVE", 100001, true),
        ], file.Contents());
    }

    [Fact]
    public void Fill_AgainInTheSameTransaction_HoldsTheSecondOnly()
    {
        using var file = Create(_at.Name, Points);
        using (var transaction = file.Begin())
        {
            Fill(file, Points, SomePoints(500));
            Fill(file, Points, SomePoints(60));
            transaction.Commit();
        }
        Assert.Equal("60", Scalar(file, "SELECT count(*) FROM points"));
        Assert.Equal("60", Scalar(file, "SELECT count(*) FROM rtree_points_geom"));
        Assert.Equal("ok", IndexCheck(file));
        Assert.Equal("512001.0 512060.0 6243002.0 6243120.0", Scalar(file, "SELECT min_x || ' ' || max_x || ' ' || min_y || ' ' || max_y FROM gpkg_contents"));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void Fill_WithFewRows_ReadsBack(int count)
    {
        using var file = Create(_at.Name, Points);
        using (var transaction = file.Begin())
        {
            Fill(file, Points, SomePoints(count));
            transaction.Commit();
        }
        Assert.Equal("ok", IndexCheck(file));
        Assert.Equal(count, Found(file, 1, 2).Count);
        Assert.Equal(count == 0, Scalar(file, "SELECT min_x FROM gpkg_contents") is null);
    }

    [Fact]
    public void OrdinarySql_AfterAFill_KeepsTheIndex()
    {
        using var file = Create(_at.Name, Points);
        using (var transaction = file.Begin())
        {
            Fill(file, Points, SomePoints(200));
            transaction.Commit();
        }
        Sql(file, "UPDATE points SET geom = (SELECT geom FROM points WHERE id = 50) WHERE id = 10");
        Assert.Equal([10, 50], Found(file, 50, 100));
        Assert.Empty(Found(file, 10, 20));

        Sql(file, "DELETE FROM points WHERE id = 50");
        Assert.Equal([10], Found(file, 50, 100));

        Sql(file, "UPDATE points SET id = 1000 WHERE id = 10");
        Assert.Equal([1000], Found(file, 50, 100));

        Sql(file, "INSERT INTO points(id, geom, code) SELECT 1001, geom, code FROM points WHERE id = 1000");
        Assert.Equal([1000, 1001], Found(file, 50, 100));

        Sql(file, "INSERT OR REPLACE INTO points(id, geom, code) SELECT 1001, geom, 'WM2' FROM points WHERE id = 60");
        Assert.Equal([1000], Found(file, 50, 100));
        Assert.Equal([60, 1001], Found(file, 60, 120));
        Sql(file, "UPDATE points SET geom = (SELECT geom FROM points WHERE id = 1000) WHERE id = 1001");

        Sql(file, "UPDATE points SET geom = NULL WHERE id = 1000");
        Assert.Equal([1001], Found(file, 50, 100));

        Sql(file, "UPDATE points SET id = 1000 + id, geom = NULL WHERE id = 1001");
        Assert.Empty(Found(file, 50, 100));
        Assert.Equal("ok", IndexCheck(file));

        Assert.Throws<SqliteException>(() => Sql(file, "UPDATE points SET geom = x'00' WHERE id = 1"));
        Assert.Equal([1], Found(file, 1, 2));
    }

    [Fact]
    public void Begin_NotCommitted_LeavesTableIndexAndTriggersAsTheyWere()
    {
        using var file = Create(_at.Name, Points);
        using (var transaction = file.Begin())
        {
            Fill(file, Points, SomePoints(20));
            transaction.Commit();
        }
        var before = Scalar(file, "SELECT group_concat(name) FROM sqlite_master");
        using (file.Begin())
        {
            using var fill = file.Fill(Points);
            fill.Start(1, [Vertex(0, 0)]);
            fill.Rows.Row();
        }
        Assert.Equal(before, Scalar(file, "SELECT group_concat(name) FROM sqlite_master"));
        Assert.Equal("20", Scalar(file, "SELECT count(*) FROM points"));
        Assert.Equal("ok", IndexCheck(file));
    }

    [Fact]
    public void Begin_WhileAnotherWrites_IsBusy()
    {
        using var mine = Create(_at.Name, Entries);
        using var other = GeoPackageFile.Open(_at.Name);
        Sql(mine, "PRAGMA busy_timeout=0");
        using var theirs = other.Begin();
        Assert.Equal(5, Assert.Throws<SqliteException>(() => mine.Begin()).SqliteErrorCode);
    }

    [Fact]
    public void Commit_WhileAnotherReads_CanBeRepeated()
    {
        using var mine = Create(_at.Name, Entries);
        Sql(mine, "INSERT INTO journal(kind) VALUES('taken in')");
        using var other = GeoPackageFile.Open(_at.Name, readOnly: true);
        Sql(mine, "PRAGMA busy_timeout=0");
        using var transaction = mine.Begin();
        using (var reader = new BulkRead(other.Connection, "SELECT kind FROM journal"))
        {
            Assert.True(reader.Next());
            Sql(mine, "INSERT INTO journal(kind) VALUES('recoded')");
            Assert.Equal(5, Assert.Throws<SqliteException>(transaction.Commit).SqliteErrorCode);
        }
        transaction.Commit();
        Assert.Equal("2", Scalar(other, "SELECT count(*) FROM journal"));
    }

    [Fact]
    public void Open_FileLeftInWal_BringsItBack()
    {
        using (var file = Create(_at.Name, Entries)) Sql(file, "PRAGMA journal_mode=WAL");
        using (var file = GeoPackageFile.Open(_at.Name)) Assert.Equal("delete", Scalar(file, "PRAGMA journal_mode"));
        Assert.False(File.Exists(_at.Name + "-wal"));
    }

    [Fact]
    public void Open_FileHeldInWal_SaysSo()
    {
        using var holder = Create(_at.Name, Entries);
        Sql(holder, "PRAGMA journal_mode=WAL");
        using var reader = new BulkRead(holder.Connection, "SELECT 1 FROM gpkg_contents");
        Assert.True(reader.Next());
        Assert.Contains(_at.Name, Assert.Throws<IOException>(() => GeoPackageFile.Open(_at.Name)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Open_WhatIsNoGeoPackage_SaysSo()
    {
        Assert.Throws<FileNotFoundException>(() => GeoPackageFile.Open(_at.Name));
        File.WriteAllText(_at.Name, new string('x', 5000));
        Assert.Throws<InvalidDataException>(() => GeoPackageFile.Open(_at.Name));
        Assert.Throws<InvalidDataException>(() => GeoPackageFile.Open(_at.Name, readOnly: true));
        File.Delete(_at.Name);
        using (var plain = new SqliteConnection($"Data Source={_at.Name};Pooling=False"))
        {
            plain.Open();
            using var command = plain.CreateCommand();
            command.CommandText = "CREATE TABLE t(a)";
            command.ExecuteNonQuery();
        }
        Assert.Contains("gpkg_contents", Assert.Throws<InvalidDataException>(() => GeoPackageFile.Open(_at.Name)).Message, StringComparison.Ordinal);
        Assert.Throws<IOException>(() => GeoPackageFile.Create(_at.Name));
    }

    [Theory]
    [InlineData("Points")]
    [InlineData("1points")]
    [InlineData("points; DROP TABLE gpkg_contents")]
    [InlineData("")]
    public void Add_TableNameOthersMustQuote_IsRefused(string name)
    {
        using var file = Create(_at.Name);
        Assert.Throws<ArgumentException>(() => file.Add(Points with { Name = name }, Noon));
    }

    [Fact]
    public void Fill_UnderADecimalComma_WritesTheSame()
    {
        var culture = CultureInfo.CurrentCulture;
        CultureInfo.CurrentCulture = new CultureInfo("de-DE");
        try
        {
            Assert.Equal("1,5", 1.5.ToString(CultureInfo.CurrentCulture));
            using var file = Create(_at.Name, Points);
            Fill(file, Points, [(1, [Vertex(0.25, 0.5)])]);
            Assert.Equal("512000.25 6243000.5 2031-05-04T12:00:00.000Z", Scalar(file, "SELECT min_x || ' ' || min_y || ' ' || last_change FROM gpkg_contents"));
            Assert.Equal("512000.25", Scalar(file, "SELECT ST_MinX(geom) FROM points"));
        }
        finally
        {
            CultureInfo.CurrentCulture = culture;
        }
    }
}
