using System.Globalization;
using System.Text;
using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;

namespace Aslaid.Tests;

/// <summary>Records to hand over, made without any reader: the small one has what formats stumble on, the large one is the sample site.</summary>
internal static class ExchangeSite
{
    public static readonly CodeBook Codes = CodesOf(
        "code,kind,colour,line,layer,pay_item\n" +
        "WATER-MAIN,line,blue,thick,water-main,W-110\n" +
        "ISLAND-KERB,area,grey,edge,,K-120\n" +
        "TREE-PIT,area,grey,dashed,,L-110\n" +
        "GAS-RECORD,line,yellow,long-two-short,,\n" +
        "LAMP-COLUMN,point,red,,lamp/column,F-110\n");

    /// <summary>A main with an arc, an island of a straight and an arc, two circles (three shots, and a best fit through five), a run without heights, points.</summary>
    public static Handover Small(string? coordinateSystem = null)
    {
        var b = new Rows();
        b.Add("1", 0, 0, 5.0, "WATER-MAIN", "WM-1");
        b.Add("2", 10, 0, 5.1, "WATER-MAIN", "WM-1");
        b.Add("3", 10 + 10 / Math.Sqrt(2), 10 - 10 / Math.Sqrt(2), 5.2, "WATER-MAIN", "WM-1", Leg.Through); // R 10 to the left, a quarter
        b.Add("4", 20, 10, 5.3, "WATER-MAIN", "WM-1");
        b.Add("5", 20, 30, 5.4, "WATER-MAIN", "WM-1");
        var start = b.Add("10", 40, 0, 6, "ISLAND-KERB", "I-1");
        b.Add("11", 40, 6, 6, "ISLAND-KERB", "I-1");
        b.Add("12", 43, 3, 6, "ISLAND-KERB", "I-1", Leg.Through); // half a circle back, to the right
        b.Add("10", double.NaN, double.NaN, double.NaN, "ISLAND-KERB", "I-1", again: start);
        start = b.Add("20", 61, 0, 6, "TREE-PIT", "T-1");
        b.Add("21", 60, 1, 6, "TREE-PIT", "T-1", Leg.Through);
        b.Add("22", 60, -1, 6, "TREE-PIT", "T-1", Leg.Through);
        b.Add("20", double.NaN, double.NaN, double.NaN, "TREE-PIT", "T-1", again: start);
        start = b.Add("30", 71.004, 0, 6, "TREE-PIT", "T-2");
        b.Add("31", 70.309, 0.951, 6, "TREE-PIT", "T-2", Leg.Through);
        b.Add("32", 69.191, 0.588, 6, "TREE-PIT", "T-2", Leg.Through);
        b.Add("33", 69.189, -0.586, 6, "TREE-PIT", "T-2", Leg.Through);
        b.Add("34", 70.309, -0.953, 6, "TREE-PIT", "T-2", Leg.Through);
        b.Add("30", double.NaN, double.NaN, double.NaN, "TREE-PIT", "T-2", again: start);
        b.Add("40", 0, -10, double.NaN, "GAS-RECORD", "G-1", uPlan: double.NaN);
        b.Add("41", 30, -10, 4, "GAS-RECORD", "G-1", uPlan: double.NaN);
        b.Add("=1+1", 5, 5, 6.2, "LAMP-COLUMN", note: "–5 m from the hedge, “näher”");
        b.Add("-7", 6, 5, double.NaN, "LAMP-COLUMN", note: "@mast\nsecond line");
        b.Add("52", 7, 5, 6.2, "LAMP-COLUMN");
        b.Add("60", 80, 80, 5, "LAMP-COLUMN");
        b.Add("61", 80, 90, 5, "unknown thing", "U-1");
        b.Add("62", 85, 95, 5, "unknown thing", "U-1");
        var journal = new JournalEntry(1, At, Actor.Typed("North engineer"), "a trial", new SetAside([new(1, b.LineOf("52"))]));
        return Of(b.Build("North"), Codes, coordinateSystem, journal);
    }

    /// <summary>Points at these heights.</summary>
    public static Handover OfHeights(IReadOnlyList<double> heights)
    {
        var b = new Rows();
        for (var i = 0; i < heights.Count; i++) b.Add(i.ToString(CultureInfo.InvariantCulture), 10 * i, 0, heights[i], "LAMP-COLUMN");
        return Of(b.Build("North"), Codes, null);
    }

    /// <summary>The sample site, all files.</summary>
    public static Handover Sample(SampleSite site)
    {
        var b = new Rows();
        foreach (var file in site.Shots)
        {
            foreach (var row in SampleRow.Of(file))
            {
                double Number(string column) => row[column].Length == 0 ? double.NaN : row.Number(column);
                b.Add(row["id"], row.Again ? double.NaN : Number("east") - East, row.Again ? double.NaN : Number("north") - North, Number("height"), row["code"],
                    row["run"].Length == 0 ? null : row["run"], Enum.TryParse<Leg>(row["leg"], true, out var leg) ? leg : Leg.Straight,
                    again: row.Again ? b.Find(row["id"]) : -1, uPlan: Number("u_plan"), uHeight: Number("u_height"), note: row["note"]);
            }

            b.End(file.Name, file.Crew);
        }

        return Of(b.Table(), CodesOf(site.Codes), null);
    }

    private const double East = 512_000;
    private const double North = 6_243_000;
    private static readonly DateTimeOffset At = new(2031, 5, 6, 14, 30, 0, TimeSpan.FromHours(2));

    private static Handover Of(ShotTable shots, CodeBook codes, string? coordinateSystem, params JournalEntry[] journal) => new(
        Derivation.Derive(new(shots, [.. journal], codes, [], ShotsOf.Settings with { CoordinateSystem = coordinateSystem })),
        "Marlhithe Interchange", 1, "0123456789abcdef", At, "North engineer");

    private static CodeBook CodesOf(string csv)
    {
        return new([.. CsvCells.Rows(csv).Select(row => new CodeEntry(row["code"], Enum.Parse<CodeKind>(row["kind"], true))
        {
            Colour = Given(row, "colour"), Line = Given(row, "line"), Layer = Given(row, "layer"), PayItem = Given(row, "pay_item"),
        })]);

        static string? Given(IReadOnlyDictionary<string, string> row, string column) => row[column].Length == 0 ? null : row[column];
    }

    private sealed class Rows
    {
        private readonly ShotTableBuilder builder = new();
        private readonly List<string> ids = [];
        private int first;
        private int line = 1;

        public int Add(
            string id, double east, double north, double height, string code, string? run = null, Leg leg = Leg.Straight, int again = -1,
            double uPlan = 0.012, double uHeight = 0.015, string? note = null)
        {
            ids.Add(id);
            var row = builder.Add(Encoding.UTF8.GetBytes(id), East + east, North + north, height, builder.Codes.Keep(code), builder.Labels.Keep(run),
                leg, ++line, again, At.UtcTicks + line * TimeSpan.TicksPerMinute, 120, uPlan, uHeight);
            builder.TextColumn("method")[row] = builder.Texts.Keep("gnss");
            builder.TextColumn("line")[row] = builder.Texts.Keep("upper"); // an attribute of the crew's own
            builder.TextColumn("note")[row] = builder.Texts.Keep(note);
            builder.NumberColumn("pdop")[row] = 1.5;
            return row;
        }

        public int Find(string id) => ids.FindIndex(first, known => known == id);

        public int LineOf(string id) => ids.IndexOf(id) + 2;

        public void End(string file, string crew)
        {
            builder.EndBatch(file, new string('a', 64), first, crew, default);
            (first, line) = (builder.Count, 1);
        }

        public ShotTable Build(string crew)
        {
            End("shots.csv", crew);
            return Table();
        }

        public ShotTable Table() => builder.Build();
    }
}
