using System.Globalization;
using Aslaid.Record;

namespace Aslaid.Cli;

/// <summary>
/// Values against limits as people read them, without the points that conform; then how many of each verdict, then what the check
/// shots show.
/// </summary>
internal static class VerdictText
{
    public static void Print(Shell shell, AsBuiltRecord record)
    {
        var all = Judgements.Of(record);
        var table = new Columns("requirement", "code", "run", "shot", "chainage m", "value, 95 %", "unit", "limits", "within", "verdict", "probability");
        var leftOut = 0;
        foreach (var judged in all)
        {
            var judgement = judged.Judgement;
            if (judged.Run is null && judgement.Verdict == Verdict.Conforms)
            {
                leftOut++;
                continue;
            }

            table.Add(judged.Requirement.Name, judged.Code, judged.Run?.Label ?? "–", record.Shots.Raw.Id(judged.Shot), Chainage(judged),
                Value(judgement), judged.Requirement.Unit, judgement.Limits.ToString(), judgement.Within switch { true => "yes", false => "no", null => "–" }, EnumWords.Of(judgement.Verdict), Figures.Metres(judgement.PConforms));
        }

        table.Write(shell.Out);
        if (leftOut > 0) shell.Say($"Not listed: {Figures.Count(leftOut, "verdict")} of points that conform; --json and verdicts.csv have them.");
        foreach (var count in Judgements.Count(all))
            shell.Say($"{count.Requirement.Name}: {count.Conform} conform, {count.DoNotConform} do not, {count.NotProven} not proven, {count.MethodUnfit} method unfit.");
        foreach (var (session, accuracy) in PositionalAccuracy.OfCheckShots(record.Site)) Print(shell, record, session, accuracy);
    }

    private static void Print(Shell shell, AsBuiltRecord record, int session, PositionalAccuracy accuracy)
    {
        var first = record.Site.CheckShots.First(check => record.Shots.Session[check.Row] == session).Row;
        var name = record.Shots.Raw.Crew(first) is { } crew ? $", {crew}" : "";
        var few = accuracy.East.Count < PositionalAccuracy.PointsAsked ? $"; an indication, the standard asks for {PositionalAccuracy.PointsAsked}" : "";
        var mean = $"mean E {Figures.Signed(accuracy.East.Mean)} N {Figures.Signed(accuracy.North.Mean)} H {Figures.Signed(accuracy.Height?.Mean)} m";
        var rmse = $"RMSE plan {Figures.Metres(accuracy.RmsePlan)} height {Figures.Metres(accuracy.RmseHeight)} m";
        var file = record.Shots.Raw.BatchOf(first).FileName;
        shell.Say($"Check shots of {file}{name}, from {record.Shots.Raw.Id(first)} on: n {accuracy.East.Count}, {mean}, {rmse}, NSSDA 95 % plan {Plan(accuracy)} height {Figures.Metres(accuracy.Height95)} m{few}.");
    }

    private static string Plan(PositionalAccuracy accuracy) => accuracy.Plan95 is { } plan
        ? Figures.Metres(plan)
        : $"– (the axes differ too much; {Figures.Metres(accuracy.Circle95)} by their ellipse)";

    private static string Chainage(Judged judged) => judged switch
    {
        { From: { } from, To: { } to } when to > from => string.Create(CultureInfo.InvariantCulture, $"{from:0.00} to {to:0.00}"),
        { From: { } from } => from.ToString("0.00", CultureInfo.InvariantCulture),
        _ => "–",
    };

    /// <summary>With its uncertainty, except where the value is an uncertainty itself.</summary>
    private static string Value(Judgement judgement) =>
        judgement is { Value: not null, U95: { } u95 } ? $"{Figures.Metres(judgement.Value)} ± {Figures.Metres(u95)}" : Figures.Metres(judgement.Value);
}
