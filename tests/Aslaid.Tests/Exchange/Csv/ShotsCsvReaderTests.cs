using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;

namespace Aslaid.Tests;

/// <summary>What the form of the shots CSV says, sentence by sentence.</summary>
public sealed class ShotsCsvReaderTests
{
    private const string H = ShotsText.Header;
    private const string One = "1,512000.001,6243000.002,5.213,DUCT";

    [Theory]
    [InlineData(',', "512000.001")]
    [InlineData(';', "512000.001")]
    [InlineData(';', "512000,001")]
    [InlineData('\t', "512000.001")]
    [InlineData('\t', "512000,001")]
    public void Read_EverySeparatorAndMark_GivesTheNumber(char separator, string east)
    {
        var shots = ShotsText.Taken($"{H.Replace(',', separator)}\n1{separator}{east}{separator}6243000{separator}5{separator}DUCT");
        Assert.Equal(512000.001, shots.East[0]);
    }

    [Fact]
    public void Read_DecimalComma_IsRemarked() => Assert.Equal(
        ["Numbers were read with a decimal comma.", "Columns kept as attributes: Soil."],
        ShotsText.Read("id;east;north;height;code;Soil\n1;512000,5;6243000;5;DUCT;clay").Remarks);

    [Fact]
    public void Read_EmptyCells_AreMissingAndNeverZero()
    {
        var shots = ShotsText.Taken($"{H},run,leg,time,u_plan,u_height,pole,note\n1,512000,6243000,,DUCT,,,,,,,\n");
        Assert.Null(shots[0].Height);
        Assert.Null(shots[0].Time);
        Assert.Null(shots[0].RunLabel);
        Assert.True(double.IsNaN(shots.UPlan[0]) && double.IsNaN(shots.UHeight[0]));
        Assert.Null(shots.Number("pole", 0));
        Assert.Null(shots.Text("note", 0));
    }

    [Fact]
    public void Read_HeaderInAnyCaseWithBlanks_IsRecognised()
    {
        var shots = ShotsText.Taken("\uFEFF Code , ID,North ,\"EAST\",Height,U_Plan\n DUCT , 7 , 6243000 ,512000, 5 , 0.012 \n");
        Assert.Equal(("7", "DUCT", 512000.0, 0.012), (shots.Id(0), shots[0].Code, shots.East[0], shots.UPlan[0]));
    }

    [Fact]
    public void Read_BlankLines_AreSkippedAndCounted()
    {
        var shots = ShotsText.Taken($"\n{H}\n\n{One}\n \n2,512000,6243000,5,DUCT\n\n");
        Assert.Equal([4, 6], shots.Line.ToArray());
    }

    [Fact]
    public void Read_LastLineWithoutEnd_IsTaken() => Assert.Equal(2, ShotsText.Taken($"{H}\n{One}\n2,512000,6243000,5,DUCT").Count);

    // ISO 8601-1:2019, 5.4.2.1 (extended form); the instants were reckoned by hand.
    [Theory]
    [InlineData("2026-05-04T13:30:00+02:00", 11, 30, 0, 120)]
    [InlineData("2026-05-04T13:30Z", 13, 30, 0, 0)]
    [InlineData("2026-05-04T13:30:15.250-0330", 17, 0, 15.25, -210)]
    [InlineData("2026-05-04 13:30:15,5+05", 8, 30, 15.5, 300)]
    [InlineData("2026-05-04T13:30:00", 13, 30, 0, short.MinValue)]
    public void Read_Time_KeepsInstantAndZone(string time, int hour, int minute, double second, int zone)
    {
        var shots = ShotsText.Taken($"{H},time\n{One},\"{time}\"");
        Assert.Equal(new DateTime(2026, 5, 4, hour, minute, 0).AddSeconds(second).Ticks, shots.Time[0]);
        Assert.Equal(zone, shots.Zone[0]);
    }

    [Fact]
    public void Read_KnownIdWithoutCoordinates_UsesTheShotAgain()
    {
        var shots = ShotsText.Taken($"{H},run\n{One},d1\n2,512010,6243000,5,DUCT,d1\n1,,,,,d1\n1,,,,CHAMBER,");
        Assert.Equal([-1, -1, 0, 0], shots.Again.ToArray());
        Assert.Null(shots[2].Code); // its own
        Assert.Equal("CHAMBER", shots[3].Code);
        Assert.True(double.IsNaN(shots.East[2]));
    }

    [Fact]
    public void Read_IdUsedAgain_MeansTheMostRecentShotOfTheCrew()
    {
        var first = ShotsText.Taken($"{H}\n{One}\n2,512020,6243000,5,DUCT");
        var south = ShotsText.Taken($"{H}\n1,512500,6243000,5,DUCT", first, crew: "South");
        var north = ShotsText.Taken($"{H}\n1,512030,6243000,5,DUCT\n1,,,,PIPE\n2,,,,PIPE", south);
        Assert.Equal([-1, -1, -1, -1, 3, 1], north.Again.ToArray());
        Assert.Contains("no shot 2 of crew South", ShotsText.Read($"{H}\n2,,,,PIPE", north, crew: "South").Rejected[0].Message("f"), StringComparison.Ordinal);
    }

    [Fact]
    public void Read_CrewColumn_ScopesTheIds()
    {
        var shots = ShotsText.Taken($"{H},crew\n{One},South\n1,512300,6243000,5,DUCT,\n1,,,,PIPE,South\n1,,,,PIPE,");
        Assert.Equal([-1, -1, 0, 1], shots.Again.ToArray());
        Assert.Equal(["South", "North", "South", "North"], Enumerable.Range(0, 4).Select(shots.Crew));
    }

    [Fact]
    public void Read_ManyCrewsWithOneId_KeepThemApart()
    {
        const int crews = 400; // so many share places in the lookup
        var rows = Enumerable.Range(0, crews).Select(i => $"1,{512000 + i},6243000,5,DUCT,c{i}").Concat(Enumerable.Range(0, crews).Select(i => $"1,,,,PIPE,c{i}"));
        var shots = ShotsText.Taken($"{H},crew\n{string.Join('\n', rows)}");
        Assert.Equal(Enumerable.Range(0, crews), shots.Again[crews..].ToArray());
    }

    [Fact]
    public void Read_ThroughShotInAnOpenRun_IsTaken()
    {
        var labelled = ShotsText.Taken($"{H},run,leg\n{One},d1,\n2,512010,6243000,5,KERB,k1,first\n3,512010,6243000,5,DUCT,d1,through");
        Assert.Equal(Leg.Through, labelled.Leg[2]);
        var later = ShotsText.Taken($"{H},run,leg\n4,512030,6243000,5,DUCT,d1,through", labelled);
        Assert.Equal(Leg.Through, later.Leg[3]);
        var inferred = ShotsText.Taken($"{H},leg\n{One},\n2,512010,6243000,5,KERB,\n3,512010,6243000,5,DUCT,through");
        Assert.Equal(Leg.Through, inferred.Leg[2]);
    }

    [Fact]
    public void Read_ThroughShotBehindAPointByItself_IsRefused() =>
        Assert.Equal((3, "leg"), ShotsText.Refused($"{H},leg\n{One},alone\n2,512010,6243000,5,DUCT,through") is var r ? (r.Line, r.Column) : default);

    [Fact]
    public void Read_ThroughShotUsedAgain_BelongsToItsOwnCode() =>
        Assert.Equal(Leg.Through, ShotsText.Taken($"{H},leg\n{One},\n2,512010,6243000,5,KERB,\n1,,,,,through").Leg[2]);

    [Fact]
    public void Read_WholeJobExportedAgain_TakesOnlyWhatIsNew()
    {
        var day1 = $"{H},run,time\n{One},d1,2026-05-04T08:00Z\n2,512010,6243000,5,DUCT,d1,2026-05-04T08:01Z\n1,,,,,d1,\n";
        var day2 = day1 + "3,512020,6243000,5,DUCT,d2,2026-05-05T08:00Z\n1,,,,,d2,\n";
        var first = ShotsText.Taken(day1);
        var intake = ShotsText.Read(day2, first);
        Assert.Equal(["3 rows are in an earlier batch already, with the same id, position, time, code, run and leg; they were passed over."], intake.Remarks);
        var shots = intake.Shots!;
        Assert.Equal(["1", "2", "1", "3", "1"], Enumerable.Range(0, shots.Count).Select(shots.Id));
        Assert.Equal([-1, -1, 0, -1, 0], shots.Again.ToArray());
        Assert.Equal(5, shots.Line[3]); // of the file, not of what was new in it
    }

    [Fact]
    public void Read_NothingNew_IsNoBatchAndSaidSo()
    {
        var before = ShotsText.Taken($"{H}\n{One}");
        var intake = new ShotsCsvReader().Read(System.Text.Encoding.UTF8.GetBytes($"{H}\n{One}"), new(ShotsText.FileName, "North", default), before);
        Assert.Null(intake.Shots);
        Assert.Equal(0, intake.RejectedCount);
        Assert.Equal(["Every row (1) was taken in already: there is nothing new in it."], intake.Remarks);
    }

    [Fact]
    public void Read_RowsOfAWithdrawnBatch_AreNewAgainAndCannotBeUsedAgain()
    {
        var before = ShotsText.Taken($"{H}\n{One}");
        var options = new IntakeOptions(ShotsText.FileName, "North", default) { Withdrawn = [1] };
        Assert.Equal(2, new ShotsCsvReader().Read(System.Text.Encoding.UTF8.GetBytes($"{H}\n{One}"), options, before).Shots!.Count);
        Assert.Equal(1, new ShotsCsvReader().Read(System.Text.Encoding.UTF8.GetBytes($"{H}\n1,,,,DUCT,d1"), options, before).RejectedCount);
    }

    [Theory]
    [InlineData("1,512000.001,6243000.002,5.214,DUCT,d1")]
    [InlineData("1,512000.001,6243000.002,,DUCT,d1")]
    [InlineData("1,512000.001,6243000.002,5.213,PIPE,d1")]
    [InlineData("1,512000.001,6243000.002,5.213,DUCT,d2")]
    public void Read_KnownIdWithOtherValues_IsTakenBesideTheFirst(string row)
    {
        var first = ShotsText.Taken($"{H},run\n{One},d1");
        Assert.Equal(2, ShotsText.Taken($"{H},run\n{row}", first).Count);
    }

    [Fact]
    public void Read_RowsPassedOver_LeaveNothingBehind()
    {
        var first = ShotsText.Taken($"{H},note,pole\n{One},stay,2.0");
        var shots = ShotsText.Taken($"{H},note,pole\n2,512010,6243000,5,DUCT,new,1.3\n{One},stay,2.0", first);
        Assert.Equal(2, shots.Count);
        Assert.All(shots.TextColumns["note"][2..], word => Assert.Equal(Words.None, word));
        Assert.All(shots.NumberColumns["pole"][2..], number => Assert.True(double.IsNaN(number)));
    }

    [Fact]
    public void Read_Batch_NamesFileHashCrewAndDeclaredAccuracy()
    {
        var file = Encoding.UTF8.GetBytes($"{H}\n{One}\n");
        var shots = new ShotsCsvReader().Read(file, new("day-1.csv", "North", new(0.02, null)), ShotTable.Empty).Shots!;
        var hash = Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(file));
        Assert.Equal(new Batch(1, "day-1.csv", hash, 0, 1, "North", new(0.02, null)), Assert.Single(shots.Batches));
    }

    [Fact]
    public void Read_SameBytesTwice_GiveTheSameHash()
    {
        var text = $"{H},note\n{One},a\n2,512010,6243000,5,DUCT,b\n";
        var (one, other) = (ShotsText.Taken(text), ShotsText.Taken(text));
        Assert.Equal(ShotsText.Told(one), ShotsText.Told(other));
        Assert.Equal(ShotHash.OfBatch(one, one.Batches[0]), ShotHash.OfBatch(other, other.Batches[0]));
    }

    [Fact]
    public void Read_Progress_EndsAtTheWholeFile()
    {
        var told = new List<long>();
        var file = Encoding.UTF8.GetBytes($"{H}\n{One}\n");
        new ShotsCsvReader().Read(file, new("f.csv", null, default), ShotTable.Empty, new Told(told));
        Assert.Equal(file.Length, told[^1]);
    }

    [Fact]
    public void For_ShotsCsv_IsRecognisedAndNothingElseIs()
    {
        Assert.IsType<ShotsCsvReader>(ReaderCatalogue.For(Encoding.UTF8.GetBytes($"\uFEFF{H.Replace(',', ';')};note\n"), "a.txt"));
        var reader = new ShotsCsvReader();
        Assert.True(reader.Recognises(Encoding.UTF8.GetBytes($"{H}\n{One}"), "a.csv"));
        Assert.False(reader.Recognises("code,kind\nDUCT,line\n"u8, "codes.csv"));
        Assert.False(reader.Recognises([], "empty.csv"));
        Assert.False(reader.Recognises([0, 1, 2, 255], "noise.csv"));
    }

    [Fact]
    public void For_FileOfNoKnownKind_IsTheReaderWhoseRejectionsSayWhatIsWanted()
    {
        var reader = ReaderCatalogue.For("x,y,z"u8, "unknown.csv");
        Assert.Contains("id, east, north, height, code", reader.Read("x,y,z"u8.ToArray(), new("unknown.csv", null, default), ShotTable.Empty).Rejected[0].Message("unknown.csv"), StringComparison.Ordinal);
    }

    private sealed class Told(List<long> told) : IProgress<long>
    {
        public void Report(long value) => told.Add(value);
    }
}
