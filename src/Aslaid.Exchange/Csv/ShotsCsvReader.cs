using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>
/// Reads this program's own form of shots: CSV in UTF-8 with a header line, columns in any order, separated by commas, semicolons
/// or tabs, with decimal points or (not beside separating commas) decimal commas. Lengths in metres, times by ISO 8601.
/// </summary>
/// <remarks>
/// A row of a known id without coordinates uses that shot again. A row that an earlier batch of the crew already holds (same id,
/// position, time, code, run and leg) is passed over and counted in a remark: instruments export their whole job each day.
/// </remarks>
public sealed class ShotsCsvReader : IShotReader
{
    /// <summary>Rows of a file at most.</summary>
    public const int MostRows = 10_000_000;

    private const int RowsToReport = 1 << 16;

    /// <inheritdoc/>
    public string Name => "Shots CSV";

    /// <inheritdoc/>
    public bool Recognises(ReadOnlySpan<byte> file, string fileName)
    {
        var header = CsvTable.HeaderLine(file[..Math.Min(file.Length, 64 * 1024)]);
        if (CsvTable.SeparatorOf(header, ShotColumn.Needed) is not { } separator) return false;
        var names = System.Text.Encoding.UTF8.GetString(header).Split(separator).Select(name => name.Trim(' ', '\t', '"'));
        return !ShotColumn.Needed.Except(names, StringComparer.OrdinalIgnoreCase).Any();
    }

    /// <inheritdoc/>
    public ShotIntake Read(ReadOnlyMemory<byte> file, IntakeOptions options, ShotTable before, IProgress<long>? progress = null)
    {
        ArgumentNullException.ThrowIfNull(options);
        ArgumentNullException.ThrowIfNull(before);
        var rejected = new Rejections();
        var (shots, remarks) = Read(file, options, before, progress, rejected);
        return new(rejected.Count == 0 ? shots : null, rejected.First, rejected.Count, remarks);
    }

    private static (ShotTable? Shots, ImmutableArray<string> Remarks) Read(
        ReadOnlyMemory<byte> file, IntakeOptions options, ShotTable before, IProgress<long>? progress, Rejections rejected)
    {
        using var table = CsvTable.Open(file, ShotColumn.Needed, rejected);
        if (table is null) return (null, []);
        var lines = Math.Max(file.Span.Count((byte)'\n'), file.Span.Count((byte)'\r'));
        if (lines > MostRows + 1)
        {
            rejected.Add(0, null, (string?)null, string.Create(CultureInfo.InvariantCulture,
                $"the file has {lines} lines; {MostRows} rows at most were expected: take it in in parts"));
            return (null, []);
        }

        var columns = ShotColumn.Of(table.Columns);
        var most = Math.Min(lines, file.Length / columns.Length) + 1; // a row has a byte for each cell at least: bounds the memory
        var builder = new ShotTableBuilder(before);
        builder.Reserve(before.Count + most);
        var rows = new ShotRows(table, columns, builder, before, most, options, rejected);
        var count = 0;
        for (; table.Read(); count++)
        {
            rows.Take();
            if (count % RowsToReport == 0) progress?.Report(table.BytesRead);
        }

        progress?.Report(file.Length);
        if (rejected.Count > 0) return (null, []);
        if (count == 0) rejected.Add(0, null, (string?)null, "the file has a header but no rows; a shot a line was expected below it");
        if (rejected.Count > 0) return (null, []);
        if (rows.AlreadyTaken == count) return (null, [string.Create(CultureInfo.InvariantCulture, $"Every row ({count}) was taken in already: there is nothing new in it.")]);

        rows.Finish();
        builder.EndBatch(options.FileName, Convert.ToHexStringLower(SHA256.HashData(file.Span)), before.Count, options.Crew, options.Declared);
        return (builder.Build(), Remarks(table, columns, rows.AlreadyTaken));
    }

    private static ImmutableArray<string> Remarks(CsvTable table, ImmutableArray<ShotColumn> columns, int alreadyTaken)
    {
        var remarks = ImmutableArray.CreateBuilder<string>();
        if (alreadyTaken > 0)
            remarks.Add(string.Create(CultureInfo.InvariantCulture,
                $"{alreadyTaken} rows are in an earlier batch already, with the same id, position, time, code, run and leg; they were passed over."));
        if (table.Numbers.Comma) remarks.Add("Numbers were read with a decimal comma.");
        var attributes = columns.Where(column => column.IsAttribute).Select(column => column.Name).ToList();
        if (attributes.Count > 0) remarks.Add($"Columns kept as attributes: {string.Join(", ", attributes)}.");
        return remarks.ToImmutable();
    }
}
