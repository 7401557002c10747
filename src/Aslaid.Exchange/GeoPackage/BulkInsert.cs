using System.Globalization;
using System.Text;
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
    public void Whole(int column, long value) => Check(SqliteDirect.Bind(_address, column + 1, value));

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
        Check(SqliteDirect.Bind(_address, column + 1, value));
    }

    /// <summary>Sets a finite number or null.</summary>
    /// <inheritdoc cref="Real(int, double)" path="/exception"/>
    public void Real(int column, double? value)
    {
        if (value is { } known) Real(column, known);
    }

    /// <summary>Sets text given as UTF-8; empty is empty text, not null.</summary>
    public void Text(int column, ReadOnlySpan<byte> utf8) => Check(SqliteDirect.BindText(_address, column + 1, utf8));

    /// <summary>Sets text or null.</summary>
    public void Text(int column, string? value)
    {
        if (value is null) return;
        if (value.Length > 256)
        {
            Text(column, Encoding.UTF8.GetBytes(value));
            return;
        }

        Span<byte> utf8 = stackalloc byte[3 * 256];
        Text(column, utf8[..Encoding.UTF8.GetBytes(value, utf8)]);
    }

    /// <summary>Sets bytes, which are copied; empty is an empty blob, not null.</summary>
    public void Blob(int column, ReadOnlySpan<byte> bytes) => Check(SqliteDirect.BindBlob(_address, column + 1, bytes));

    /// <summary>Inserts the row and makes ready for the next.</summary>
    /// <exception cref="SqliteException">A constraint refused the row, or the file could not be written.</exception>
    public void Row()
    {
        var code = SqliteDirect.Step(_address);
        var fault = code == raw.SQLITE_DONE ? null : SqliteRaw.Fault(_handle, code, $"inserting into {_what}");
        _ = SqliteDirect.Reset(_address); // repeats the step's code
        _ = SqliteDirect.ClearBindings(_address); // always succeeds
        if (fault is not null) throw fault;
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
