using System.Globalization;
using System.Text;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>How a run stands as a whole: the worst state of its lengths.</summary>
public static class RunStates
{
    /// <summary>For each run <c>held</c>, <c>open</c>, <c>complete</c> or <c>covered</c>; the first of these that any length has.</summary>
    public static string[] Of(AsBuiltRecord record)
    {
        var worst = new int[record.Runs.Count];
        worst.AsSpan().Fill(int.MaxValue);
        foreach (var hold in record.Holds)
        {
            var rank = hold.State switch { HoldState.Held => 0, HoldState.Open => 1, HoldState.Complete => 2, _ => 3 };
            worst[hold.Run] = Math.Min(worst[hold.Run], rank);
        }

        return [.. worst.Select(rank => rank switch { 0 => "held", 1 => "open", 2 => "complete", 3 => "covered", _ => "open" })];
    }
}

/// <summary>What a run carries by vertex, as texts parted by spaces: one word a vertex, <c>-</c> where nothing is stated.</summary>
internal readonly record struct VertexTexts(
    int Arcs, string Shots, string UPlan, string UHeight, string Method, string Time, double? UPlanMax)
{
    public static VertexTexts Of(Run run)
    {
        var shots = run.Table.Shots;
        var raw = shots.Raw;
        var arcs = 0;
        for (var piece = 0; piece < run.PieceCount; piece++)
            if (run.Piece(piece).ArcNumber >= 0) arcs++;
        var (ids, plan, height, method, time) = (new StringBuilder(), new StringBuilder(), new StringBuilder(), new StringBuilder(), new StringBuilder());
        var methods = raw.TextColumns.GetValueOrDefault("method");
        var largest = 0.0;
        for (var member = 0; member < run.MemberCount; member++)
        {
            var shot = run.Members[member];
            if (member > 0)
            {
                ids.Append(' ');
                plan.Append(' ');
                height.Append(' ');
                method.Append(' ');
                time.Append(' ');
            }

            if (run.Through[member]) ids.Append('~');
            ids.Append(raw.Id(shot));
            var u = shots.SigmaPlan[shot] * Math.Sqrt(2);
            largest = Math.Max(largest, u); // NaN stays NaN: no accuracy is no accuracy
            Number(plan, u);
            Number(height, shots.SigmaHeight[shot]);
            if (raw.IsConstructed(shot)) method.Append("constructed");
            else method.Append(methods is null || methods[shot] == Words.None ? "-" : raw.Texts[methods[shot]]!.Replace(' ', '_'));
            time.Append(raw.Time[shot] == long.MinValue ? "-" : Encoding.UTF8.GetString(WrittenTime.Of(raw.Time[shot], raw.Zone[shot])));
        }

        return new(arcs, ids.ToString(), plan.ToString(), height.ToString(), method.ToString(), time.ToString(), double.IsNaN(largest) ? null : largest);
    }

    private static void Number(StringBuilder text, double value)
    {
        if (double.IsNaN(value)) text.Append('-');
        else text.Append(CultureInfo.InvariantCulture, $"{value:0.0000}");
    }
}

/// <summary>Times as ISO 8601 text, with the zone as it was written and none where none was.</summary>
internal static class WrittenTime
{
    [ThreadStatic]
    private static byte[]? buffer;

    /// <summary>UTF-8 text, valid until the next call on the same thread.</summary>
    public static ReadOnlySpan<byte> Of(long ticks, short zone)
    {
        var text = buffer ??= new byte[40];
        var time = new DateTime(zone == short.MinValue ? ticks : ticks + zone * TimeSpan.TicksPerMinute, DateTimeKind.Unspecified);
        "0000-00-00T00:00:00.0000000"u8.CopyTo(text);
        Digits(text.AsSpan(0, 4), time.Year);
        Digits(text.AsSpan(5, 2), time.Month);
        Digits(text.AsSpan(8, 2), time.Day);
        Digits(text.AsSpan(11, 2), time.Hour);
        Digits(text.AsSpan(14, 2), time.Minute);
        Digits(text.AsSpan(17, 2), time.Second);
        var fraction = (int)(time.Ticks % TimeSpan.TicksPerSecond);
        if (fraction != 0) Digits(text.AsSpan(20, 7), fraction);
        var written = fraction == 0 ? 19 : 27;
        if (zone == short.MinValue) return text.AsSpan(0, written);
        if (zone == 0)
        {
            text[written] = (byte)'Z';
            return text.AsSpan(0, written + 1);
        }

        var away = Math.Abs((int)zone);
        text[written] = zone < 0 ? (byte)'-' : (byte)'+';
        Digits(text.AsSpan(written + 1, 2), away / 60);
        text[written + 3] = (byte)':';
        Digits(text.AsSpan(written + 4, 2), away % 60);
        return text.AsSpan(0, written + 6);
    }

    private static void Digits(Span<byte> into, int value)
    {
        for (var at = into.Length - 1; at >= 0; at--, value /= 10) into[at] = (byte)('0' + value % 10);
    }
}

/// <summary>Words of a word list as UTF-8, each made once.</summary>
public sealed class Utf8Words(Words words)
{
    private readonly byte[]?[] known = new byte[words.Count][];

    /// <summary>Sets a column to a word; a missing word leaves it null.</summary>
    public void Put(BulkInsert rows, int column, int number)
    {
        if (number != Words.None) rows.Text(column, known[number] ??= Encoding.UTF8.GetBytes(words[number]!));
    }
}
