using System.Text;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace Aslaid.Exchange;

/// <summary>Steps through the rows of a query without an object per row or cell.</summary>
/// <remarks>Columns count from 0. Spans are valid until the next row. Not safe for use from two threads.</remarks>
public sealed class BulkRead : IDisposable
{
    private readonly sqlite3 _handle;
    private readonly sqlite3_stmt _statement;
    private nint _address;
    private readonly string _sql;

    /// <summary>Prepares <paramref name="sql"/>.</summary>
    /// <param name="sql">One statement; parameters are written <c>?1</c>, <c>?2</c> ...</param>
    /// <exception cref="SqliteException">The statement is not understood, or names what is not there.</exception>
    public BulkRead(SqliteConnection connection, string sql)
    {
        _handle = SqliteRaw.HandleOf(connection);
        _sql = sql;
        _statement = SqliteRaw.Prepare(_handle, sql);
        _address = _statement.DangerousGetHandle();
    }

    /// <summary>How many columns a row has.</summary>
    public int Columns => raw.sqlite3_column_count(_statement);

    /// <summary>Sets parameter <paramref name="number"/> (from 1) and starts the query afresh.</summary>
    public void Bind(int number, long value)
    {
        raw.sqlite3_reset(_statement);
        Check(raw.sqlite3_bind_int64(_statement, number, value));
    }

    /// <inheritdoc cref="Bind(int, long)"/>
    public void Bind(int number, double value)
    {
        raw.sqlite3_reset(_statement);
        Check(raw.sqlite3_bind_double(_statement, number, value));
    }

    /// <inheritdoc cref="Bind(int, long)"/>
    public void Bind(int number, string value)
    {
        raw.sqlite3_reset(_statement);
        Check(raw.sqlite3_bind_text(_statement, number, value));
    }

    /// <summary>Goes to the next row; false after the last.</summary>
    /// <exception cref="SqliteException">The file could not be read.</exception>
    public bool Next() => SqliteDirect.Step(_address) switch
    {
        raw.SQLITE_ROW => true,
        raw.SQLITE_DONE => false,
        var code => throw SqliteRaw.Fault(_handle, code, $"reading \"{_sql}\""),
    };

    /// <summary>True when the cell holds null.</summary>
    public bool IsNull(int column) => SqliteDirect.TypeOf(_address, column) == raw.SQLITE_NULL;

    /// <summary>The cell as a whole number; 0 when null.</summary>
    public long Whole(int column) => SqliteDirect.Whole(_address, column);

    /// <summary>The cell as a whole number, or null.</summary>
    public long? WholeOrNull(int column) => IsNull(column) ? null : Whole(column);

    /// <summary>The cell as a number; 0 when null.</summary>
    public double Real(int column) => SqliteDirect.Real(_address, column);

    /// <summary>The cell as a number, or null.</summary>
    public double? RealOrNull(int column) => IsNull(column) ? null : Real(column);

    /// <summary>The cell's text in UTF-8, or its bytes; empty when null.</summary>
    public ReadOnlySpan<byte> Bytes(int column) => SqliteDirect.Bytes(_address, column);

    /// <summary>The cell's text; empty when null. A number is given as SQLite prints it.</summary>
    public string Text(int column) => Encoding.UTF8.GetString(Bytes(column));

    /// <summary>Gives the statement back.</summary>
    public void Dispose()
    {
        _address = 0; // SQLite answers null for it
        _statement.Dispose();
    }

    private void Check(int code)
    {
        if (code != raw.SQLITE_OK) throw SqliteRaw.Fault(_handle, code, $"setting a parameter of \"{_sql}\"");
    }
}
