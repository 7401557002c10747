using System.Globalization;
using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;

namespace Aslaid.Tests;

/// <summary>What is written comes back bit by bit, whatever the order of the columns, the separator and the decimal mark.</summary>
public sealed class ShotsCsvLawTests
{
    private static readonly string[] Columns =
        ["id", "east", "north", "height", "code", "run", "leg", "time", "u_plan", "u_height", "pole", "sats", "fix", "note", "Soil type"];

    private sealed record Row(
        string Id, double East, double North, double? Height, string Code, string Run, string Leg, DateTimeOffset? Time, bool Zoned,
        double? UPlan, double? UHeight, double? Pole, int? Sats, string Fix, string Note, string Soil);

    private sealed record Form(string[] Order, char Separator, bool Comma, bool Mark, string LineEnd, bool Quoted);

    private static Gen<T> OneOf<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static Gen<double> Number(double least, double most) => Gen.OneOf(
        Gen.Double[least, most],
        Gen.Select(Gen.Double[least, most], Gen.Int[0, 6], Math.Round));

    private static readonly Gen<string> Word = OneOf("", "fixed", "wet clay", "a,b", "a;b", "she said \"here\"", "Übergang 3 µm", "'tis", "=1+1", "-5", "'=x");

    private static readonly Gen<DateTimeOffset?> Moment = Gen.Nullable(Gen.Select(
        Gen.Long[0, 40_000L * 365 * TimeSpan.TicksPerHour / 24], Gen.Int[-14 * 60, 14 * 60],
        (ticks, zone) => new DateTimeOffset(new DateTime(1990, 1, 1).AddTicks(ticks), TimeSpan.FromMinutes(zone))));

    private static readonly Gen<Row> Rows = Gen.Select(
        Gen.Select(Number(511_000, 513_000), Number(6_242_000, 6_244_000), Gen.Nullable(Number(-30, 900))),
        Gen.Select(OneOf("KERB-BACK", "WATER-MAIN", "DUCT"), OneOf("", "k1", "Kanal Süd"), OneOf("", "straight", "First", "last", "HOME", "alone")),
        Gen.Select(Moment, Gen.Bool),
        Gen.Select(Gen.Nullable(Number(0, 0.5)), Gen.Nullable(Number(0, 0.5)), Gen.Nullable(Number(0, 3)), Gen.Nullable(Gen.Int[0, 40])),
        Gen.Select(Word, Word, Word),
        (at, code, time, quality, words) => new Row(
            "", at.Item1, at.Item2, at.Item3, code.Item1, code.Item2, code.Item3, time.Item1, time.Item2,
            quality.Item1, quality.Item2, quality.Item3, quality.Item4, words.Item1, words.Item2, words.Item3));

    private static readonly Gen<Form> Forms = Gen.Select(
        Gen.Shuffle(Columns), OneOf(',', ';', '\t'), Gen.Bool, Gen.Bool, OneOf("\n", "\r\n", "\r"), Gen.Bool,
        (order, separator, comma, mark, end, quoted) => new Form(order, separator, comma && separator != ',', mark, end, quoted));

    private static readonly Gen<Row[]> Tables = Rows.Array[1, 12].Select(rows => rows.Select((row, i) => row with { Id = Id(i) }).ToArray());

    private static string Id(int i) => (i % 3) switch { 0 => i.ToString(CultureInfo.InvariantCulture), 1 => $"P{i:000}", _ => $"Süd-{i}" };

    [Fact]
    public void Read_WhatWasWritten_IsTheSameBitByBit() => Gen.Select(Tables, Forms).Sample((rows, form) =>
    {
        var shots = ShotsText.Taken(Write(rows, form));
        Assert.Equal(rows.Length, shots.Count);
        for (var i = 0; i < rows.Length; i++) AssertSame(rows[i], shots, i);
    });

    [Fact]
    public void Read_WhateverTheForm_GivesTheSameTable() => Gen.Select(Tables, Forms, Forms).Sample((rows, one, other) =>
        ShotsText.Told(ShotsText.Taken(Write(rows, one))) == ShotsText.Told(ShotsText.Taken(Write(rows, other))));

    [Fact]
    public void Read_WhateverTheCulture_GivesTheSameTable() => Gen.Select(Tables, Forms).Sample((rows, form) =>
    {
        var text = Write(rows, form);
        var invariant = ShotsText.Told(ShotsText.Taken(text));
        ShotsText.UnderCulture("de-DE", () => Assert.Equal(invariant, ShotsText.Told(ShotsText.Taken(text))));
        ShotsText.UnderCulture("tr-TR", () => Assert.Equal(invariant, ShotsText.Told(ShotsText.Taken(text))));
    }, threads: 1);

    [Fact]
    public void Read_AnyBytes_IsRejectedOrTakenButNeverThrown() => Gen.Select(Tables, Forms, Gen.Int[0, 100_000], Gen.Byte.Array[0, 6]).Sample((rows, form, at, spoil) =>
    {
        var bytes = Encoding.UTF8.GetBytes(Write(rows, form)).ToList();
        bytes.InsertRange(at % (bytes.Count + 1), spoil);
        var intake = ShotsText.Read([.. bytes]);
        return intake.Shots is null == intake.RejectedCount > 0 && intake.Rejected.All(r => r.Message("f.csv").EndsWith('.'));
    });

    [Fact]
    public void Read_AnyDecimalText_IsTheNearestDouble() => Gen.Select(Gen.Long[-9_999_999_999_999, 9_999_999_999_999], Gen.Int[5, 12], OneOf("", "000", "000000000000")).Sample((digits, decimals, zeros) =>
    {
        var text = Math.Abs(digits).ToString(CultureInfo.InvariantCulture).PadLeft(decimals + 1, '0');
        text = $"{(digits < 0 ? "-" : "")}{zeros}{text[..^decimals]}.{text[^decimals..]}";
        var east = ShotsText.Taken($"{ShotsText.Header}\n1,{text},6243000,5,DUCT").East[0];
        return east.Equals(double.Parse(text, CultureInfo.InvariantCulture)); // the framework rounds correctly since .NET Core 3.0
    });

    private static void AssertSame(Row row, ShotTable shots, int i)
    {
        Assert.Equal(row.Id, shots.Id(i));
        AssertBits(row.East, shots.East[i]);
        AssertBits(row.North, shots.North[i]);
        AssertBits(row.Height, shots.Height[i]);
        AssertBits(row.UPlan, shots.UPlan[i]);
        AssertBits(row.UHeight, shots.UHeight[i]);
        Assert.Equal(row.Pole, shots.Number("pole", i));
        Assert.Equal(row.Sats, shots.Number("sats", i));
        Assert.Equal(row.Code, shots[i].Code);
        Assert.Equal(row.Run.NullIfEmpty(), shots[i].RunLabel);
        Assert.Equal(row.Leg.Length == 0 ? "STRAIGHT" : row.Leg.ToUpperInvariant(), shots[i].Leg.ToString().ToUpperInvariant());
        Assert.Equal(row.Fix.NullIfEmpty(), shots.Text("fix", i));
        Assert.Equal(row.Note.NullIfEmpty(), shots.Text("note", i));
        Assert.Equal(row.Soil.NullIfEmpty(), shots.Text("Soil type", i));
        var time = row.Time is { } written && !row.Zoned ? new DateTimeOffset(written.DateTime, TimeSpan.Zero) : row.Time;
        Assert.Equal(time, shots[i].Time);
        Assert.Equal(row.Time is { } moment ? row.Zoned ? (short)moment.Offset.TotalMinutes : short.MinValue : short.MinValue, shots.Zone[i]);
    }

    private static void AssertBits(double? written, double read) =>
        Assert.Equal(BitConverter.DoubleToInt64Bits(written ?? double.NaN), BitConverter.DoubleToInt64Bits(read));

    private static string Write(Row[] rows, Form form)
    {
        var lines = rows.Select(row => form.Order.Select(column => Cell(row, column, form))).Prepend(form.Order);
        var text = string.Concat(lines.Select(line => string.Join(form.Separator, line.Select(cell => Quoted(cell, form))) + form.LineEnd));
        return form.Mark ? "\uFEFF" + text : text;
    }

    private static string Quoted(string cell, Form form) => form.Quoted || cell.Contains(form.Separator, StringComparison.Ordinal) || cell.Contains('"', StringComparison.Ordinal)
        ? "\"" + cell.Replace("\"", "\"\"", StringComparison.Ordinal) + "\""
        : cell;

    private static string Cell(Row row, string column, Form form) => column switch
    {
        "id" => row.Id,
        "east" => Number(row.East, form),
        "north" => Number(row.North, form),
        "height" => Number(row.Height, form),
        "code" => row.Code,
        "run" => row.Run,
        "leg" => row.Leg,
        "time" => row.Time?.ToString(row.Zoned ? "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFzzz" : "yyyy-MM-dd HH:mm:ss.FFFFFFF", CultureInfo.InvariantCulture) ?? "",
        "u_plan" => Number(row.UPlan, form),
        "u_height" => Number(row.UHeight, form),
        "pole" => Number(row.Pole, form),
        "sats" => row.Sats?.ToString(CultureInfo.InvariantCulture) ?? "",
        "fix" => Csv.Safe(row.Fix),
        "note" => Csv.Safe(row.Note),
        _ => Csv.Safe(row.Soil),
    };

    private static string Number(double? value, Form form)
    {
        var text = value?.ToString("R", CultureInfo.InvariantCulture) ?? "";
        return form.Comma ? text.Replace('.', ',') : text;
    }
}
