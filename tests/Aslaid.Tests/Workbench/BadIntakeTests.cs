using System.IO;
using System.Security.Cryptography;
using System.Text;

namespace Aslaid.Tests;

/// <summary>Bad files at the command line: a clear message, exit code 2, and a project file with the same bytes as before.</summary>
public sealed class BadIntakeTests
{
    private const string Head = "id,east,north,height,code,run,leg\n";

    public static TheoryData<string, byte[], string> BadFiles => new()
    {
        { "empty", [], "empty" },
        { "header-only", Utf8(Head), "no rows" },
        { "wrong-delimiter", Utf8("id|east|north|height|code\n1|512000|6243000|5|GROUND\n"), "separat" },
        { "text-in-number", Utf8(Head + "1,512000.1,6243000.2,5,2x,GROUND,,\n".Replace("5,2x", "\"5,2x\"", StringComparison.Ordinal)), "line 2, height: '5,2x'" },
        { "nan", Utf8(Head + "1,NaN,6243000.2,5,GROUND,,\n"), "line 2, east: 'NaN'" },
        { "huge", Utf8(Head + "1,512000,1e308,5,GROUND,,\n"), "line 2, north: '1e308'" },
        { "long-line", Utf8(Head + "1,512000,6243000,5,GROUND,," + new string('x', 10_000_000) + "\n"), "line 2" },
        { "nul-bytes", Utf8(Head + "1,512000,6243\0000,5,GROUND,,\n"), "line 2" },
        { "utf-16", [0xFF, 0xFE, .. Encoding.Unicode.GetBytes(Head + "1,512000,6243000,5,GROUND,,\n")], "UTF-16" },
        { "missing-column", Utf8("id,east,height,code\n1,512000,5,GROUND\n"), "north" },
        { "duplicate-column", Utf8("id,east,north,height,code,east\n1,512000,6243000,5,GROUND,1\n"), "east" },
        { "unknown-leg", Utf8(Head + "1,512000,6243000,5,DUCT,R-1,sideways\n"), "line 2, leg: 'sideways'" },
        { "through-at-start", Utf8(Head + "1,512000,6243000,5,DUCT,R-1,through\n2,512005,6243000,5,DUCT,R-1,\n"), "line 2, leg" },
        { "unknown-again", Utf8(Head + "1,512000,6243000,5,DUCT,R-1,\n999,,,,DUCT,R-1,\n"), "line 3" },
        { "group-separators", Utf8(Head + "1,\"512,000.1\",6243000,5,GROUND,,\n"), "line 2, east" },
    };

    [Theory]
    [MemberData(nameof(BadFiles), DisableDiscoveryEnumeration = true)]
    public void Take_BadFile_SaysWhatIsWrongAndChangesNothing(string name, byte[] bytes, string says)
    {
        using var folder = new TempFolder();
        CommandLine.Fine("new", folder["site.gpkg"], "--by", "Tester");
        var before = Sha256(folder["site.gpkg"]);
        var take = CommandLine.Run("take", folder["site.gpkg"], folder.Write($"{name}.csv", bytes), "--by", "Tester");
        Assert.Equal(2, take.Exit);
        Assert.Contains(says, take.Error, StringComparison.OrdinalIgnoreCase);
        Assert.Contains($"{name}.csv", take.Error, StringComparison.Ordinal);
        Assert.Contains("Nothing changed", take.Error, StringComparison.Ordinal);
        Assert.True(take.Error.Length < 20_000, "The message is too long to read.");
        Assert.Equal(before, Sha256(folder["site.gpkg"]));
    }

    [Fact]
    public void Take_SameFileAgain_SaysSoAndChangesNothing()
    {
        using var folder = new TempFolder();
        CommandLine.Fine("new", folder["site.gpkg"], "--by", "Tester");
        var shots = folder.Write("shots.csv", Head + "1,512000,6243000,5,GROUND,,\n2,512020,6243000,5,GROUND,,\n");
        CommandLine.Fine("take", folder["site.gpkg"], shots, "--by", "Tester");
        var before = Sha256(folder["site.gpkg"]);
        var again = CommandLine.Fine("take", folder["site.gpkg"], shots, "--by", "Tester");
        Assert.Contains("taken in already as batch 1", again.Out, StringComparison.Ordinal);
        Assert.Contains("Nothing changed", again.Out, StringComparison.Ordinal);
        Assert.Equal(before, Sha256(folder["site.gpkg"]));
    }

    [Fact]
    public void Take_FileFarFromTheRest_WarnsAndNamesTheLikelyCauses()
    {
        using var folder = new TempFolder();
        CommandLine.Fine("new", folder["site.gpkg"]);
        CommandLine.Fine("take", folder["site.gpkg"], folder.Write("a.csv", Head + "1,512000,6243000,5,GROUND,,\n2,512020,6243000,5,GROUND,,\n"));
        var far = CommandLine.Fine("take", folder["site.gpkg"], folder.Write("b.csv", Head + "1,6243000,512000,5,GROUND,,\n2,6243000,512020,5,GROUND,,\n"));
        Assert.Contains("east and north exchanged", far.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("0,02")]
    [InlineData("1e-2")]
    [InlineData("1.000,5")]
    public void Take_NumberWithComma_IsRefusedAndNeverReadAsThousands(string number)
    {
        using var folder = new TempFolder();
        CommandLine.Fine("new", folder["site.gpkg"]);
        var take = CommandLine.Run("take", folder["site.gpkg"], folder.Write("a.csv", Head + "1,512000,6243000,5,GROUND,,\n"), "--declare-u-plan-m", number);
        Assert.Equal(2, take.Exit);
        Assert.Contains(number, take.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Take_GoodFileThenMissingOne_SaysWhatWasTakenAndWhatWasNot()
    {
        using var folder = new TempFolder();
        CommandLine.Fine("new", folder["site.gpkg"]);
        var take = CommandLine.Run("take", folder["site.gpkg"], folder.Write("a.csv", Head + "1,512000,6243000,5,GROUND,,\n"), folder["missing.csv"], folder.Write("c.csv", Head + "9,512000,6243000,5,GROUND,,\n"));
        Assert.Equal(2, take.Exit);
        Assert.Contains("taken in as batch 1", take.Out, StringComparison.Ordinal);
        Assert.Contains("missing.csv", take.Error, StringComparison.Ordinal);
        Assert.Contains("c.csv was not tried", take.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("earlier state", CommandLine.Run("check", folder["site.gpkg"]).Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Take_WithdrawnFileWithMore_TakesAllItsRows()
    {
        using var folder = new TempFolder();
        CommandLine.Fine("new", folder["site.gpkg"]);
        const string one = "1,512000,6243000,5,GROUND,,\n";
        CommandLine.Fine("take", folder["site.gpkg"], folder.Write("a.csv", Head + one));
        CommandLine.Fine("correct", folder["site.gpkg"], "withdraw", "3", "--by", "Tester", "--why", "wrong crew");
        CommandLine.Fine("take", folder["site.gpkg"], folder.Write("b.csv", Head + one + "2,512020,6243000,5,GROUND,,\n"));
        Assert.Contains("2 points", CommandLine.Run("check", folder["site.gpkg"]).Out, StringComparison.Ordinal);
        CommandLine.Fine("take", folder["site.gpkg"], folder["a.csv"]);
    }

    [Fact]
    public void Take_MissingFile_SaysSo()
    {
        using var folder = new TempFolder();
        CommandLine.Fine("new", folder["site.gpkg"]);
        var take = CommandLine.Run("take", folder["site.gpkg"], folder["nowhere.csv"]);
        Assert.Equal(2, take.Exit);
        Assert.Contains("could not be read", take.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Take_NoProject_SaysHowToMakeOne()
    {
        using var folder = new TempFolder();
        var take = CommandLine.Run("take", folder["none.gpkg"], folder.Write("shots.csv", Head));
        Assert.Equal(2, take.Exit);
        Assert.Contains("aslaid new", take.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("control", "id,east,north\n", "control.csv")]
    [InlineData("codes", "code,kind\nA,sideways\n", "sideways")]
    [InlineData("settings", "gap_distanc_m = 5\n", "gap_distance_m")]
    [InlineData("delivery", "code,attribute,required\nDUCT,material,perhaps\n", "delivery.csv line 2, required: 'perhaps'")]
    public void Adopt_BadTable_SaysWhatIsWrongAndChangesNothing(string verb, string text, string says)
    {
        using var folder = new TempFolder();
        CommandLine.Fine("new", folder["site.gpkg"]);
        var before = Sha256(folder["site.gpkg"]);
        var adopt = CommandLine.Run(verb, folder["site.gpkg"], folder.Write($"{verb}.csv", text));
        Assert.Equal(2, adopt.Exit);
        Assert.Contains(says, adopt.Error, StringComparison.Ordinal);
        Assert.Equal(before, Sha256(folder["site.gpkg"]));
    }

    private static byte[] Utf8(string text) => Encoding.UTF8.GetBytes(text);

    private static string Sha256(string path) => Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(path)));
}
