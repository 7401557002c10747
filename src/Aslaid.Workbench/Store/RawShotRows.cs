using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using Aslaid.Exchange;
using Aslaid.Record;
using Microsoft.Data.Sqlite;

namespace Aslaid.Workbench;

/// <summary>Raw shots as rows of the project file. Row id is the row of the shot table plus one.</summary>
internal static class RawShotRows
{
    private static readonly ImmutableArray<string> Fixed =
        ["id", "batch", "line", "shot", "east", "north", "height", "code", "run", "leg", "again", "time_ticks", "zone_minutes", "u_plan", "u_height"];

    /// <summary>Optional columns that a batch fills, by name; <c>more</c> for attributes that have no column of their own.</summary>
    public static ImmutableArray<string> ColumnsOf(ShotTable shots, Batch batch)
    {
        var used = new SortedSet<string>(StringComparer.Ordinal);
        foreach (var (name, column) in shots.NumberColumns)
            if (column.AsSpan(batch.FirstRow, batch.Count).ContainsAnyExcept(double.NaN)) used.Add(ProjectTables.NumberColumns.Contains(name) ? name : "more");
        foreach (var (name, column) in shots.TextColumns)
            if (column.AsSpan(batch.FirstRow, batch.Count).ContainsAnyExcept(Words.None)) used.Add(ProjectTables.TextColumns.Contains(name) ? name : "more");
        return [.. used];
    }

    /// <summary>Inserts the rows of a batch.</summary>
    public static void Insert(SqliteConnection connection, ShotTable shots, Batch batch)
    {
        var optional = ColumnsOf(shots, batch);
        using var rows = new BulkInsert(connection, ProjectTables.RawShots.Name, [.. Fixed, .. optional]);
        var (codes, labels, words) = (new Utf8Words(shots.Codes), new Utf8Words(shots.Labels), new Utf8Words(shots.Texts));
        for (var row = batch.FirstRow; row < batch.FirstRow + batch.Count; row++)
        {
            rows.Whole(0, row + 1);
            rows.Whole(1, batch.Number);
            rows.Whole(2, shots.Line[row]);
            rows.Text(3, shots.IdBytes(row));
            Real(4, shots.East[row]);
            Real(5, shots.North[row]);
            Real(6, shots.Height[row]);
            codes.Put(rows, 7, shots.Code[row]);
            labels.Put(rows, 8, shots.Label[row]);
            rows.Whole(9, (int)shots.Leg[row]);
            if (shots.Again[row] >= 0) rows.Whole(10, shots.Again[row] + 1);
            if (shots.Time[row] != long.MinValue) rows.Whole(11, shots.Time[row]);
            if (shots.Zone[row] != short.MinValue) rows.Whole(12, shots.Zone[row]);
            Real(13, shots.UPlan[row]);
            Real(14, shots.UHeight[row]);
            for (var i = 0; i < optional.Length; i++)
            {
                var (name, column) = (optional[i], Fixed.Length + i);
                if (name == "more") rows.Text(column, More(shots, row));
                else if (shots.NumberColumns.TryGetValue(name, out var numbers)) Real(column, numbers[row]);
                else words.Put(rows, column, shots.TextColumns[name][row]);
            }

            rows.Row();
        }

        void Real(int column, double value)
        {
            if (!double.IsNaN(value)) rows.Real(column, value);
        }
    }

    /// <summary>Loads all batches given, which are the first ones of the file.</summary>
    /// <param name="optional">Union of the optional columns that they fill.</param>
    public static ShotTable Load(SqliteConnection connection, IReadOnlyList<BatchTaken> batches, IReadOnlyCollection<string> optional)
    {
        if (batches.Count == 0) return ShotTable.Empty;
        var table = new ShotTableBuilder();
        table.Reserve(batches.Sum(batch => batch.Rows));
        var numbers = optional.Where(ProjectTables.NumberColumns.Contains).ToArray();
        var texts = optional.Where(ProjectTables.TextColumns.Contains).ToArray();
        var more = optional.Contains("more");
        var columns = string.Join(", ", Fixed.Concat(numbers).Concat(texts).Concat(more ? ["more"] : Array.Empty<string>()).Select(name => $"\"{name}\""));
        var columnCount = Fixed.Length + numbers.Length + texts.Length;
        using var rows = new BulkRead(connection, $"SELECT {columns} FROM raw_shots WHERE batch = ?1 ORDER BY id");
        var numberColumns = numbers.Select(table.NumberColumn).ToArray();
        var textColumns = texts.Select(table.TextColumn).ToArray();
        var keepers = new WordKeeper[columnCount];
        for (var i = 0; i < keepers.Length; i++) keepers[i] = new(i == 7 ? table.Codes : i == 8 ? table.Labels : table.Texts);
        foreach (var batch in batches)
        {
            rows.Bind(1, batch.Batch);
            var firstRow = table.Count;
            while (rows.Next())
            {
                if (table.Count >= firstRow + batch.Rows || rows.Whole(0) != table.Count + 1)
                    throw new ProjectException($"Raw shots of batch {batch.Batch} are not as the journal tells: row {rows.Whole(0)} should be row {table.Count + 1} of {firstRow + batch.Rows}. The file was changed outside Aslaid; go back to a copy.");
                if (!rows.IsNull(10) && (rows.Whole(10) < 1 || rows.Whole(10) > table.Count))
                    throw new ProjectException($"Raw shots of batch {batch.Batch} are not as they were taken: row {table.Count + 1} uses row {rows.Whole(10)} again, which does not come before it. The file was changed outside Aslaid; go back to a copy.");
                var row = table.Add(
                    rows.Bytes(3), RealOf(rows, 4), RealOf(rows, 5), RealOf(rows, 6), keepers[7].Keep(rows, 7), keepers[8].Keep(rows, 8),
                    (Leg)rows.Whole(9), (int)rows.Whole(2), rows.IsNull(10) ? -1 : (int)rows.Whole(10) - 1,
                    rows.IsNull(11) ? long.MinValue : rows.Whole(11), rows.IsNull(12) ? short.MinValue : (short)rows.Whole(12),
                    RealOf(rows, 13), RealOf(rows, 14));
                var column = Fixed.Length;
                foreach (var into in numberColumns) into[row] = RealOf(rows, column++);
                foreach (var into in textColumns) into[row] = keepers[column].Keep(rows, column++);
                if (more && !rows.IsNull(column)) TakeMore(table, row, rows.Text(column));
            }

            if (table.Count != firstRow + batch.Rows)
                throw new ProjectException($"Batch {batch.Batch} has {table.Count - firstRow} raw shots; the journal tells of {batch.Rows}. The file was changed outside Aslaid; go back to a copy.");
            table.EndBatch(batch.FileName, batch.FileSha256, firstRow, batch.Crew, batch.Declared);
        }

        return table.Build();
    }

    private static double RealOf(BulkRead rows, int column) => rows.IsNull(column) ? double.NaN : rows.Real(column);

    /// <summary>Keeps the words of one column; most rows repeat the word of the row before.</summary>
    private sealed class WordKeeper(Words words)
    {
        private byte[] last = [];
        private int number = Words.None;
        private char[] chars = new char[256];

        public int Keep(BulkRead rows, int column)
        {
            if (rows.IsNull(column)) return Words.None;
            var bytes = rows.Bytes(column);
            if (number != Words.None && bytes.SequenceEqual(last)) return number;
            if (bytes.Length > chars.Length) chars = new char[bytes.Length];
            last = bytes.ToArray();
            return number = words.Keep(chars.AsSpan(0, Encoding.UTF8.GetChars(bytes, chars)));
        }
    }

    private static string? More(ShotTable shots, int row)
    {
        SortedDictionary<string, string>? more = null;
        foreach (var (name, column) in shots.TextColumns)
        {
            if (ProjectTables.TextColumns.Contains(name) || column[row] == Words.None) continue;
            (more ??= new(StringComparer.Ordinal)).Add(name, shots.Texts[column[row]]!);
        }

        return more is null ? null : JsonSerializer.Serialize(more);
    }

    private static void TakeMore(ShotTableBuilder table, int row, string json)
    {
        foreach (var (name, value) in JsonSerializer.Deserialize<SortedDictionary<string, string>>(json)!)
            table.TextColumn(name)[row] = table.Texts.Keep(value);
    }
}
