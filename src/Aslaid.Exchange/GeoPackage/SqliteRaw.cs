using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace Aslaid.Exchange;

/// <summary>The few raw calls under <see cref="BulkInsert"/> and <see cref="BulkRead"/>, with errors that say what was attempted.</summary>
internal static class SqliteRaw
{
    /// <summary>No connection of this program is used by two threads at once: SQLite need not lock at every call, which costs a tenth of
    /// a bulk write. Only heard before SQLite is first used in the process; later it stays as it is, which is slower and as safe.</summary>
    public static void OneThreadAConnection()
    {
        Batteries_V2.Init();
        _ = raw.sqlite3_config(raw.SQLITE_CONFIG_MULTITHREAD);
    }

    public static sqlite3 HandleOf(SqliteConnection connection)
    {
        ArgumentNullException.ThrowIfNull(connection);
        return connection.Handle ?? throw new ArgumentException("The connection is not open.", nameof(connection));
    }

    public static sqlite3_stmt Prepare(sqlite3 handle, string sql)
    {
        var code = raw.sqlite3_prepare_v2(handle, sql, out var statement);
        return code == raw.SQLITE_OK ? statement : throw Fault(handle, code, $"preparing \"{sql}\"");
    }

    public static void Execute(SqliteConnection connection, string sql)
    {
        var handle = HandleOf(connection);
        var code = raw.sqlite3_exec(handle, sql, out _);
        if (code != raw.SQLITE_OK) throw Fault(handle, code, $"executing \"{sql}\"");
    }

    /// <summary>The first column of the first row; null without a row or for NULL.</summary>
    public static string? Scalar(SqliteConnection connection, string sql)
    {
        using var read = new BulkRead(connection, sql);
        return read.Next() && !read.IsNull(0) ? read.Text(0) : null;
    }

    public static SqliteException Fault(sqlite3 handle, int code, string step) =>
        new($"SQLite error {code} while {step}: {raw.sqlite3_errmsg(handle).utf8_to_string()}.", code & 0xFF, raw.sqlite3_extended_errcode(handle));
}
