using System.Globalization;
using System.Text;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

/// <summary>Shots of which every measure can be taken: straights, arcs through three and more, a corner, crossings, a ring, a surface; two sessions.</summary>
internal static class MeasureScene
{
    private static readonly (string Id, double East, double North, double Height, string Line)[] North =
    [
        ("a0", 0, 0, 5, "EDGE A"), ("a1", 8, 0.5, 4.9, "EDGE A"), ("a2", 14, 0, 4.85, "EDGE A"), ("a3", 17.5, 1.5, 4.8, "EDGE A through"),
        ("a4", 19, 5, 4.72, "EDGE A"), ("a5", 19.5, 12, 4.6, "EDGE A"), ("a6", 20.5, 15.5, 4.55, "EDGE A through"), ("a7", 23, 18, 4.5, "EDGE A through"),
        ("a8", 26.5, 19, 4.45, "EDGE A"), ("a9", 34, 19.5, 4.3, "EDGE A"),
        ("g0", 40, 0, 5, "ISLAND G"), ("g1", 48, 0, 5, "ISLAND G"), ("g2", 51, 3, 5, "ISLAND G through"), ("g3", 48, 6, 5, "ISLAND G"), ("g4", 40, 6, 5, "ISLAND G home"),
        ("p0", 4, 1.5, 5.4, "GROUND"), ("p1", 16, 3.5, 5.3, "GROUND"), ("p2", 20.2, 18.2, 5.1, "GROUND"),
    ];

    private static readonly (string Id, double East, double North, double Height, string Line)[] South =
    [
        ("b0", 10, -8, 3.4, "EDGE B"), ("b1", 11, -1, 3.5, "EDGE B"), ("b2", 12.5, 6, 3.7, "EDGE B"),
        ("d0", 30, 0, 5, "EDGE D"), ("d1", 35, 0, 5.1, "EDGE D"), ("d2", 35, 5, 5.2, "EDGE D"),
        ("e0", 17, 18, 5, "EDGE E"), ("e1", 22, 23, 5.1, "EDGE E"),
        ("f0", 14, 4, 3.8, "EDGE F"), ("f1", 21, 1, 3.9, "EDGE F"),
        ("p3", 35.5, 20.3, 5, "GROUND"), ("p4", 36, -1.2, 5, "GROUND"), ("s0", 14, -3, 6, "GROUND"), ("s1", 24, 2, 6.2, "GROUND"), ("s2", 15, 9, 6.1, "GROUND"),
    ];

    public static int Count { get; } = North.Length + South.Length;

    public static IEnumerable<string> Ids => North.Concat(South).Select(shot => shot.Id);

    /// <summary>Row of a shot.</summary>
    public static int Row(string id)
    {
        var row = Array.FindIndex([.. North, .. South], shot => shot.Id == id);
        return row >= 0 ? row : throw new ArgumentException(id, nameof(id));
    }

    /// <summary>The record of the scene turned by an angle, each coordinate moved: east, north, height by row.</summary>
    public static AsBuiltRecord Of(double turn, ReadOnlySpan<double> moves)
    {
        var (text, row) = (new StringBuilder(), 0);
        var (sin, cos) = Math.SinCos(turn);
        text.AppendLine("--- North");
        foreach (var shot in North) Add(shot, moves);
        text.AppendLine("--- South");
        foreach (var shot in South) Add(shot, moves);
        return Derivation.Derive(ShotsOf.Lines(text.ToString()));

        void Add((string Id, double East, double North, double Height, string Line) shot, ReadOnlySpan<double> by)
        {
            var (east, north) = (cos * shot.East - sin * shot.North, sin * shot.East + cos * shot.North);
            var height = shot.Height + by[3 * row + 2];
            text.AppendLine(CultureInfo.InvariantCulture, $"{shot.Id} {east + by[3 * row]:R} {north + by[3 * row + 1]:R} {height:R} {shot.Line}");
            row++;
        }
    }

    public static AsBuiltRecord AsDrawn { get; } = Of(0, new double[3 * Count]);

    public static Run Run(this AsBuiltRecord record, string label) =>
        Enumerable.Range(0, record.Runs.Count).Select(number => record.Runs[number]).Single(run => run.Label == label);

    /// <summary>Every measure by name, some in several places.</summary>
    public static IReadOnlyDictionary<string, Func<AsBuiltRecord, ShotMeasure?>> Measures { get; } = new Dictionary<string, Func<AsBuiltRecord, ShotMeasure?>>
    {
        ["height difference"] = record => Record.Measures.HeightDifference(record.Shots, Row("a0"), Row("b1")),
        ["plan distance"] = record => Record.Measures.PlanDistance(record.Shots, Row("a0"), Row("b1")),
        ["slope distance"] = record => Record.Measures.SlopeDistance(record.Shots, Row("a0"), Row("p0")),
        ["length in plan"] = record => ShotMeasure.Of(record.Run("A"), QuantityKind.PlanLength),
        ["length on the slope"] = record => ShotMeasure.Of(record.Run("A"), QuantityKind.SlopeLength),
        ["area"] = record => ShotMeasure.Of(record.Run("G"), QuantityKind.Area),
        ["fall of a straight leg"] = record => Record.Measures.Fall(record.Run("A"), 0, 1),
        ["fall within an arc"] = record => Record.Measures.Fall(record.Run("A"), 2, 3),
        ["fall between through-shots"] = record => Record.Measures.Fall(record.Run("A"), 3, 7),
        ["fall of the run"] = record => Record.Measures.Fall(record.Run("A")),
        ["change of fall at a shot"] = record => Record.Measures.Fall(record.Run("A"), 1, 2)!.Plus(Record.Measures.Fall(record.Run("A"), 0, 1)!, -1),
        ["corner"] = record => Record.Measures.TangentBreak(record.Run("A"), 0),
        ["break into an arc"] = record => Record.Measures.TangentBreak(record.Run("A"), 1),
        ["break out of an arc"] = record => Record.Measures.TangentBreak(record.Run("A"), 2),
        ["break into a best-fit arc"] = record => Record.Measures.TangentBreak(record.Run("A"), 3),
        ["break out of a best-fit arc"] = record => Record.Measures.TangentBreak(record.Run("A"), 4),
        ["break at the end of a ring"] = record => Record.Measures.TangentBreak(record.Run("G"), record.Run("G").PieceCount - 1),
        ["radius"] = record => Record.Measures.Radius(record.Run("A").Piece(2)),
        ["radius of a best fit"] = record => Record.Measures.Radius(record.Run("A").Piece(4)),
        ["sweep"] = record => Record.Measures.Sweep(record.Run("A").Piece(2)),
        ["offset from a straight"] = record => Record.Measures.Offset(record.Run("A"), Row("p0")),
        ["offset from an arc"] = record => Record.Measures.Offset(record.Run("A"), Row("p1")),
        ["offset from a best-fit arc"] = record => Record.Measures.Offset(record.Run("A"), Row("p2")),
        ["offset beyond an end"] = record => Record.Measures.Offset(record.Run("A"), Row("p3")),
        ["offset at a corner"] = record => Record.Measures.Offset(record.Run("D"), Row("p4")),
        ["chainage on a straight"] = record => Record.Measures.Chainage(record.Run("A"), Row("p0")),
        ["chainage on an arc"] = record => Record.Measures.Chainage(record.Run("A"), Row("p1")),
        ["chainage on a best-fit arc"] = record => Record.Measures.Chainage(record.Run("A"), Row("p2")),
        ["chainage beyond an end"] = record => Record.Measures.Chainage(record.Run("A"), Row("p3")),
        ["chainage at a corner"] = record => Record.Measures.Chainage(record.Run("D"), Row("p4")),
        ["height above a straight"] = record => Record.Measures.HeightAbove(record.Run("A"), Row("p0")),
        ["height above an arc"] = record => Record.Measures.HeightAbove(record.Run("A"), Row("p1")),
        ["height above a best-fit arc"] = record => Record.Measures.HeightAbove(record.Run("A"), Row("p2")),
        ["height above an end"] = record => Record.Measures.HeightAbove(record.Run("A"), Row("p3")),
        ["cover below one shot"] = record => Record.Measures.Cover(record.Run("A"), CoverAt(record), [Row("p1")], 0.11),
        ["cover below two shots"] = record => Record.Measures.Cover(record.Run("A"), CoverAt(record), [Row("s0"), Row("s2")], 0.11),
        ["cover below three shots"] = record => Record.Measures.Cover(record.Run("A"), CoverAt(record), [Row("s0"), Row("s1"), Row("s2")], 0.11),
        ["separation at an arc"] = record => Record.Measures.Separation(record.Run("A"), record.Run("E"), 0.2),
        ["separation of ends"] = record => Record.Measures.Separation(record.Run("D"), record.Run("F"), 0.2),
        ["gap of straights"] = record => GapOf(record, "A", "B"),
        ["gap of an arc and a straight"] = record => GapOf(record, "A", "F"),
    };

    /// <summary>A third along the arc: the place that keeps its share of it.</summary>
    private static double CoverAt(AsBuiltRecord record) => record.Run("A").Chainages[2] + record.Run("A").Piece(2).PlanLength / 3;

    private static ShotMeasure? GapOf(AsBuiltRecord record, string upper, string lower)
    {
        var (over, under) = (record.Run(upper), record.Run(lower));
        var at = over.Path.Intersections(under.Path, 1e-6);
        return at.Length == 1 ? Record.Measures.Gap(over, under, at[0], 0.3) : null;
    }

}
