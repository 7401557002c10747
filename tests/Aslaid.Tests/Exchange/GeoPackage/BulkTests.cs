using System.Text;
using Aslaid.Exchange;
using Microsoft.Data.Sqlite;

namespace Aslaid.Tests;

public sealed class BulkTests : IDisposable
{
    private readonly SqliteConnection _connection = new("Data Source=:memory:");

    public BulkTests()
    {
        _connection.Open();
        using var command = _connection.CreateCommand();
        command.CommandText = "CREATE TABLE t(whole INTEGER, real DOUBLE, text TEXT, bytes BLOB, must TEXT NOT NULL DEFAULT '')";
        command.ExecuteNonQuery();
    }

    public void Dispose() => _connection.Dispose();

    private BulkInsert Insert() => new(_connection, "t", "whole", "real", "text", "bytes");

    [Fact]
    public void Read_WhatInsertWrote_GivesItBack() => Gen.Select(Gen.Long.Nullable(), Gen.Double.Nullable(), Gen.String.Null(), Gen.Byte.Array[0, 50]).Array[1, 20].Sample(rows =>
    {
        using var connection = new SqliteConnection("Data Source=:memory:");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "CREATE TABLE t(whole INTEGER, real DOUBLE, text TEXT, bytes BLOB)";
        command.ExecuteNonQuery();
        using var insert = new BulkInsert(connection, "t", "whole", "real", "text", "bytes");
        foreach (var (whole, real, text, bytes) in rows)
        {
            insert.Whole(0, whole);
            insert.Real(1, real is { } r && !double.IsFinite(r) ? null : real);
            if (text is { Length: > 3 }) insert.Text(2, Encoding.UTF8.GetBytes(text));
            else insert.Text(2, text);
            insert.Blob(3, bytes);
            insert.Row();
        }
        using var read = new BulkRead(connection, "SELECT whole, real, text, bytes FROM t ORDER BY rowid");
        foreach (var (whole, real, text, bytes) in rows)
        {
            if (!read.Next()) return false;
            var utf8 = text is null ? null : Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(text)); // half a surrogate pair has no UTF-8
            if (read.WholeOrNull(0) != whole || read.IsNull(3) || !read.Bytes(3).SequenceEqual(bytes)) return false;
            if (read.RealOrNull(1) != (real is { } r && !double.IsFinite(r) ? null : real)) return false;
            if (read.IsNull(2) ? utf8 is not null : read.Text(2) != utf8) return false;
        }
        return !read.Next();
    });

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Real_NotFinite_IsRefused(double value)
    {
        using var insert = Insert();
        Assert.Contains("t", Assert.Throws<ArgumentException>(() => insert.Real(1, value)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Row_AfterARefusedRow_InsertsTheNext()
    {
        using var insert = new BulkInsert(_connection, "t", "must", "whole");
        insert.Whole(1, 1);
        Assert.Contains("t.must", Assert.Throws<SqliteException>(insert.Row).Message, StringComparison.Ordinal);
        insert.Text(0, "kept");
        insert.Row();
        using var read = new BulkRead(_connection, "SELECT must, whole FROM t");
        Assert.True(read.Next());
        Assert.Equal("kept", read.Text(0));
        Assert.Null(read.WholeOrNull(1)); // a refused row leaves nothing behind
        Assert.False(read.Next());
    }

    [Fact]
    public void Insert_UnknownColumn_NamesIt() =>
        Assert.Contains("depth", Assert.Throws<SqliteException>(() => new BulkInsert(_connection, "t", "depth")).Message, StringComparison.Ordinal);

    [Fact]
    public void Whole_OutsideTheColumns_IsRefused()
    {
        using var insert = Insert();
        Assert.Throws<SqliteException>(() => insert.Whole(4, 1));
    }

    [Fact]
    public void Whole_AfterDispose_IsRefusedAndReadsNothing()
    {
        var insert = Insert();
        insert.Dispose();
        Assert.Throws<SqliteException>(() => insert.Whole(0, 1));
        var read = new BulkRead(_connection, "SELECT 7");
        Assert.True(read.Next());
        read.Dispose();
        Assert.Equal(0, read.Whole(0));
    }

    [Fact]
    public void Bind_Again_StartsAfresh()
    {
        using var read = new BulkRead(_connection, "SELECT ?1 UNION ALL SELECT ?1 + 1");
        read.Bind(1, 10L);
        Assert.True(read.Next());
        read.Bind(1, 20L);
        Assert.True(read.Next());
        Assert.Equal(20, read.Whole(0));
        Assert.True(read.Next());
        Assert.Equal(21, read.Whole(0));
        Assert.False(read.Next());
    }
}
