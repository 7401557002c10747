using System.Globalization;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

/// <summary>Laws of all checks, on sites that nobody would measure.</summary>
public class AnySiteTests
{
    private static readonly string[] Codes = ["DUCT", "DUCT", "KERB", "KERB", "ISLAND", "EDGE", "CHAMBER", "GROUND", "CONTROL", "DUKT", "QQ"];
    private static readonly string[] Legs = ["straight", "straight", "straight", "through", "through", "first", "last", "home", "alone"];
    private static readonly string[] More = ["", "", "", "u_plan=-", "u_height=-", "u_plan=0.2", "fix=float", "fix=fixed", "time=-", "time=12:00", "note=M1", "seen=records", "sats=4 pdop=6", "tilt=3", "tilt=2 pole=2", "photo=a", "depth_m=-1"];

    private static readonly Gen<string> Row = Gen.Select(
        Gen.Int[1, 20], Gen.OneOf(Gen.Int[0, 6].Select(i => i * 4.0), Gen.Double[0, 30]), Gen.OneOf(Gen.Int[0, 3].Select(i => i * 0.01), Gen.Int[0, 3].Select(i => i * 6.0)),
        Gen.OneOf(Gen.Const("5"), Gen.Const("3.5"), Gen.Const("-"), Gen.Const("0")), Gen.Int[0, Codes.Length - 1].Select(i => Codes[i]), Gen.Int[0, 3], Gen.Int[0, Legs.Length - 1].Select(i => Legs[i]), Gen.Int[0, More.Length - 1].Select(i => More[i]),
        (id, east, north, height, code, label, leg, more) => string.Create(CultureInfo.InvariantCulture, $"{id} {east:F3} {north:F3} {height} {code} {(label == 0 ? "-" : "R" + label)} {leg} {more}"));

    private static readonly Gen<RecordInputs> Site = Gen.Select(Row.Array[1, 30], Gen.Bool, Gen.Int[0, 30]).Select((rows, control, again) =>
    {
        var lines = rows.ToList();
        for (var i = 0; i < again % 4; i++)
        {
            var cells = rows[(7 * i + again) % rows.Length].Split(' ');
            lines.Add($"{cells[0]} - - - {cells[4]} {cells[5]}");
        }

        var inputs = ShotsOf.Lines(string.Join('\n', lines));
        return control ? inputs.WithControl(("M1", 0, 0, 5), ("M2", 12, 0, 5)) : inputs;
    });

    [Fact]
    public void EveryFinding_OfAnySite_CanBeTold() => Site.Sample(inputs =>
    {
        foreach (var finding in All(inputs))
        {
            Assert.All([finding.Message, finding.Cure], text => Assert.False(text.Length == 0 || text.Contains("NaN", StringComparison.Ordinal) || text.Contains('?'), text));
            Assert.NotEmpty(finding.ShotIds);
            Assert.True(double.IsFinite(finding.At.East + finding.At.North), finding.Message);
            Assert.True(finding.Measured is null or >= 0 and < double.PositiveInfinity, finding.Message);
            if (finding.Run is not { } run) continue;
            Assert.InRange(finding.From ?? 0, 0, run.PlanLength);
            Assert.InRange(finding.To ?? run.PlanLength, finding.From ?? 0, run.PlanLength);
        }
    }, iter: 2000);

    [Fact]
    public void EveryCorrection_OfAnySite_EndsItsFinding() => Site.Sample(inputs =>
    {
        foreach (var finding in All(inputs))
        {
            if (finding.Correction is not { } correction) continue;
            var after = Derivation.Derive(inputs.Then(correction));
            Assert.Empty(after.Unresolved);
            Assert.True(after.Findings.Find(finding.Id) is null, $"{finding.Message} {correction}");
        }
    }, iter: 1000);

    [Fact]
    public void Findings_OfAnySite_AreTheSameForManyWorkers() => Site.Sample(inputs =>
    {
        var (one, many) = (Derivation.Derive(inputs).Findings, Derivation.Derive(inputs, new Backwards()).Findings);
        return Enumerable.Range(0, one.Count).Select(number => one[number].Id).SequenceEqual(Enumerable.Range(0, many.Count).Select(number => many[number].Id));
    }, iter: 300);

    private static List<Finding> All(RecordInputs inputs)
    {
        var table = Derivation.Derive(inputs).Findings;
        return [.. Enumerable.Range(0, table.Count).Select(number => table[number])];
    }

    /// <summary>Parts in the other order: what they share must not depend on who asks first.</summary>
    private sealed class Backwards : IWorkers
    {
        public void Do(int parts, Action<int> part)
        {
            for (var i = parts - 1; i >= 0; i--) part(i);
        }
    }
}
