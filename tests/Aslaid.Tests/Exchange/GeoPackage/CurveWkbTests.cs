using System.Buffers;
using System.Globalization;
using System.IO;
using Aslaid.Exchange;

namespace Aslaid.Tests;

public sealed class CurveWkbTests
{
    private static byte[] Bytes(CurveKind kind, ReadOnlySpan<CurveVertex> vertices, ReadOnlySpan<int> ringEnds, CurveDimensions dimensions)
    {
        var buffer = new ArrayBufferWriter<byte>();
        CurveWkb.Write(buffer, kind, vertices, ringEnds, dimensions);
        return buffer.WrittenSpan.ToArray();
    }

    private static CurveShape Shape(byte[] wkb)
    {
        var shape = new CurveShape();
        CurveWkb.Read(wkb, shape);
        return shape;
    }

    [Fact]
    public void Read_WhatWriteWrote_GivesEveryBitBack() => CurveGen.Any.Sample(vertices =>
    {
        var shape = Shape(Bytes(CurveKind.CompoundCurve, vertices, [], CurveDimensions.HeightAndMeasure));
        return shape.Kind == CurveKind.CompoundCurve && shape.Vertices.SequenceEqual(vertices);
    });

    [Fact]
    public void Read_AnyDamagedByte_ReadsOrSaysFormatException() => Gen.Select(CurveGen.Any, Gen.Int[0, 10_000], Gen.Byte, Gen.Bool).Sample(x =>
    {
        var wkb = Bytes(CurveKind.CompoundCurve, x.Item1, [], CurveDimensions.Height);
        var at = x.Item2 % wkb.Length;
        if (x.Item4) wkb[at] = x.Item3;
        else wkb = wkb[..at];
        try
        {
            return Shape(wkb).Vertices.Length <= x.Item1.Length + 1;
        }
        catch (FormatException fault)
        {
            return fault.Message.Contains("byte", StringComparison.Ordinal);
        }
    });

    /// <summary>Bytes and text as printed in the tests of GEOS and PostGIS; each row of the file names its own source.</summary>
    private sealed record Row(string Id, string Encoding, string ByteOrder, string Srid, string Text, string Hex);

    private static IEnumerable<Row> Rows => File.ReadLines(System.IO.Path.Combine(AppContext.BaseDirectory, "reference", "09_curve_wkb.csv")).Skip(1).Select(line =>
    {
        var quoted = line.Split('"'); // only the text is in quotes
        string[] before = quoted[0].Split(','), after = quoted[2].Split(',');
        return new Row(before[0], before[1], before[2], before[3], quoted[1], after[1]);
    });

    public static TheoryData<string> PublishedIds => [.. Rows.Select(r => r.Id)];

    public static TheoryData<string> PublishedIdsAsWritten => [.. Rows.Where(r => r is { Encoding: "ISO", ByteOrder: "little" }).Select(r => r.Id)];

    [Fact]
    public void Published_Rows_AreAllThere()
    {
        Assert.Equal(11, PublishedIds.Count);
        Assert.Equal(7, PublishedIdsAsWritten.Count);
    }

    [Theory, MemberData(nameof(PublishedIds))]
    public void Read_PublishedBytes_GivesPublishedText(string id)
    {
        var row = Rows.Single(r => r.Id == id);
        var wkt = Wkt.Read(row.Text);

        var shape = Shape(Convert.FromHexString(row.Hex));

        Assert.Equal(wkt.Kind, shape.Kind);
        Assert.Equal(wkt.Dimensions, shape.Dimensions);
        Assert.Equal(wkt.Vertices, shape.Vertices.ToArray());
        Assert.Equal(wkt.RingEnds, shape.RingEnds.ToArray());
        Assert.Equal(row.Srid.Length == 0 ? null : int.Parse(row.Srid, CultureInfo.InvariantCulture), shape.SrsId);
    }

    [Theory, MemberData(nameof(PublishedIdsAsWritten))]
    public void Write_PublishedText_GivesPublishedBytes(string id)
    {
        var row = Rows.Single(r => r.Id == id);
        var wkt = Wkt.Read(row.Text);

        var wkb = Bytes(wkt.Kind, [.. wkt.Vertices], [.. wkt.RingEnds], wkt.Dimensions);

        Assert.Equal(row.Hex, Convert.ToHexStringLower(wkb));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Write_CompoundCurve_StaysOneWhenOfOneKindOnly(bool arcs)
    {
        CurveVertex[] vertices = [new(0, 0, 0, 0, false), new(1, 1, 0, 0, arcs), new(2, 0, 0, 0, false)];
        var wkb = Bytes(CurveKind.CompoundCurve, vertices, [], CurveDimensions.Plane);
        Assert.Equal(9, wkb[1]);
        Assert.Equal(1, wkb[5]); // member
        Assert.Equal(vertices, Shape(wkb).Vertices.ToArray().Select(v => v with { Height = 0, Measure = 0 }));
    }

    [Fact]
    public void Write_HeightMissing_IsRefused()
    {
        CurveVertex[] vertices = [new(512_000, 6_243_000, double.NaN, 0, false)];
        var fault = Assert.Throws<ArgumentException>(() => Bytes(CurveKind.Point, vertices, [], CurveDimensions.Height));
        Assert.Contains("height", fault.Message, StringComparison.Ordinal);
        Assert.Equal(21, Bytes(CurveKind.Point, vertices, [], CurveDimensions.Plane).Length);
    }

    [Theory]
    [InlineData(CurveKind.CompoundCurve, "T")]
    [InlineData(CurveKind.CompoundCurve, "F")]
    [InlineData(CurveKind.CompoundCurve, "FT")]
    [InlineData(CurveKind.CompoundCurve, "FTTF")]
    [InlineData(CurveKind.LineString, "FTF")]
    [InlineData(CurveKind.CircularString, "FFF")]
    [InlineData(CurveKind.CircularString, "FTFF")]
    [InlineData(CurveKind.CurvePolygon, "FTF")] // does not close
    [InlineData(CurveKind.Point, "FF")]
    [InlineData(CurveKind.None, "F")]
    public void Write_VerticesThatAreNotTheKind_AreRefused(CurveKind kind, string onArc)
    {
        var vertices = onArc.Select((c, i) => new CurveVertex(i, i * i, 0, 0, c == 'T')).ToArray();
        Assert.ThrowsAny<ArgumentException>(() => Bytes(kind, vertices, [], CurveDimensions.Plane));
    }

    [Fact]
    public void Read_PointOfNaN_IsEmpty() =>
        Assert.True(Shape(Convert.FromHexString("0101000000" + "000000000000f87f" + "000000000000f87f")).IsEmpty); // OGC 12-128r17, 2.1.3.1.1: an empty point
}
