using System.Text;
using Aslaid.Exchange;
using Aslaid.Geometry;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Tests;

/// <summary>Code book, control, delivery table and settings: what is written comes back, and what is wrong is named.</summary>
public sealed class SmallTablesTests
{
    private static ReadOnlyMemory<byte> Bytes(string text) => Encoding.UTF8.GetBytes(text);

    private static string[] Messages<T>(TableIntake<T> intake)
        where T : class
    {
        Assert.Null(intake.Value);
        return [.. intake.Rejected.Select(r => r.Message("f"))];
    }

    [Fact]
    public void CodeBook_DefaultBook_IsReadWithoutRemark()
    {
        var intake = CodeBookCsv.Read(Bytes(SampleSites.Clean(1).Codes));
        Assert.Empty(intake.Rejected);
        Assert.Empty(intake.Remarks);
        var main = intake.Value!["WATER-MAIN"]!;
        Assert.Equal((CodeKind.Line, "top", 0.2, 0.75, true), (main.Kind, main.MeasuredAt, main.OutsideDiameter, main.CoverMin, main.NeedsProof));
        Assert.Equal(["WATER-VALVE", "WATER-HYDRANT", "WATER-MAIN"], main.EndsOn);
        Assert.Null(main.Wall);
    }

    [Fact]
    public void CodeBook_EveryPropertyWritten_ComesBack() => ShotsText.UnderCulture("de-DE", () =>
    {
        var full = new CodeEntry("KERB-BACK", CodeKind.Area)
        {
            Name = "Kerb, \"back\"", Group = "=kerbs", Service = "roads", MeasuredAt = "back", OutsideDiameter = 0.1, Wall = 0.011, Width = 0.125, Depth = 0.255,
            TolerancePlan = 0.02, ToleranceHeight = 0.01, ToleranceHigh = 1 / 3.0, ToleranceLow = 0.005, Plan95Max = 0.03, Height95Max = 0.02,
            SpacingMax = 10, SagittaMax = 0.006, RadiusMin = 0.5, RadiusMax = 2000, TangentBreakMaxDegrees = 3.5, Closes = true, FallMinPercent = 0.4,
            CoverMin = 0, EndReach = 0.3, EndsOn = ["GULLY", "KERB-BACK"], NeedsProof = true, PhotoEvery = 12.5, Releases = "site engineer", PayItem = "-12", Colour = "pink",
            Line = "thin", Symbol = "@ring", Layer = "kerb", Source = "'=default",
        };
        var read = CodeBookCsv.Read(CodeBookCsv.Write(new([full, new("GULLY", CodeKind.Point)]))).Value!;
        Assert.Equal(full with { EndsOn = [] }, read.Entries[0] with { EndsOn = [] });
        Assert.Equal(full.EndsOn, read.Entries[0].EndsOn);
        Assert.Equal(new CodeEntry("GULLY", CodeKind.Point), read.Entries[1] with { EndsOn = [] });
        foreach (var property in typeof(CodeEntry).GetProperties().Where(p => p.Name != "EqualityContract"))
            Assert.True(property.GetValue(full) is not (null or false), $"{property.Name} is not tried by this test");
    });

    [Fact]
    public void CodeBook_DecimalCommaFromASpreadsheet_IsRead() =>
        Assert.Equal(0.05, CodeBookCsv.Read(Bytes("code;kind;tol_plan_m\nDUCT;Line;0,05\n")).Value!["DUCT"]!.TolerancePlan);

    [Fact]
    public void CodeBook_WrongCells_AreNamed() => Assert.Equal(
        [
            "f line 2, kind: 'pipe' is no kind; point, line, area, control was expected.",
            "f line 3, measured_at: 'bottom' is no place that is measured; top, centre, invert, soffit, underside, ground, channel, face, back, lip or nothing was expected.",
            "f line 3, od_m: '-0.1' is not plausible; a length from 0 to 1000000 m was expected.",
            "f line 4, code: 'DUCT' stands in line 2 already; each name once was expected: rename or remove one.",
            "f line 5, closes: 'maybe' is neither yes nor no; yes, no or nothing was expected.",
            "f line 6, code: 'WATER MAIN' holds a space or a slash; a code of letters, digits and hyphens such as WATER-MAIN was expected.",
            "f line 7, radius_min_m: '5' is larger than radius_max_m of the same code; exchange the two.",
        ],
        Messages(CodeBookCsv.Read(Bytes("""
            code,kind,measured_at,od_m,closes,radius_min_m,radius_max_m
            DUCT,pipe,,,,,
            PIPE,line,bottom,-0.1,,,
            DUCT,line,,,,,
            KERB,line,,,maybe,,
            WATER MAIN,line,,,,,
            LANE,line,,,,5,4
            """))));

    [Fact]
    public void CodeBook_UnknownColumnAndEnd_AreRemarked() => Assert.Equal(
        ["Column tol_plan is unknown here and was not read.", "DUCT may end on CHAMBER, which is no code of this book."],
        CodeBookCsv.Read(Bytes("code,kind,tol_plan,ends_on\nDUCT,line,5,CHAMBER\n")).Remarks);

    [Fact]
    public void CodeBook_OnlyCodeAndKind_AreNeeded() => Assert.Equal(
        ["f line 1, kind: the header has no such column; it has code, name, and code, kind are needed."],
        Messages(CodeBookCsv.Read(Bytes("code,name\nDUCT,Duct\n"))));

    [Fact]
    public void Control_Written_ComesBack() => ShotsText.UnderCulture("de-DE", () =>
    {
        ControlPoint[] points =
        [
            new("M1", new Point2(512000.0001, 6243000.1 + 0.2), 101.25, 0.004, 0.006),
            new("=M2", new Point2(512100, 6243100), null, null, null),
        ];
        Assert.Equal(points, ControlCsv.Read(ControlCsv.Write(points)).Value!.Points);
    });

    [Fact]
    public void Control_OfTheSample_IsRead() => Assert.NotEmpty(ControlCsv.Read(Bytes(SampleSites.Clean(1).Control)).Value!.Points);

    [Fact]
    public void Control_WrongCells_AreNamed() => Assert.Equal(
        [
            "f line 2, north: the cell is empty; a number of metres such as 512345.678 was expected.",
            "f line 3, id: the cell is empty; a name was expected.",
            "f line 5, id: 'M3' stands in line 4 already; each name once was expected: rename or remove one.",
        ],
        Messages(ControlCsv.Read(Bytes("id,east,north,height\nM1,512000,,5\n,512000,6243000,5\nM3,512000,6243000,5\nM3,512000,6243000,5\n"))));

    [Fact]
    public void Delivery_EveryPropertyWritten_ComesBack() => ShotsText.UnderCulture("de-DE", () =>
    {
        DeliveryItem[] items =
        [
            new("DUCT", "material", true) { Words = ["PE", "=PVC", "ductile iron"], Layer = "w_mains", Field = "@mat" },
            new("DUCT", "size", false) { Least = -0.1, Most = 1 / 3.0 },
            new("CHAMBER", "material", false),
        ];
        var read = DeliveryCsv.Read(DeliveryCsv.Write(new([.. items]))).Value!.Items;
        Assert.Equal(items.Select(item => item with { Words = [] }), read.Select(item => item with { Words = [] }));
        Assert.Equal(items.SelectMany(item => item.Words), read.SelectMany(item => item.Words));
    });

    [Fact]
    public void Delivery_OnlyCodeAndAttribute_AreNeeded() => Assert.Equal(
        new DeliveryItem("DUCT", "material", false) with { Words = [] }, Assert.Single(DeliveryCsv.Read(Bytes("attribute;code\nmaterial;DUCT\n")).Value!.Items) with { Words = [] });

    [Fact]
    public void Delivery_WrongCells_AreNamed() => Assert.Equal(
        [
            "f line 2, code: the cell is empty; a code of the code book was expected.",
            "f line 3, required: 'maybe' is neither yes nor no; yes, no or nothing was expected.",
            "f line 4, allowed: '2.0..0.1' is no range; two numbers with decimal points, the smaller first, were expected, such as 0.1..2.0.",
            "f line 5, allowed: 'a..b' is no range; two numbers with decimal points, the smaller first, were expected, such as 0.1..2.0.",
            "f line 6, allowed: 'PE||PVC' has an empty value between bars; values such as PE|PVC, or a range such as 0.1..2.0, were expected.",
            "f line 7, allowed: 'PE|PE' names a value twice; each value once was expected.",
            "f line 9, attribute: 'b' stands for A in line 8 already; each attribute of a code once was expected: remove one.",
            "f line 10, attribute: the cell is empty; the name of an attribute was expected.",
        ],
        Messages(DeliveryCsv.Read(Bytes("code,attribute,required,allowed\n,a,,\nA,c,maybe,\nA,d,,2.0..0.1\nA,e,,a..b\nA,f,,PE||PVC\nA,g,,PE|PE\nA,b,,\nA,b,,\nA,,,\n"))));

    [Fact]
    public void Delivery_HeaderOnlyOrUnknownColumn_IsNamed()
    {
        Assert.Equal(["f: the file has a header but no rows; an attribute of a code a line was expected below it."], Messages(DeliveryCsv.Read(Bytes("code,attribute\n"))));
        Assert.Equal(["Column colour is unknown here and was not read."], DeliveryCsv.Read(Bytes("code,attribute,colour\nA,b,red\n")).Remarks);
    }

    [Fact]
    public void Settings_Different_NamesWhatIsNotTheProgramsOwn()
    {
        Assert.Empty(SettingsText.Different(Settings.Default));
        Assert.Equal(["control_plan_max_m = 5", "guard_band_share = 0"], SettingsText.Different(Settings.Default with { ControlPlanMax = 5, GuardBand = 0 }));
    }

    [Fact]
    public void Settings_EveryPropertyWritten_ComesBack() => ShotsText.UnderCulture("de-DE", () =>
    {
        var numbers = typeof(Settings).GetProperties().Where(p => p.PropertyType == typeof(double)).ToList();
        Assert.Equal(numbers.Count + 1, SettingsText.Names.Length); // a new setting needs its name
        var settings = Settings.Default with { CoordinateSystem = "EPSG:25832" };
        foreach (var (property, place) in numbers.Select((property, place) => (property, place))) property.SetValue(settings, Other((double)property.GetValue(settings)!, place));
        Assert.Equal(settings, SettingsText.Read(SettingsText.Write(settings)).Value);
        Assert.Equal(Settings.Default, SettingsText.Read(SettingsText.Write(Settings.Default)).Value);

        static double Other(double value, int place) => value == 0 ? place / 100.0 : value * (1 - (place + 1) / 1700.0); // within the bounds of every setting
    });

    [Fact]
    public void Settings_CommentsAndBlankLines_ArePassedOver()
    {
        var settings = SettingsText.Read(Bytes("# Marlhithe Interchange\r\n\r\n  Gap_Distance_M = 45.5   # agreed on site\r\ncoordinate_system = LOCAL_CS[\"Site #1\"] # ours\r\n")).Value!;
        Assert.Equal(Settings.Default with { GapDistance = 45.5, CoordinateSystem = "LOCAL_CS[\"Site #1\"]" }, settings);
    }

    [Fact]
    public void Settings_WrongLines_AreNamed() => Assert.Equal(
        [
            "f line 1: 'gap_distance' is no setting; gap_distance_m is the nearest name.",
            "f line 2: 'gap_minutes 90' is no setting; a name, an equals sign and a value such as gap_distance_m = 60 were expected.",
            "f line 3, same_place_m: 'near' is not a number; a number of metres such as 0.05 was expected.",
            "f line 4, gap_minutes: has no value; a number of minutes such as 90 was expected.",
            "f line 6, lone_distance_m: line 5 has set it already; each name once was expected: remove one.",
            "f line 7, session_u_plan_m: '0,01' has a decimal comma; a decimal point was expected.",
        ],
        Messages(SettingsText.Read(Bytes("gap_distance = 60\ngap_minutes 90\nsame_place_m = near\ngap_minutes =\nlone_distance_m = 90\nlone_distance_m = 80\nsession_u_plan_m = 0,01\n"))));

    // The characters: OWASP, "CSV Injection".
    [Theory]
    [InlineData("=1+1", "'=1+1")]
    [InlineData("@here", "'@here")]
    [InlineData("+49 tel", "'+49 tel")]
    [InlineData("-5 m", "'-5 m")]
    [InlineData("\tx", "'\tx")]
    [InlineData("\rx", "'\rx")]
    [InlineData("'=x", "''=x")]
    [InlineData("-5.25", "-5.25")]
    [InlineData("+1e3", "+1e3")]
    [InlineData("'tis", "'tis")]
    [InlineData("DUCT", "DUCT")]
    [InlineData("", "")]
    public void Safe_Text_CannotBeAFormula(string text, string safe) => Assert.Equal(safe, Csv.Safe(text));
}
