using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace Aslaid.Exchange;

/// <summary>A write transaction; given up with all its changes unless committed.</summary>
public sealed class GeoPackageTransaction : IDisposable
{
    private readonly SqliteConnection _connection;
    private bool _open = true;

    internal GeoPackageTransaction(SqliteConnection connection)
    {
        _connection = connection;
        SqliteRaw.Execute(connection, "BEGIN IMMEDIATE"); // takes the write lock now, not at the first change
    }

    /// <summary>Keeps the changes. Returns when they are on the disk.</summary>
    /// <exception cref="SqliteException">Another program still reads after the waiting time (code 5), or the disk failed. The
    /// transaction is still open, and may be committed again or given up.</exception>
    public void Commit()
    {
        SqliteRaw.Execute(_connection, "COMMIT");
        _open = false;
    }

    /// <summary>Gives up what was not committed.</summary>
    public void Dispose()
    {
        if (!_open) return;
        _open = false;
        if (raw.sqlite3_get_autocommit(SqliteRaw.HandleOf(_connection)) == 0) // SQLite itself ends it after some failures, as a full disk
            SqliteRaw.Execute(_connection, "ROLLBACK");
    }
}
