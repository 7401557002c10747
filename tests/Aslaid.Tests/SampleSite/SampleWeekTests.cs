using System.Collections.Immutable;
using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;

namespace Aslaid.Tests;

/// <summary>A week as two crews hand it in, taken in evening by evening, and only what is offered decided.</summary>
public class SampleWeekTests
{
    [Fact]
    public void Make_SameSeed_SameBytes_AndEachFileRepeatsTheWeekSoFar()
    {
        var (week, again) = (SampleWeek.Make(3), SampleWeek.Make(3));
        Assert.Equal(week.Files, again.Files);
        Assert.Equal(10, week.Files.Length);
        Assert.InRange(week.Shots, 2900, 3300);
        foreach (var crew in week.Files.GroupBy(file => file.File.Crew))
        {
            var texts = crew.Select(file => file.File.Text.Split('\n')).ToArray();
            for (var day = 1; day < texts.Length; day++)
            {
                var same = texts[day - 1][..^1].Zip(texts[day]).Count(line => line.First == line.Second);
                Assert.Equal(texts[day - 1].Length - 1 - (day == 1 && crew.Key == "North" ? week.Changed.Length : 0), same);
            }
        }
    }

    /// <summary>Issue of the week: each evening's lengths within their uncertainty, nothing twice, each label decided as it was.</summary>
    [Fact]
    public void Week_TakenEveningByEvening_IsAsTheTruthSays() => Parallel.For(1, 21, seed =>
    {
        var week = SampleWeek.Make(seed);
        var (inputs, decided) = (Empty(week), new List<LabelDecided>());
        for (var day = 1; day <= 5; day++)
        {
            foreach (var file in week.Files.Where(file => file.Day == day)) inputs = Take(inputs, file.File);
            inputs = Decide(inputs, week, day, decided);
            var record = Derivation.Derive(inputs);
            foreach (var (code, metres) in week.InPlace[day - 1])
            {
                var quantity = record.Quantities.Single(quantity => quantity.Code == code && quantity.Kind == QuantityKind.PlanLength);
                // Noise across a run bends it from shot to shot and makes each leg longer by u²/step, u per axis: that is in no first-order uncertainty.
                const double step = 1.5, u = 0.009;
                var bent = metres / step * u * u / step;
                Assert.True(Math.Abs(quantity.Value - metres - bent) < 3 * quantity.U, $"seed {seed}, day {day}, {code}: {quantity.Value:0.000} m for {metres:0.000} m, u {quantity.U:0.000} m");
            }
        }

        var truth = week.Again.Select(again => (again.Day, Key: $"{again.Code}/{again.Label}@{again.Crew}", again.As)).OrderBy(again => again.Key).ToArray();
        Assert.Equal(truth.Select(again => (again.Key, again.As)), decided.OrderBy(said => said.Run).Select(said => (said.Run, said.As)));
        var last = Derivation.Derive(inputs);
        Assert.Equal([FormerAs.Superseded, FormerAs.Check, FormerAs.Removed], last.Former.All.OrderBy(former => former.Batch).ThenBy(former => former.As).Select(former => former.As).OrderBy(how => how == FormerAs.Superseded ? 0 : how == FormerAs.Check ? 1 : 2));
        Assert.Equal(1, Enumerable.Range(0, last.Runs.Count).Count(run => last.Runs[run].Label == SampleWeek.Met));
        Assert.Equal(21, last.Runs.Count);
        Assert.Empty(last.Unresolved);
        Assert.Empty(Offered(last));
        var stops = Enumerable.Range(0, last.Findings.Count).Select(number => last.Findings[number]).Where(finding => finding.Severity == Severity.Stop).Select(finding => finding.Message).ToArray();
        Assert.True(stops.Length == 0, $"seed {seed}: {string.Join("\n", stops.Take(5))}");
        var looks = Enumerable.Range(0, last.Findings.Count).Count(number => last.Findings[number] is { Severity: Severity.Look, Under: null });
        Assert.True(looks <= 0.02 * week.Shots, $"seed {seed}: {looks} looks");
    });

    private static RecordInputs Empty(SampleWeek week) => SampleInputs.Of(new(week.Name, [], week.Control, week.Codes, [], [], []));

    private static RecordInputs Take(RecordInputs inputs, SampleFile file)
    {
        var intake = new ShotsCsvReader().Read(Encoding.UTF8.GetBytes(file.Text), new(file.Name, file.Crew, default), inputs.Shots);
        return inputs with { Shots = intake.Shots ?? throw new InvalidOperationException(string.Join('\n', intake.Remarks)) };
    }

    /// <summary>What the program asks of a person, and answers if he says yes; where somebody knows that the old one was dug out, he says replaces.</summary>
    private static RecordInputs Decide(RecordInputs inputs, SampleWeek week, int day, List<LabelDecided> decided)
    {
        for (var asked = 0; asked < 20 && Offered(Derivation.Derive(inputs)) is [var change, ..]; asked++)
        {
            if (change is LabelDecided said)
            {
                if (week.Again.Any(again => again.Day == day && said.Run.Contains("/" + again.Label + "@" + again.Crew, StringComparison.Ordinal) && again.As == LabelAgain.Replaces)) change = said with { As = LabelAgain.Replaces };
                decided.Add((LabelDecided)change);
            }

            inputs = inputs.Then(change);
        }

        return inputs;
    }

    private static ImmutableArray<Change> Offered(AsBuiltRecord record) =>
    [
        .. Enumerable.Range(0, record.Findings.Count).Select(number => record.Findings[number])
            .Where(finding => finding.Under is null).Select(finding => finding.Correction).Where(change => change is LabelDecided or ValuesDecided or RunJoined).Cast<Change>(),
    ];
}
