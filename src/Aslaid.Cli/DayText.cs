using System.Globalization;
using System.IO;
using System.Text.Json;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli;

/// <summary>Day sheets and morning lists, for paper and for programs.</summary>
internal static class DayText
{
    private const int Named = 12;

    public static void Print(TextWriter to, ProjectSession session, AsBuiltRecord record, IReadOnlyList<DaySheet> sheets)
    {
        foreach (var sheet in sheets)
        {
            Line(to, $"DAY SHEET  {session.Name}");
            Line(to, $"Crew {sheet.Crew ?? "not named"}, {sheet.Date:yyyy-MM-dd}, {sheet.From:HH:mm} to {sheet.To:HH:mm}; {Figures.Count(sheet.Shots, "shot")}; journal {record.Position}");
            Line(to, $"Head {session.HeadHash(record.Position)}");
            Line(to, $"");
            Line(to, $"Built today, metres in plan (a leg belongs to the day of its later shot):");
            if (sheet.Lengths.IsEmpty && sheet.Points.IsEmpty) Line(to, $"  nothing");
            var table = new Columns("  code", "m", "of which held m");
            foreach (var length in sheet.Lengths) table.Add("  " + length.Code, Figures.Metres(length.Metres), Figures.Metres(length.Held));
            if (!sheet.Lengths.IsEmpty) table.Write(to);
            foreach (var (code, count) in sheet.Points) Line(to, $"  {code}: {Figures.Count(count, "point")}");
            Line(to, $"");
            Line(to, $"Checks on control, shot minus known:");
            foreach (var check in sheet.Checks)
                Line(to, $"  {check.Point} by {record.Shots.Raw.Id(check.Row)}: E {check.East:+0.000;-0.000;0.000} N {check.North:+0.000;-0.000;0.000} H {(check.Height is { } height ? height.ToString("+0.000;-0.000;0.000", CultureInfo.InvariantCulture) : "not known")} m");
            if (sheet.Checks.IsEmpty) Line(to, $"  none: nothing of today is proven on control");
            Line(to, $"Photographs: {sheet.Photos} of {Figures.Count(sheet.Shots, "shot")} have one.");
            Line(to, $"");
            Line(to, $"Open tonight: {sheet.Open:0.0} m of today's work nobody released or covered yet.");
            foreach (var end in sheet.OpenEnds.Take(Named)) Line(to, $"  {End(record, end)}");
            if (sheet.OpenEnds.Length > Named) Line(to, $"  … and {sheet.OpenEnds.Length - Named} more ends");
            Line(to, $"Must be cured before it is covered: {(sheet.Stops.IsEmpty ? "nothing stands" : Figures.Count(sheet.Stops.Length, "stop"))}.");
            foreach (var stop in sheet.Stops.Take(Named)) Line(to, $"  {record.Findings[stop].Id} {record.Findings[stop].Message} {record.Findings[stop].Cure}");
            if (sheet.Stops.Length > Named) Line(to, $"  … and {sheet.Stops.Length - Named} more; aslaid check lists them");
            Line(to, $"");
            foreach (var caution in Cautions.All) Line(to, $"- {caution}");
            Line(to, $"");
            Line(to, $"Signed for the crew ______________________   Seen by the engineer ______________________");
            Line(to, $"");
        }
    }

    /// <summary>What no sheet can tell of.</summary>
    public static void PrintUndated(TextWriter to, AsBuiltRecord record)
    {
        if (DaySheet.Undated(record) is > 0.0005 and var metres) Line(to, $"{metres:0.000} m of the record have shots without a time and belong to no day.");
    }

    public static void Print(TextWriter to, ProjectSession session, AsBuiltRecord record, MorningList list, DateOnly day)
    {
        Line(to, $"MORNING LIST  {session.Name}, {day:yyyy-MM-dd}; journal {record.Position}, head {session.HeadHash(record.Position)}");
        foreach (var crew in list.Crews)
        {
            Line(to, $"");
            Line(to, $"Crew {crew.Crew ?? "not named"}, last out on {crew.Since:yyyy-MM-dd}");
            foreach (var point in crew.Control) Line(to, $"  [ ] check on {point.Point}, {point.Distance:0} m from where you stopped; last checked {(point.Last is { } last ? last.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) : "never")}");
            if (crew.Control.IsEmpty) Line(to, $"  [ ] no control is adopted: nothing can be checked on it");
            foreach (var pole in crew.Poles) Line(to, $"  [ ] measure the pole{(pole.Instrument is { } instrument ? $" of {instrument}" : "")}: it was last entered as {pole.Metres:0.000} m (shot {record.Shots.Raw.Id(pole.Shot)})");
            foreach (var end in crew.OpenEnds.Take(Named)) Line(to, $"  [ ] {End(record, end)}");
            if (crew.OpenEnds.Length > Named) Line(to, $"      … and {crew.OpenEnds.Length - Named} more ends");
        }

        Line(to, $"");
        Line(to, $"Visits due: {list.Visits.Length}, of which {list.Visits.Count(stop => stop.Finding.Reshoot == Reshoot.Open)} while open.");
        foreach (var stop in list.Visits.Take(Named)) Line(to, $"  {stop.Order,3}  {stop.Sentence}");
        if (list.Visits.Length > Named) Line(to, $"  … and {list.Visits.Length - Named} more; aslaid visit lists them");
        Line(to, $"Decisions that wait: {list.ToDecide.Length}.");
        foreach (var number in list.ToDecide.Take(Named)) Line(to, $"  {record.Findings[number].Id} {record.Findings[number].Message}");
        Line(to, $"Releases that lapsed: {list.Lapsed.Length}.");
        foreach (var lapsed in list.Lapsed.Take(Named)) Line(to, $"  {record.Runs[lapsed.Run].Label}, released at journal {lapsed.Entry}: {lapsed.Reason}");
        Line(to, $"Do not enter an unprotected trench to measure. Local code and licensed practice prevail.");
    }

    private static string End(AsBuiltRecord record, OpenEnd end)
    {
        var (run, at) = (record.Runs[end.Run], record.Shots.At(end.Shot));
        return string.Create(CultureInfo.InvariantCulture, $"{run.Label} ({run.Code}): its {EnumWords.Of(end.End)} is open at {record.Shots.Raw.Id(end.Shot)}, E {at.East:0.000} N {at.North:0.000}");
    }

    private static void Line(TextWriter to, FormattableString text) => to.WriteLine(text.ToString(CultureInfo.InvariantCulture));

    public static void Write(Utf8JsonWriter json, AsBuiltRecord record, IReadOnlyList<DaySheet> sheets)
    {
        json.WriteStartArray();
        foreach (var sheet in sheets)
        {
            json.WriteStartObject();
            json.WriteString("crew", sheet.Crew);
            json.WriteString("date", Verbs.DayVerb.Iso(sheet.Date));
            json.WriteNumber("shots", sheet.Shots);
            json.WriteStartArray("lengths");
            foreach (var length in sheet.Lengths)
            {
                json.WriteStartObject();
                json.WriteString("code", length.Code);
                json.WriteNumber("plan_length_m", length.Metres);
                json.WriteNumber("held_m", length.Held);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteStartObject("points");
            foreach (var (code, count) in sheet.Points) json.WriteNumber(code, count);
            json.WriteEndObject();
            json.WriteStartArray("checks");
            foreach (var check in sheet.Checks)
            {
                json.WriteStartObject();
                json.WriteString("point", check.Point);
                json.WriteString("shot", record.Shots.Raw.Id(check.Row));
                json.WriteNumber("east_m", check.East);
                json.WriteNumber("north_m", check.North);
                json.Number("height_m", check.Height);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteNumber("photos", sheet.Photos);
            json.WriteNumber("open_m", sheet.Open);
            Ends(json, record, sheet.OpenEnds);
            Ids(json, "stops", record, sheet.Stops);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    public static void Write(Utf8JsonWriter json, AsBuiltRecord record, MorningList list)
    {
        json.WriteStartObject();
        json.WriteStartArray("crews");
        foreach (var crew in list.Crews)
        {
            json.WriteStartObject();
            json.WriteString("crew", crew.Crew);
            json.WriteString("date", Verbs.DayVerb.Iso(crew.Since));
            json.WriteStartArray("control");
            foreach (var point in crew.Control)
            {
                json.WriteStartObject();
                json.WriteString("point", point.Point);
                json.WriteNumber("walk_m", point.Distance);
                json.WriteString("last", point.Last is { } last ? Verbs.DayVerb.Iso(last) : null);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteStartArray("poles");
            foreach (var pole in crew.Poles)
            {
                json.WriteStartObject();
                json.WriteString("instrument", pole.Instrument);
                json.WriteNumber("pole_m", pole.Metres);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            Ends(json, record, crew.OpenEnds);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteNumber("visits", list.Visits.Length);
        Ids(json, "to_decide", record, list.ToDecide);
        json.WriteStartArray("lapsed");
        foreach (var lapsed in list.Lapsed)
        {
            json.WriteStartObject();
            json.WriteString("run", record.Runs[lapsed.Run].Key);
            json.WriteNumber("journal", lapsed.Entry);
            json.WriteString("reason", lapsed.Reason);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Ids(Utf8JsonWriter json, string name, AsBuiltRecord record, IEnumerable<int> findings)
    {
        json.WriteStartArray(name);
        foreach (var number in findings) json.WriteStringValue(record.Findings[number].Id);
        json.WriteEndArray();
    }

    private static void Ends(Utf8JsonWriter json, AsBuiltRecord record, IEnumerable<OpenEnd> ends)
    {
        json.WriteStartArray("open_ends");
        foreach (var end in ends)
        {
            json.WriteStartObject();
            json.WriteString("run", record.Runs[end.Run].Key);
            json.WriteString("end", EnumWords.Of(end.End));
            json.WriteString("shot", record.Shots.Raw.Id(end.Shot));
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
