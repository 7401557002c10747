using System.Buffers;
using System.IO;
using System.Text.Json;
using Aslaid.Exchange;

namespace Aslaid.Tests;

public sealed class GeoPackageBlobTests
{
    private static readonly JsonElement Reference =
        JsonDocument.Parse(File.ReadAllText(System.IO.Path.Combine(AppContext.BaseDirectory, "reference", "09_gpkg_header.json"))).RootElement;

    [Fact]
    public void Read_WhatWriteWrote_GivesGeometryAndItsBox() => CurveGen.Any.Sample(vertices =>
    {
        var buffer = new ArrayBufferWriter<byte>();
        var box = GeoPackageBlob.Write(buffer, 100001, CurveKind.CompoundCurve, vertices, CurveDimensions.HeightAndMeasure);
        var shape = new CurveShape();
        var header = GeoPackageBlob.Read(buffer.WrittenSpan, shape);
        return header == new GeoPackageHeader(100001, false, box, 56) && box == CurveBox.Of(vertices) && shape.Vertices.SequenceEqual(vertices);
    });

    // The unit tests of geomet (github.com/geomet/geomet, geomet/tests/test_geopackage.py); the second blob adapted to the standard's order.
    [Theory]
    [InlineData("point_no_envelope_le", false)]
    [InlineData("point_xy_envelope_le", true)]
    public void ReadAndWrite_PublishedBlob_Agree(string id, bool withEnvelope)
    {
        var blob = Reference.GetProperty("blobs").EnumerateArray().Single(b => b.GetProperty("id").GetString() == id);
        var bytes = Convert.FromHexString(blob.GetProperty("hex").GetString()!);
        var point = new CurveVertex(blob.GetProperty("point")[0].GetDouble(), blob.GetProperty("point")[1].GetDouble(), double.NaN, double.NaN, false);

        var shape = new CurveShape();
        var header = GeoPackageBlob.Read(bytes, shape);
        Assert.Equal(blob.GetProperty("srs_id").GetInt32(), header.SrsId);
        Assert.Equal(withEnvelope, header.Box is not null);
        Assert.Equal([point], shape.Vertices.ToArray());

        var buffer = new ArrayBufferWriter<byte>();
        GeoPackageBlob.WriteHeader(buffer, header.SrsId, withEnvelope ? CurveBox.Of([point]) : null, withHeight: false);
        CurveWkb.Write(buffer, CurveKind.Point, [point], CurveDimensions.Plane);
        Assert.Equal(Convert.ToHexString(bytes), Convert.ToHexString(buffer.WrittenSpan));
    }

    [Fact]
    public void ReadHeader_PublishedFlags_GivesPublishedOffsets()
    {
        var offsets = Reference.GetProperty("wkb_offset");
        foreach (var row in Reference.GetProperty("flags").EnumerateArray())
        {
            var blob = new byte[8 + 64];
            (blob[0], blob[1], blob[3]) = ((byte)'G', (byte)'P', row.GetProperty("flags").GetByte());
            var header = GeoPackageBlob.ReadHeader(blob);
            var name = row.GetProperty("envelope").GetInt32() switch { 0 => "none", 1 => "xy", 2 => "xyz", 3 => "xym", _ => "xyzm" };
            Assert.Equal(offsets.GetProperty(name).GetInt32(), header.WkbOffset);
            Assert.Equal(row.GetProperty("empty").GetInt32() == 1, header.IsEmpty);
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("4750")]
    [InlineData("4850000100000000")] // HP
    [InlineData("4750010100000000")] // version 2
    [InlineData("4750002100000000")] // extended
    [InlineData("4750000b00000000")] // envelope 5
    [InlineData("4750000300000000")] // envelope missing
    public void ReadHeader_NoStandardBlob_IsAFormatException(string hex) =>
        Assert.Throws<FormatException>(() => GeoPackageBlob.ReadHeader(Convert.FromHexString(hex)));
}
