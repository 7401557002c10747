using System.CommandLine;
using System.Globalization;
using System.IO;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

/// <summary>The sheet of a day and the list for a morning.</summary>
internal static class DayVerb
{
    public static Command Day(Shell shell)
    {
        var (project, date, crew, file, json) = (VerbParts.Project(), Date("The day; the last one on which anything was shot where left out."), Crew(), Out(), VerbParts.Json());
        var verb = new Command("day", "The day sheet of each crew: metres, holds, checks on control, photographs, what is open tonight, a line to sign.") { project, date, crew, file, json };
        verb.SetAction(parsed =>
        {
            using var session = ProjectSession.Open(parsed.GetValue(project)!, shell.Clock, readOnly: true);
            var record = session.Record();
            var dates = DaySheet.Dates(record);
            if (dates.IsEmpty) throw new ProjectException("No shot of the record has a time: there is no day to tell of.");
            var day = parsed.GetValue(date) ?? dates[^1];
            var sheets = DaySheet.Of(record, day).Where(sheet => parsed.GetValue(crew) is not { } name || sheet.Crew == name).ToArray();
            if (sheets.Length == 0) throw new ProjectException($"Nothing was shot on {Iso(day)}{(parsed.GetValue(crew) is { } of ? $" by crew {of}" : "")}. Days with shots: {string.Join(", ", dates.TakeLast(10).Select(Iso))}.");
            if (parsed.GetValue(json)) Json.Write(shell.Out, writer => DayText.Write(writer, record, sheets));
            else Say(shell, parsed.GetValue(file), to =>
            {
                DayText.Print(to, session, record, sheets);
                DayText.PrintUndated(to, record);
            });
            return Exit.Fine;
        });
        return verb.WithExamples("aslaid day site.gpkg", "aslaid day site.gpkg --date 2026-03-10 --crew North --out north.txt");
    }

    public static Command Morning(Shell shell)
    {
        var (project, date, file, json) = (VerbParts.Project(), Date("The morning; the day after the last shot where left out."), Out(), VerbParts.Json());
        var verb = new Command("morning", "What to look at before work: control to check, pole heights, open ends, visits due, decisions that wait.") { project, date, file, json };
        verb.SetAction(parsed =>
        {
            using var session = ProjectSession.Open(parsed.GetValue(project)!, shell.Clock, readOnly: true);
            var record = session.Record();
            var dates = DaySheet.Dates(record);
            if (dates.IsEmpty) throw new ProjectException("No shot of the record has a time: there is no day before to tell of.");
            var day = parsed.GetValue(date) ?? dates[^1].AddDays(1);
            var list = MorningList.Of(record, day);
            if (parsed.GetValue(json)) Json.Write(shell.Out, writer => DayText.Write(writer, record, list));
            else Say(shell, parsed.GetValue(file), to => DayText.Print(to, session, record, list, day));
            return Exit.Fine;
        });
        return verb.WithExamples("aslaid morning site.gpkg", "aslaid morning site.gpkg --date 2026-03-11");
    }

    private static void Say(Shell shell, string? file, Action<TextWriter> print)
    {
        using var text = new StringWriter { NewLine = "\n" };
        print(text);
        if (file is not null) NamedFile.Write(file, text.ToString());
        shell.Out.Write(text.ToString());
    }

    internal static string Iso(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static Option<DateOnly?> Date(string description) => new("--date")
    {
        Description = description,
        HelpName = "YYYY-MM-DD",
        CustomParser = result =>
        {
            if (DateOnly.TryParseExact(result.Tokens[^1].Value, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)) return day;
            result.AddError($"--date: '{result.Tokens[^1].Value}' is not a day, as 2026-03-10.");
            return null;
        },
    };

    private static Option<string?> Crew() => new("--crew") { Description = "Only this crew's.", HelpName = "NAME" };

    private static Option<string?> Out() => new("--out") { Description = "Also write it to a file, as text.", HelpName = "FILE" };
}
