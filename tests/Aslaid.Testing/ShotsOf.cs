using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Aslaid.Geometry;
using Aslaid.Record;

namespace Aslaid.Testing;

/// <summary>
/// Makes the inputs of a record from a few lines, one a shot: <c>id east north height code [run] [leg] [name=value …]</c>.
/// East and north count from <see cref="East"/> and <see cref="North"/>; <c>-</c> leaves a cell empty, and a row without
/// coordinates uses a known id again. A line <c>--- Crew</c> begins the next batch, a day later. Shots follow each other by a minute and
/// carry the accuracy of a good receiver unless the line says otherwise.
/// </summary>
/// <remarks>Names: <c>u_plan</c>, <c>u_height</c>, <c>time</c> (hours and minutes of 10 March 2026); <c>pole</c>, <c>tilt</c>, <c>sats</c>, <c>pdop</c> and <c>epochs</c> are
/// columns of numbers; any other is a text column.</remarks>
public static class ShotsOf
{
    /// <summary>Metres, where east counts from.</summary>
    public const double East = 512_000;

    /// <summary>Metres, where north counts from.</summary>
    public const double North = 6_243_000;

    private static readonly DateTime Morning = new(2026, 3, 10, 7, 30, 0, DateTimeKind.Utc);

    /// <summary>Codes as tests need them: limits in round figures, none of them a recommendation.</summary>
    public static CodeBook Codes { get; } = new(
    [
        new("CONTROL", CodeKind.Control),
        new("GROUND", CodeKind.Point) { Plan95Max = 0.05, Height95Max = 0.05 },
        new("LAMP-COLUMN", CodeKind.Point) { Plan95Max = 0.1, Height95Max = 0.1, TolerancePlan = 0.1 },
        new("CHAMBER", CodeKind.Point) { Service = "power", Plan95Max = 0.05, Height95Max = 0.05, NeedsProof = true },
        new("DUCT", CodeKind.Line)
        {
            Service = "power", Plan95Max = 0.05, Height95Max = 0.05, SpacingMax = 10, SagittaMax = 0.025, RadiusMin = 1, RadiusMax = 100,
            TolerancePlan = 0.1, ToleranceHeight = 0.1, EndReach = 1, EndsOn = ["CHAMBER", "DUCT"], NeedsProof = true,
        },
        new("KERB", CodeKind.Line)
        {
            Plan95Max = 0.05, Height95Max = 0.05, SpacingMax = 10, SagittaMax = 0.01, RadiusMin = 2, RadiusMax = 150, TolerancePlan = 0.05,
            ToleranceHeight = 0.05, EndReach = 0.5,
        },
        new("ISLAND", CodeKind.Area) { Plan95Max = 0.05, SpacingMax = 10, RadiusMin = 0.4, RadiusMax = 50, Closes = true },
        new("EDGE", CodeKind.Line),
    ]);

    /// <summary>The default ones, but that stated accuracy counts as it is stated: a few lines have no check shots to prove it.</summary>
    public static Settings Settings { get; } = Settings.Default with { FactorUnproven = 1 };

    /// <summary>Inputs with these shots, the codes of <see cref="Codes"/>, no control and <see cref="Settings"/>.</summary>
    public static RecordInputs Lines(string lines)
    {
        var builder = new ShotTableBuilder();
        var known = new Dictionary<string, int>(StringComparer.Ordinal);
        var (crew, firstRow, line, batch) = ((string?)null, 0, 1, 0);
        foreach (var text in lines.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            if (text.StartsWith("---", StringComparison.Ordinal))
            {
                EndBatch();
                (crew, firstRow, line) = (text[3..].Trim(), builder.Count, 1);
                continue;
            }

            Add(builder, known, text.Split(' ', StringSplitOptions.RemoveEmptyEntries), ++line, Morning.AddDays(batch));
        }

        EndBatch();
        return new(builder.Build(), [], Codes, [], Settings);

        void EndBatch()
        {
            if (builder.Count > firstRow) builder.EndBatch(string.Create(CultureInfo.InvariantCulture, $"shots-{++batch}.csv"), "", firstRow, crew, default);
            known.Clear();
        }
    }

    private static void Add(ShotTableBuilder builder, Dictionary<string, int> known, string[] cells, int line, DateTime morning)
    {
        var names = cells.Where(c => c.Contains('=', StringComparison.Ordinal)).Select(c => c.Split('=')).ToDictionary(c => c[0], c => c[1].Replace('_', ' '));
        var plain = cells.Where(c => !c.Contains('=', StringComparison.Ordinal)).ToArray();
        var (id, again) = (plain[0], plain[1] == "-" ? known[plain[0]] : -1);
        var leg = plain.Length > 6 && plain[6] != "-" ? Enum.Parse<Leg>(plain[6], ignoreCase: true) : Leg.Straight;
        var time = names.TryGetValue("time", out var hour) && hour != "-"
            ? Morning.Date + TimeSpan.Parse(hour, CultureInfo.InvariantCulture)
            : morning.AddMinutes(line);
        var row = builder.Add(
            Encoding.UTF8.GetBytes(id), Number(plain[1]) + East, Number(plain[2]) + North, Number(plain[3]),
            builder.Codes.Keep(plain[4]), builder.Labels.Keep(plain.Length > 5 && plain[5] != "-" ? plain[5] : null), leg, line, again,
            hour == "-" ? long.MinValue : time.Ticks, 0, Number(names.GetValueOrDefault("u_plan", "0.012")), Number(names.GetValueOrDefault("u_height", "0.015")));
        if (again < 0) known.TryAdd(id, row);
        foreach (var (name, value) in names)
        {
            if (name is "pole" or "tilt" or "sats" or "pdop" or "epochs") builder.NumberColumn(name)[row] = Number(value);
            else if (name is not ("time" or "u_plan" or "u_height")) builder.TextColumn(name)[row] = builder.Texts.Keep(value);
        }
    }

    private static double Number(string cell) => cell == "-" ? double.NaN : double.Parse(cell, CultureInfo.InvariantCulture);

    /// <summary>The same with another entry in the journal.</summary>
    public static RecordInputs Then(this RecordInputs inputs, Change change) => inputs with
    {
        Journal = inputs.Journal.Add(new(inputs.Journal.Length + 1, new(Morning.AddDays(1), TimeSpan.Zero), Actor.Typed("Test engineer"), "test", change)),
    };

    /// <summary>The same with control points: id, east, north, height from the same origin.</summary>
    public static RecordInputs WithControl(this RecordInputs inputs, params ReadOnlySpan<(string Id, double East, double North, double Height)> points)
    {
        var control = ImmutableArray.CreateBuilder<ControlPoint>();
        foreach (var (id, east, north, height) in points) control.Add(new(id, new Point2(East + east, North + north), height, 0.005, 0.004));
        return inputs with { Control = control.ToImmutable() };
    }

    /// <summary>The findings of one check.</summary>
    public static ImmutableArray<Finding> Find(this RecordInputs inputs, string check)
    {
        var record = Derivation.Derive(inputs);
        if (!record.Unresolved.IsEmpty) throw new InvalidOperationException(string.Join(' ', record.Unresolved));
        return [.. Enumerable.Range(0, record.Findings.Count).Select(number => record.Findings[number]).Where(finding => finding.Check.Name == check)];
    }
}
