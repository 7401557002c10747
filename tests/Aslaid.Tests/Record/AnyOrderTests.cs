using System.Globalization;
using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;
using CsCheck;

namespace Aslaid.Tests;

/// <summary>However the shots of some days come in, in one file, in parts, again and again, in any order, the record is the same.</summary>
public class AnyOrderTests
{
    private const string Header = "id,east,north,height,code,run,leg,time,u_plan,u_height,setup,note";

    /// <summary>What one crew shot: interleaved runs over three days, and check shots. A row that uses a shot again must come after it, whatever the order of the rest.</summary>
    private static string[] Rows(string crew, int seed, double north)
    {
        var random = new Random(seed);
        var rows = new List<string>();
        var id = 0;
        for (var day = 0; day < 3; day++)
        {
            Row("CONTROL", 0, 0, "", day, "M1");
            for (var stop = 0; stop < 6; stop++)
            {
                for (var run = 0; run < 3; run++)
                    Row(run == 2 ? "KERB" : "DUCT", (8 * ((6 * day) + stop)) + (0.02 * random.NextDouble()), north + (4 * run), $"R{run}", day, "");
            }

            Row("CONTROL", 0, 0, "", day, "M1");
        }

        return [.. rows];

        void Row(string code, double e, double n, string label, int day, string note) => rows.Add(string.Create(CultureInfo.InvariantCulture,
            $"{++id},{ShotsOf.East + e:F3},{ShotsOf.North + n:F3},{5 + (0.01 * random.NextDouble()):F3},{code},{label},,2026-03-{10 + day}T{8 + (id / 60):00}:{id % 60:00}:00Z,0.012,0.015,base-{day},{note}"));
    }

    private sealed record Handed(string Crew, string[] Rows);

    private static AsBuiltRecord Record(IEnumerable<Handed> files)
    {
        var (shots, reader, number) = (ShotTable.Empty, new ShotsCsvReader(), 0);
        foreach (var file in files)
        {
            if (file.Rows.Length == 0) continue;
            var text = Header + "\n" + string.Join('\n', file.Rows) + "\n";
            var intake = reader.Read(Encoding.UTF8.GetBytes(text), new($"file-{++number}.csv", file.Crew, default), shots);
            Assert.Empty(intake.Rejected);
            shots = intake.Shots ?? shots; // null where every row was taken already
        }

        return Derivation.Derive(new RecordInputs(shots, [], ShotsOf.Codes, [], ShotsOf.Settings).WithControl(("M1", 0, 0, 5)));
    }

    /// <summary>All that a record says, in words that name no batch, line or row; numbers to a nanometre, since sums run in row order.</summary>
    private static string Said(AsBuiltRecord record)
    {
        var text = new StringBuilder();
        var runs = Enumerable.Range(0, record.Runs.Count).Select(number => record.Runs[number]).OrderBy(run => run.Key, StringComparer.Ordinal);
        foreach (var run in runs)
            text.Append(CultureInfo.InvariantCulture, $"{run.Key}: {PathNotation.Write(run)} {run.PlanLength:F9} {run.UPlanLength:F9} {run.SlopeLength:F9} {run.USlopeLength:F9}\n");
        foreach (var quantity in record.Quantities) text.Append(CultureInfo.InvariantCulture, $"{quantity.Code} {quantity.Kind} {quantity.Value:F9} {quantity.U:F9}\n");
        var findings = Enumerable.Range(0, record.Findings.Count).Select(number => record.Findings[number])
            .Select(finding => $"{finding.Check.Name} {finding.Severity} {string.Join(' ', finding.ShotIds.Order(StringComparer.Ordinal))}").Order(StringComparer.Ordinal);
        foreach (var finding in findings) text.AppendLine(finding);
        foreach (var session in SessionFacts.Of(record).Select(session => (session.Crew, session.Setup, session.Shots, session.Accuracy.CheckShots)).Order()) text.Append(CultureInfo.InvariantCulture, $"{session}\n");
        return text.ToString();
    }

    private static readonly Gen<(int Seed, int[] North, int[] South, int Mix)> Cuts =
        Gen.Select(Gen.Int[1, 1000], Gen.Int[1, 59].Array[0, 5], Gen.Int[1, 59].Array[0, 5], Gen.Int[0, 100_000]);

    private static IEnumerable<string[]> Split(string[] rows, int[] at)
    {
        var edges = at.Where(cut => cut < rows.Length).Append(0).Append(rows.Length).Distinct().Order().ToArray();
        return edges.Zip(edges[1..], (from, to) => rows[from..to]);
    }

    [Fact]
    public void Record_SplitInAnyOrder_IsTheSame() => Cuts.Sample(cuts =>
    {
        var (north, south) = (Rows("North", cuts.Seed, 0), Rows("South", cuts.Seed + 1, 40));
        var whole = Said(Record([new("North", north), new("South", south)]));
        Handed[] parts = [.. Split(north, cuts.North).Select(rows => new Handed("North", rows)), .. Split(south, cuts.South).Select(rows => new Handed("South", rows))];
        new Random(cuts.Mix).Shuffle(parts);
        Assert.Equal(whole, Said(Record(parts)));
    }, iter: 60, threads: 1);

    [Fact]
    public void Record_CumulativeInAnyOrder_IsTheSame() => Cuts.Sample(cuts =>
    {
        var (north, south) = (Rows("North", cuts.Seed, 0), Rows("South", cuts.Seed + 1, 40));
        var whole = Said(Record([new("North", north), new("South", south)]));
        Handed[] soFar =
        [
            .. Split(north, cuts.North).Select(part => new Handed("North", north[..(Array.IndexOf(north, part[^1]) + 1)])),
            .. Split(south, cuts.South).Select(part => new Handed("South", south[..(Array.IndexOf(south, part[^1]) + 1)])),
        ];
        Assert.Equal(whole, Said(Record(soFar)));
        new Random(cuts.Mix).Shuffle(soFar);
        Assert.Equal(whole, Said(Record(soFar)));
    }, iter: 60, threads: 1);

    /// <summary>Any entries, any one of them withdrawn: the record is what it would be without it.</summary>
    [Fact]
    public void Record_AnEntryWithdrawn_IsAsIfItWereNeverWritten() => Gen.Int[0, 18].Array[1, 7].Select(Gen.Int[0, 5], (picks, which) => (picks, which: which % picks.Length)).Sample(drawn =>
    {
        var inputs = ShotsOf.Lines(TwoDays);
        Change[] choices =
        [
            new LabelDecided("DUCT/PD-1@North", 2, LabelAgain.Supersedes), new LabelDecided("DUCT/PD-1@North", 2, LabelAgain.Checks), new LabelDecided("DUCT/PD-1@North", 2, LabelAgain.Replaces),
            new RunJoined("DUCT/PD-2@South", "DUCT/PD-2@North"), new RunSplit("DUCT/PD-2@North", new(1, 8), "PD-9"), new ValuesDecided([new(2, 6)], true), new ValuesDecided([new(2, 6)], false),
            new AttributeSet("DUCT/PD-1@North", "status", "existing"), new SetAside([new(1, 3)]), new Recoded([new(1, 4)], "KERB", "K-1"), new PoleHeightCorrected([new(1, 2)], 2, 1.8), new AttributeSet("DUCT/PD-2@North", "flow", "against"),
            new PointConstructed("C", "DUCT", "PD-2@North", new(ConstructionKind.Offset, [new(1, 7), new(1, 8)], [new(20, 0.005), new(0, 0), new(0, 0)], 0, [])),
            new ConnectionSet(new(1, 2), "A", 4, 0.1, 3, "DUCT/PD-1@North", RunEnd.Start), new NodeTied("DUCT/PD-2@North", RunEnd.Start, new(1, 2)),
            new RelationSet("DUCT/PD-1@North", RunRelation.Bank, "DUCT/PD-2@North"), new RoleGiven("A", "engineer"), new ClaimMade("P", 1), new LengthCovered("DUCT/PD-1@North", 0, 8),
        ];
        var with = drawn.picks.Aggregate(inputs, (now, pick) => now.Then(choices[pick]));
        var without = with with { Journal = [.. with.Journal.Where(entry => entry.Position != drawn.which + 1)] }; // positions stay: constructed points are named by theirs
        var withdrawn = with.Then(new Withdrawn(drawn.which + 1));
        AssertSameBits(Derivation.Derive(without), Derivation.Derive(withdrawn));
    }, iter: 200);

    private const string TwoDays = """
        --- North
        1 0 0 5 DUCT PD-1
        2 8 0 5 DUCT PD-1
        3 16 0 5 DUCT PD-1
        4 24 0 5 DUCT PD-1
        5 32 0 5 DUCT PD-1
        6 0 20 5 DUCT PD-2
        7 8 20 5 DUCT PD-2
        8 16 20 5 DUCT PD-2 - time=09:00
        --- North
        11 0 1 5 DUCT PD-1
        12 8 1 5 DUCT PD-1
        13 16 1 5 DUCT PD-1
        14 24 1 5 DUCT PD-1
        8 16 20 5.2 DUCT PD-2 - time=09:00
        --- South
        1 16.01 20 5 DUCT PD-2
        2 24 20 5 DUCT PD-2
        """;

    private static void AssertSameBits(AsBuiltRecord a, AsBuiltRecord b)
    {
        Assert.Equal(Keys(a), Keys(b));
        for (var number = 0; number < a.Runs.Count; number++)
        {
            Assert.Equal(a.Runs[number].Members.ToArray(), b.Runs[number].Members.ToArray());
            Assert.Equal(BitConverter.DoubleToInt64Bits(a.Runs[number].PlanLength), BitConverter.DoubleToInt64Bits(b.Runs[number].PlanLength));
            Assert.Equal(a.Runs[number].UPlanLength, b.Runs[number].UPlanLength);
            Assert.Equal(a.Runs[number].Facts, b.Runs[number].Facts);
        }

        Assert.Equal(a.Quantities, b.Quantities);
        Assert.Equal(a.Holds.Select(hold => (hold.Run, hold.From, hold.To, hold.State)), b.Holds.Select(hold => (hold.Run, hold.From, hold.To, hold.State)));
        Assert.Equal(Findings(a), Findings(b));
        Assert.Equal(a.Shots.Used.ToArray(), b.Shots.Used.ToArray());
        Assert.Equal(a.Shots.Heights.ToArray(), b.Shots.Heights.ToArray());

        static string[] Keys(AsBuiltRecord record) => [.. Enumerable.Range(0, record.Runs.Count).Select(run => record.Runs[run].Key)];
        static string[] Findings(AsBuiltRecord record) => [.. Enumerable.Range(0, record.Findings.Count).Select(number => record.Findings[number].Id + record.Findings[number].Message)];
    }

    [Fact]
    public void Record_ABatchWithdrawn_IsAsIfItWereNeverTaken()
    {
        var one = ShotsOf.Lines(TwoDays[..TwoDays.IndexOf("--- North\n11", StringComparison.Ordinal)]);
        var all = ShotsOf.Lines(TwoDays);
        foreach (var batch in (int[])[1, 2, 3]) all = all.Then(new BatchTaken(batch, $"shots-{batch}.csv", "", "", all.Shots.Batches[batch - 1].Count, null, default));
        Assert.Equal(Said(Derivation.Derive(one)), Said(Derivation.Derive(all.Then(new Withdrawn(2)).Then(new Withdrawn(3)))));
    }
}
