using System.Collections.Immutable;
using System.Globalization;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>Takes the rows of a shots CSV into a shot table, one after the other.</summary>
/// <remarks>A rejected row is entered all the same, so that the rows that use it again are not rejected for it; nobody sees the table then.</remarks>
internal sealed class ShotRows
{
    private readonly CsvTable table;
    private readonly ShotColumn[] columns;
    private readonly double[]?[] numbers; // by column; reserved, so that they stay valid
    private readonly int[]?[] texts;
    private readonly WordColumn[] words;
    private readonly ShotTableBuilder builder;
    private readonly ShotTable before;
    private readonly Rejections rejected;
    private readonly ShotIds ids;
    private readonly RunBeginnings runs;
    private readonly int[] codes; // by row of the builder, for rows used again under their own code
    private readonly Words crews = new();
    private readonly int fileCrew;
    private readonly int idColumn;
    private readonly int eastColumn;
    private readonly int northColumn;
    private readonly int codeColumn;
    private readonly int legColumn;
    private bool passedOver; // the last shot was in an earlier batch

    public ShotRows(
        CsvTable table, ImmutableArray<ShotColumn> columns, ShotTableBuilder builder, ShotTable before, int mostRows, IntakeOptions options, Rejections rejected)
    {
        (this.table, this.columns, this.builder, this.before, this.rejected) = (table, [.. columns], builder, before, rejected);
        numbers = [.. columns.Select(c => c.Kind == ShotColumnKind.Number ? builder.NumberColumn(c.Name) : null)];
        texts = [.. columns.Select(c => c.Kind is ShotColumnKind.Text or ShotColumnKind.Crew ? builder.TextColumn(c.Name) : null)];
        words = [.. columns.Select(c => new WordColumn(c.Kind switch { ShotColumnKind.Code => builder.Codes, ShotColumnKind.Run => builder.Labels, _ => builder.Texts }))];
        (idColumn, eastColumn, northColumn) = (table.Find("id"), table.Find("east"), table.Find("north"));
        (codeColumn, legColumn) = (table.Find("code"), table.Find("leg"));
        fileCrew = crews.Keep(options.Crew);
        ids = new(builder, before.Count + mostRows);
        runs = new();
        codes = new int[before.Count + mostRows];
        foreach (var batch in before.Batches)
            if (!options.Withdrawn.Contains(batch.Number)) TakeEarlier(batch);
    }

    /// <summary>How many rows were passed over because an earlier batch holds them.</summary>
    public int AlreadyTaken { get; private set; }

    /// <summary>One row as it is read.</summary>
    private struct Cells()
    {
        public double? East;
        public double? North;
        public double? Height;
        public double? UPlan;
        public double? UHeight;
        public bool HasEast;
        public bool HasNorth;
        public bool HasHeight;
        public int Code = Words.None;
        public bool HasCode;
        public int Label = Words.None;
        public Leg Leg;
        public long Time = long.MinValue;
        public short Zone = short.MinValue;
        public int Crew;
    }

    /// <summary>Takes the current row of the table.</summary>
    public void Take()
    {
        var cells = new Cells { Crew = fileCrew };
        for (var column = 0; column < columns.Length; column++) TakeCell(column, ref cells);
        var id = Id();
        if (!cells.HasEast && !cells.HasNorth && !cells.HasHeight) TakeAgain(id, cells);
        else TakeShot(id, cells);
    }

    /// <summary>After the last row: what a row that was passed over left behind in the optional columns goes.</summary>
    public void Finish()
    {
        foreach (var column in numbers) if (column is not null && builder.Count < column.Length) column[builder.Count] = double.NaN;
        foreach (var column in texts) if (column is not null && builder.Count < column.Length) column[builder.Count] = Words.None;
    }

    private void TakeEarlier(Batch batch)
    {
        var crewColumn = before.TextColumns.GetValueOrDefault("crew");
        var batchCrew = crews.Keep(batch.Crew);
        for (var row = batch.FirstRow; row < batch.FirstRow + batch.Count; row++)
        {
            var origin = before.Origin(row);
            codes[row] = before.Code[row] == Words.None ? codes[origin] : before.Code[row];
            var crew = crewColumn is null || crewColumn[row] == Words.None ? batchCrew : crews.Keep(before.Texts[crewColumn[row]]);
            if (origin == row) ids.Enter(row, crew);
            runs.Known(codes[row], before.Label[row], crew, before.Leg[row]);
        }
    }

    private void TakeCell(int column, ref Cells cells)
    {
        var cell = table.Cell(column);
        switch (columns[column].Kind)
        {
            case ShotColumnKind.East:
                (cells.East, cells.HasEast) = (Number(column, cell), cell.Length > 0);
                break;
            case ShotColumnKind.North:
                (cells.North, cells.HasNorth) = (Number(column, cell), cell.Length > 0);
                break;
            case ShotColumnKind.Height:
                (cells.Height, cells.HasHeight) = (Number(column, cell), cell.Length > 0);
                break;
            case ShotColumnKind.UPlan:
                cells.UPlan = Number(column, cell);
                break;
            case ShotColumnKind.UHeight:
                cells.UHeight = Number(column, cell);
                break;
            case ShotColumnKind.Number:
                numbers[column]![builder.Count] = Number(column, cell) ?? double.NaN;
                break;
            case ShotColumnKind.Code:
                (cells.Code, cells.HasCode) = (Word(column, cell, mustBePlain: true), cell.Length > 0);
                break;
            case ShotColumnKind.Run:
                cells.Label = Word(column, cell, mustBePlain: true);
                break;
            case ShotColumnKind.Leg:
                if (!LegText.TryRead(cell, out cells.Leg)) table.Reject(column, cell, LegText.Wanted);
                break;
            case ShotColumnKind.Time:
                if (cell.Length > 0 && !TimeText.TryRead(cell, out cells.Time, out cells.Zone)) table.Reject(column, cell, "is not a time; " + TimeText.Wanted);
                break;
            case ShotColumnKind.Crew:
                var crew = texts[column]![builder.Count] = Word(column, cell, mustBePlain: true);
                if (crew != Words.None) cells.Crew = crews.Keep(builder.Texts[crew]);
                break;
            case ShotColumnKind.Text:
                texts[column]![builder.Count] = Word(column, cell, mustBePlain: false);
                break;
        }
    }

    private ReadOnlySpan<byte> Id()
    {
        var id = table.Cell(idColumn);
        if (id.Length == 0) table.RejectEmpty(idColumn, "the cell is empty; the id of the shot was expected");
        else if (CellText.HasUnseen(id)) table.Reject(idColumn, id, "holds characters that cannot be seen; remove them");
        return id.Length == 0 ? id : Csv.Unguarded(id);
    }

    private void TakeShot(ReadOnlySpan<byte> id, in Cells cells)
    {
        if (!cells.HasEast) RejectHalf(eastColumn, cells);
        if (!cells.HasNorth) RejectHalf(northColumn, cells);
        if (!cells.HasCode) table.RejectEmpty(codeColumn, "the cell is empty; a code was expected, as every shot needs one");
        CheckThrough(cells.Code, cells);
        passedOver = before.Count > 0 && IsTaken(id, cells);
        if (passedOver) AlreadyTaken++;
        else ids.Enter(Add(id, -1, cells.Code, cells), cells.Crew);
    }

    private void TakeAgain(ReadOnlySpan<byte> id, in Cells cells)
    {
        var again = ids.Find(id, cells.Crew);
        if (again < 0 && id.Length > 0) table.Reject(idColumn, id, rejected.Full ? "" : Unknown(id, cells.Crew));
        var code = cells.HasCode || again < 0 ? cells.Code : codes[again];
        CheckThrough(code, cells);
        if (passedOver && again < before.Count && IsTakenAgain(again, code, cells)) AlreadyTaken++;
        else Add(id, again, code, cells);
    }

    private string Unknown(ReadOnlySpan<byte> id, int crew)
    {
        var whose = crew == Words.None ? "" : $" of crew {crews[crew]}";
        return $"has no coordinates and so uses shot {CellText.Shown(id)} again, but no shot {CellText.Shown(id)}{whose} stands above it or in an earlier batch; give its coordinates or correct its id";
    }

    private void RejectHalf(int column, in Cells cells)
    {
        var given = string.Join(" and ", new[] { cells.HasEast ? "east" : null, cells.HasNorth ? "north" : null, cells.HasHeight ? "height" : null }.Where(name => name is not null));
        table.RejectEmpty(column, $"the cell is empty, but the row gives {given}; a number of metres was expected, or all three empty to use the shot again");
    }

    private void CheckThrough(int code, in Cells cells)
    {
        if (runs.Reach(code, cells.Label, cells.Crew, cells.Leg)) return;
        rejected.Add(table.Line, table.Columns[legColumn], "through"u8, rejected.Full ? "" :
            $"begins {(cells.Label == Words.None ? $"a run of {builder.Codes[code]}" : $"run {builder.Labels[cells.Label]} of {builder.Codes[code]}")}, and an arc needs a shot before it; give the shot on which the arc begins first, or write straight");
    }

    private int Add(ReadOnlySpan<byte> id, int again, int code, in Cells cells)
    {
        var row = builder.Add(
            id, cells.East ?? double.NaN, cells.North ?? double.NaN, cells.Height ?? double.NaN,
            again >= 0 && !cells.HasCode ? Words.None : code, cells.Label, cells.Leg, table.Line, again,
            cells.Time, cells.Zone, cells.UPlan ?? double.NaN, cells.UHeight ?? double.NaN);
        codes[row] = code;
        return row;
    }

    private const int MostRepeats = 100; // of one id: more are no re-export

    /// <summary>Whether an earlier batch holds this very shot.</summary>
    private bool IsTaken(ReadOnlySpan<byte> id, in Cells cells)
    {
        var row = ids.Find(id, cells.Crew);
        for (var tried = 0; row >= 0 && tried < MostRepeats; row = ids.Before(row), tried++)
        {
            if (row >= before.Count) continue;
            if (cells.East.Equals(before.East[row]) && cells.North.Equals(before.North[row]) && (cells.Height ?? double.NaN).Equals(before.Height[row])
                && cells.Time == before.Time[row] && cells.Zone == before.Zone[row]
                && cells.Code == before.Code[row] && cells.Label == before.Label[row] && cells.Leg == before.Leg[row]) return true;
        }

        return false;
    }

    private HashSet<(int Again, int Code, int Label, Leg Leg)>? takenAgain;

    /// <summary>Whether an earlier batch uses the same shot again in the same run. Asked only where the file repeats what was taken.</summary>
    private bool IsTakenAgain(int again, int code, in Cells cells)
    {
        if (again < 0) return false;
        if (takenAgain is null)
        {
            takenAgain = [];
            for (var row = 0; row < before.Count; row++)
                if (before.Again[row] >= 0) takenAgain.Add((before.Again[row], codes[row], before.Label[row], before.Leg[row]));
        }

        return takenAgain.Contains((again, code, cells.Label, cells.Leg));
    }

    private double? Number(int column, ReadOnlySpan<byte> cell)
    {
        if (cell.Length == 0) return null;
        var number = table.Numbers.Read(cell, table.Line, columns[column].Rule!, out var refused);
        if (refused is not null) table.Reject(column, cell, refused);
        return number;
    }

    private int Word(int column, ReadOnlySpan<byte> cell, bool mustBePlain)
    {
        var number = words[column].Keep(cell, mustBePlain, out var plain);
        if (!plain) table.Reject(column, cell, "holds characters that cannot be seen; remove them");
        return number;
    }
}
