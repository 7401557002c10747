using System.Text;
using Aslaid.Exchange;
using Aslaid.Geometry;
using Aslaid.Record;
using Aslaid.Testing;
using CsCheck;

namespace Aslaid.Tests;

public class DerivedLineTests
{
    private static RecordInputs With(string lines, params SectionPart[] parts) => ShotsOf.Lines(lines) with { Sections = new([.. parts]) };

    private static SectionPart Back(double right, double up = 0.125) => new("KERB", "back", right, up, "KERB");

    /// <summary>A straight, a quarter turn of 10 m to the left, a straight.</summary>
    private const string Kerb = "1 0 0 5 KERB K1\n2 20 0 5 KERB K1\n3 27.0710678 2.9289322 5 KERB K1 through\n4 30 10 5 KERB K1\n5 30 30 5 KERB K1";

    [Theory]
    [InlineData(0.15)]
    [InlineData(-0.15)]
    public void Line_BesideStraightsAndArcs_IsParallelAndConcentric(double right)
    {
        var record = Derivation.Derive(With(Kerb, Back(right)));
        var line = Assert.Single(DerivedLines.Of(record));
        Assert.Equal(20 + 20 + (10 + right) * Math.PI / 2, line.PlanLength, 1e-5); // to the right of a left turn is outside
        Assert.Equal(10 + right, line.Path.Pieces[1].Arc.Radius, 1e-5);
        Assert.All(line.Path.Vertices, vertex => Assert.Equal(5.125, vertex.Height!.Value, 1e-9));
        Assert.Equal("KERB/K1:back", line.Key(record.Runs));
    }

    /// <summary>Whatever corners: each vertex of the part lies at its offset from the straights that meet there.</summary>
    [Fact]
    public void Line_RoundCorners_KeepsItsDistance() => Gen.Select(Gen.Double[-1.2, 1.2].Array[2, 8], Gen.Double[-0.5, 0.5]).Sample(drawn =>
    {
        var (turns, right) = drawn;
        var (at, way, lines) = (new Point2(0, 0), 0.3, new List<string> { "1 0 0 5 KERB K1" });
        foreach (var turn in turns)
        {
            way += turn;
            at += 10 * Bearing.FromRadians(way).Unit;
            lines.Add(FormattableString.Invariant($"{lines.Count + 1} {at.East:F6} {at.North:F6} 5 KERB K1"));
        }

        var record = Derivation.Derive(With(string.Join('\n', lines), Back(right)));
        if (record.Runs[0].PieceCount != turns.Length) return;
        var line = Assert.Single(DerivedLines.Of(record));
        for (var piece = 0; piece < record.Runs[0].PieceCount; piece++)
        {
            var straight = record.Runs[0].Piece(piece).Straight;
            foreach (var vertex in (int[])[piece, piece + 1])
                Assert.Equal(right, -(1 / straight.PlanLength * (straight.To - straight.From)).Left.Dot(line.Path.Vertices[vertex].At - straight.From), 1e-7);
        }
    }, iter: 300);

    [Fact]
    public void Line_IsCountedInNothing_AndGoesWithItsSection()
    {
        var (without, with) = (Derivation.Derive(ShotsOf.Lines(Kerb)), Derivation.Derive(With(Kerb, Back(0.15))));
        Assert.Equal(without.Quantities, with.Quantities);
        Assert.Equal(without.Runs.Count, with.Runs.Count);
        Assert.Empty(DerivedLines.Of(without));
        Assert.Empty(DerivedLines.Of(Derivation.Derive(With(Kerb, Back(-10.5))))); // the arc would turn inside out
    }

    [Fact]
    public void Csv_BanksAndStrips_AreTakenApart()
    {
        var table = SectionsCsv.Read(Encoding.UTF8.GetBytes("code,part,right_m,up_m,part_code,rows,columns,pitch_m,width_m\nDUCT,bank,0,-0.1,DUCT,2,3,0.15,\nKERB,verge,0.2,0,EDGE,,,,1.5\n")).Value!;
        Assert.Equal(8, table.Parts.Length);
        Assert.Equal(new("DUCT", "bank 2.3", 0.3, -0.25, "DUCT"), table.Parts[5]);
        Assert.Equal(new("KERB", "verge right edge", 1.7, 0, "EDGE"), table.Parts[7]);
    }

    [Theory]
    [InlineData("KERB,back,,0,KERB", "right_m")]
    [InlineData("KERB,back,0.1,0,KERB\nKERB,back,0.2,0,KERB", "stands for KERB in line 2 already")]
    [InlineData("KERB,back,x,0,KERB", "x")]
    public void Csv_WrongRows_AreNamed(string rows, string named)
    {
        var read = SectionsCsv.Read(Encoding.UTF8.GetBytes("code,part,right_m,up_m,part_code\n" + rows + "\n"));
        Assert.Null(read.Value);
        Assert.Contains(named, string.Join(' ', read.Rejected.Select(rejection => rejection.Message("sections.csv"))), StringComparison.Ordinal);
    }
}
