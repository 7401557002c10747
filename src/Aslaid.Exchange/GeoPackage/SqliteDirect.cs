using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace Aslaid.Exchange;

/// <summary>Cells in and out of a statement, and its steps, without counting references on its handle each time, which cost a
/// third of the time of reading a million rows. The library is the one that Microsoft.Data.Sqlite brings.</summary>
/// <remarks>Setting and reading cells never waits or touches the disk (the row is in memory once stepped to), so they need not let
/// the collector in; a step may. The caller keeps the statement alive; a null address reads as null and sets nothing. Text and
/// bytes are copied by SQLite.</remarks>
internal static class SqliteDirect
{
    private const string Library = "e_sqlite3";
    private const nint Copy = -1; // SQLITE_TRANSIENT

    [DllImport(Library, EntryPoint = "sqlite3_column_type"), SuppressGCTransition]
    public static extern int TypeOf(nint statement, int column);

    [DllImport(Library, EntryPoint = "sqlite3_column_int64"), SuppressGCTransition]
    public static extern long Whole(nint statement, int column);

    [DllImport(Library, EntryPoint = "sqlite3_column_double"), SuppressGCTransition]
    public static extern double Real(nint statement, int column);

    /// <summary>Text in UTF-8 or bytes; valid until the next step.</summary>
    public static ReadOnlySpan<byte> Bytes(nint statement, int column)
    {
        var address = ColumnBlob(statement, column);
        if (address == 0) return default;
        return MemoryMarshal.CreateReadOnlySpan(ref Unsafe.AddByteOffset(ref Unsafe.NullRef<byte>(), address), ColumnBytes(statement, column));
    }

    [DllImport(Library, EntryPoint = "sqlite3_bind_int64"), SuppressGCTransition]
    public static extern int Bind(nint statement, int parameter, long value);

    [DllImport(Library, EntryPoint = "sqlite3_bind_double"), SuppressGCTransition]
    public static extern int Bind(nint statement, int parameter, double value);

    /// <summary>Sets text; empty is empty text, not null.</summary>
    public static int BindText(nint statement, int parameter, ReadOnlySpan<byte> utf8) => utf8.IsEmpty
        ? BindText(statement, parameter, "\0"u8[0], 0, Copy)
        : BindText(statement, parameter, in MemoryMarshal.GetReference(utf8), utf8.Length, Copy);

    /// <summary>Sets bytes; empty is an empty blob, not null.</summary>
    public static int BindBlob(nint statement, int parameter, ReadOnlySpan<byte> bytes) => bytes.IsEmpty
        ? BindBlob(statement, parameter, "\0"u8[0], 0, Copy)
        : BindBlob(statement, parameter, in MemoryMarshal.GetReference(bytes), bytes.Length, Copy);

    [DllImport(Library, EntryPoint = "sqlite3_step")]
    public static extern int Step(nint statement);

    [DllImport(Library, EntryPoint = "sqlite3_reset")]
    public static extern int Reset(nint statement);

    [DllImport(Library, EntryPoint = "sqlite3_clear_bindings"), SuppressGCTransition]
    public static extern int ClearBindings(nint statement);

    [DllImport(Library, EntryPoint = "sqlite3_column_blob"), SuppressGCTransition]
    private static extern nint ColumnBlob(nint statement, int column);

    [DllImport(Library, EntryPoint = "sqlite3_column_bytes"), SuppressGCTransition]
    private static extern int ColumnBytes(nint statement, int column);

    [DllImport(Library, EntryPoint = "sqlite3_bind_text"), SuppressGCTransition]
    private static extern int BindText(nint statement, int parameter, in byte first, int length, nint release);

    [DllImport(Library, EntryPoint = "sqlite3_bind_blob"), SuppressGCTransition]
    private static extern int BindBlob(nint statement, int parameter, in byte first, int length, nint release);
}
