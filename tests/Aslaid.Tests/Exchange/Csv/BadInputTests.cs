using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;

namespace Aslaid.Tests;

/// <summary>
/// Every way of being wrong is named by file, line, column, what was found and what was expected. A further case needs no C#:
/// a file in cases/bad-input, and beside it its messages.
/// </summary>
public sealed class BadInputTests
{
    private static string Folder => System.IO.Path.Combine(AppContext.BaseDirectory, "cases", "bad-input");

    public static TheoryData<string> Cases() =>
        [.. System.IO.Directory.GetFiles(Folder, "*.csv").Select(path => System.IO.Path.GetFileName(path)).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Cases))]
    public void Read_BadFile_IsRefusedWithItsMessages(string name)
    {
        var file = System.IO.File.ReadAllBytes(System.IO.Path.Combine(Folder, name));
        var expected = System.IO.File.ReadAllLines(System.IO.Path.Combine(Folder, System.IO.Path.ChangeExtension(name, ".expected.txt")));
        ShotsText.UnderCulture("de-DE", () =>
        {
            var intake = new ShotsCsvReader().Read(file, new(name, "North", default), ShotTable.Empty);
            Assert.Null(intake.Shots);
            Assert.Equal(expected, intake.Rejected.Select(r => r.Message(name)));
            Assert.Equal(expected.Length, intake.RejectedCount);
        });
    }

    [Fact]
    public void Message_AllParts_IsOneSentence() => Assert.Equal(
        "shots.csv line 214, height: '5,2x' is not a number; a number of metres such as 5.213 was expected.",
        new Rejection(214, "height", "5,2x", "is not a number; a number of metres such as 5.213 was expected").Message("shots.csv"));

    [Fact]
    public void Read_EmptyFile_IsRefused() => Assert.Equal(
        "shots.csv: the file is empty; a header line and rows below it were expected.", ShotsText.Refused("").Message(ShotsText.FileName));

    public static TheoryData<string> Utf16Forms() => ["little-endian, marked", "big-endian, marked", "little-endian", "big-endian"];

    [Theory]
    [MemberData(nameof(Utf16Forms))]
    public void Read_Utf16_IsRefused(string form)
    {
        var encoding = new UnicodeEncoding(form.StartsWith("big", StringComparison.Ordinal), form.Contains("marked", StringComparison.Ordinal));
        byte[] file = [.. encoding.GetPreamble(), .. encoding.GetBytes($"{ShotsText.Header}\n1,512000,6243000,5,DUCT\n")];
        Assert.Equal(
            "shots.csv: the file is UTF-16; UTF-8 was expected: save it again as 'CSV UTF-8'.", ShotsText.Refused(file).Message(ShotsText.FileName));
    }

    [Theory]
    [InlineData("\n")]
    [InlineData("\r\n")]
    [InlineData("\r")]
    public void Read_NulByte_IsNamedByLineAndByte(string end)
    {
        var text = string.Join(end, ShotsText.Header, "1,512000,6243000,5,DUCT", "2,512000,6243000,5,DU\0CT", "");
        Assert.Equal(
            $"shots.csv line 3: there is a NUL byte at byte {text.IndexOf('\0', StringComparison.Ordinal)}; text was expected: the file is damaged or no text, export it again.",
            ShotsText.Refused(text).Message(ShotsText.FileName));
    }

    [Fact]
    public void Read_InvalidUtf8_IsNamedByLineAndByte()
    {
        byte[] file = [.. Encoding.UTF8.GetBytes($"{ShotsText.Header}\n1,512000,6243000,5,S"), 0xfc, .. Encoding.UTF8.GetBytes("D\n")]; // ü in Latin-1
        Assert.Equal(
            $"shots.csv line 2: byte {ShotsText.Header.Length + 21} (0xFC) is not valid UTF-8; UTF-8 was expected: save the file again as 'CSV UTF-8'.",
            ShotsText.Refused(file).Message(ShotsText.FileName));
    }

    [Fact]
    public void Read_LineOfTenMegabytes_IsRefusedByItsLine() => Assert.Equal(
        "shots.csv line 3: the line is longer than 1000000 bytes; one row a line was expected: look for a missing line end.",
        ShotsText.Refused($"{ShotsText.Header}\n1,512000,6243000,5,DUCT\n2,512000,6243000,5,{new string('D', 10_000_000)}\n3,512000,6243000,5,DUCT\n").Message(ShotsText.FileName));

    [Fact]
    public void Read_LineOfAMegabyte_IsTaken() =>
        Assert.Equal(900_000, ShotsText.Taken($"{ShotsText.Header},note\n1,512000,6243000,5,DUCT,{new string('n', 900_000)}\n").Text("note", 0)!.Length);

    [Fact]
    public void Read_TooManyColumns_IsRefused() => Assert.Equal(
        "shots.csv line 1: the header has 201 columns; 200 at most were expected.",
        ShotsText.Refused(ShotsText.Header + string.Concat(Enumerable.Range(1, 196).Select(i => $",a{i}")) + "\n").Message(ShotsText.FileName));

    [Fact]
    public void Read_TooManyRows_IsRefusedBeforeRoomIsMadeForThem() => Assert.Equal(
        "shots.csv: the file has 10000002 lines; 10000000 rows at most were expected: take it in in parts.",
        ShotsText.Refused(ShotsText.Header + new string('\n', 10_000_002)).Message(ShotsText.FileName));

    [Fact]
    public void Read_ManyBadRows_CountsAllAndKeepsTheFirstHundred()
    {
        var intake = ShotsText.Read(ShotsText.Header + string.Concat(Enumerable.Range(1, 250).Select(i => $"\n{i},512000,?,5,DUCT")));
        Assert.Null(intake.Shots);
        Assert.Equal(250, intake.RejectedCount);
        Assert.Equal(Enumerable.Range(2, 100), intake.Rejected.Select(r => r.Line));
    }

    [Fact]
    public void Read_OneBadRow_TakesNothing()
    {
        var before = ShotsText.Taken($"{ShotsText.Header}\n1,512000,6243000,5,DUCT");
        Assert.Null(ShotsText.Read($"{ShotsText.Header}\n2,512000,6243000,5,DUCT\n3,512000,6243000,five,DUCT", before).Shots);
        Assert.Equal(1, before.Count);
    }

    [Fact]
    public void Read_BadRowUsedAgain_IsNamedOnce() =>
        Assert.Equal(2, ShotsText.Refused($"{ShotsText.Header}\n1,512000,6243000,five,DUCT\n1,,,,PIPE").Line);

    [Fact]
    public void Read_FoundText_IsCutAndShowsWhatCannotBeSeen()
    {
        var refused = ShotsText.Refused($"{ShotsText.Header}\n1,\u200b{new string('9', 60)},6243000,5,DUCT");
        Assert.Equal($"<U+200B>{new string('9', 39)}…", refused.Found);
    }
}
