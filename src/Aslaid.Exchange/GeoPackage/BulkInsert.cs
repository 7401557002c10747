using System.Globalization;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace Aslaid.Exchange;

/// <summary>Puts many rows through one prepared statement, without a parameter object or boxed value per cell.</summary>
/// <remarks>Columns count from 0 in the order given. A column not set before <see cref="Row"/> is null. Runs in whatever
/// transaction the connection is in; without one every row is a commit of its own. Not safe for use from two threads.</remarks>
public sealed class BulkInsert : IDisposable
{
    private readonly sqlite3 _handle;
    private readonly sqlite3_stmt _statement;
    private readonly string _what;
    private nint _address;

    /// <summary>Prepares <c>INSERT INTO table(columns) VALUES(...)</c>.</summary>
    /// <exception cref="SqliteException">No such table or column.</exception>
    public BulkInsert(SqliteConnection connection, string table, params ReadOnlySpan<string> columns)
    {
        _handle = SqliteRaw.HandleOf(connection);
        _what = table;
        var names = string.Join(',', columns.ToArray().Select(GeoPackageNames.Quote));
        var marks = string.Join(',', Enumerable.Repeat('?', columns.Length));
        _statement = SqliteRaw.Prepare(_handle, $"INSERT INTO {GeoPackageNames.Quote(table)}({names}) VALUES({marks})");
        _address = _statement.DangerousGetHandle();
    }

    /// <summary>Sets a whole number.</summary>
    public void Whole(int column, long value) => Check(SqliteNumbers.Bind(_address, column + 1, value));

    /// <summary>Sets a whole number or null.</summary>
    public void Whole(int column, long? value)
    {
        if (value is { } known) Whole(column, known);
    }

    /// <summary>Sets a finite number.</summary>
    /// <exception cref="ArgumentException">NaN or infinite: SQLite would keep NaN as null without a word. Missing is null.</exception>
    public void Real(int column, double value)
    {
        if (!double.IsFinite(value))
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"Column {column} of {_what} was given {value}; a file holds finite numbers, or null for what is missing."), nameof(value));
        Check(SqliteNumbers.Bind(_address, column + 1, value));
    }

    /// <summary>Sets a finite number or null.</summary>
    /// <inheritdoc cref="Real(int, double)" path="/exception"/>
    public void Real(int column, double? value)
    {
        if (value is { } known) Real(column, known);
    }

    /// <summary>Sets text given as UTF-8; empty is empty text, not null.</summary>
    public void Text(int column, ReadOnlySpan<byte> utf8)
    {
        if (utf8.IsEmpty) Check(raw.sqlite3_bind_text(_statement, column + 1, "")); // an empty span has no address, which SQLite takes for null
        else Check(raw.sqlite3_bind_text(_statement, column + 1, utf8));
    }

    /// <summary>Sets text or null.</summary>
    public void Text(int column, string? value)
    {
        if (value is not null) Check(raw.sqlite3_bind_text(_statement, column + 1, value));
    }

    /// <summary>Sets bytes, which are copied; empty is an empty blob, not null.</summary>
    public void Blob(int column, ReadOnlySpan<byte> bytes) =>
        Check(bytes.IsEmpty ? raw.sqlite3_bind_zeroblob(_statement, column + 1, 0) : raw.sqlite3_bind_blob(_statement, column + 1, bytes));

    /// <summary>Inserts the row and makes ready for the next.</summary>
    /// <exception cref="SqliteException">A constraint refused the row, or the file could not be written.</exception>
    public void Row()
    {
        var code = raw.sqlite3_step(_statement);
        if (code != raw.SQLITE_DONE)
        {
            var fault = SqliteRaw.Fault(_handle, code, $"inserting into {_what}");
            raw.sqlite3_reset(_statement);
            raw.sqlite3_clear_bindings(_statement);
            throw fault;
        }
        raw.sqlite3_reset(_statement);
        raw.sqlite3_clear_bindings(_statement);
    }

    /// <summary>Gives the statement back.</summary>
    public void Dispose()
    {
        _address = 0; // SQLite answers with a misuse code for it
        _statement.Dispose();
    }

    private void Check(int code)
    {
        if (code != raw.SQLITE_OK) throw SqliteRaw.Fault(_handle, code, $"setting a column of {_what}");
    }
}
