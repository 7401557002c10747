using System.Globalization;
using System.IO;
using System.Text.Json;

namespace Aslaid.Exchange;

/// <summary>A design as GeoJSON (RFC 7946): points, lines, and areas with each ring a closed line; the third ordinate is the height.</summary>
/// <remarks>
/// The file is read through twice, since what says its coordinate system may stand at its end; one feature at a time is in memory.
/// </remarks>
internal sealed class GeoJsonDesignReader : IDesignReader
{
    public string Name => "GeoJSON";

    public bool Recognises(ReadOnlySpan<byte> head, string fileName)
    {
        if (head.StartsWith("\uFEFF"u8)) head = head[3..];
        if (!head.TrimStart(" \t\r\n"u8).StartsWith("{"u8)) return false;
        return fileName.EndsWith("json", StringComparison.OrdinalIgnoreCase) || head.IndexOf("\"Feature"u8) >= 0 || head.IndexOf("\"coordinates\""u8) >= 0;
    }

    public void Read(Stream file, DesignOptions options, DesignGather into)
    {
        try
        {
            var head = GeoJsonHead.Of(file);
            var (frame, mayBeDegrees) = FrameOf(head, options, into);
            file.Position = 0;
            var (feed, features) = (new JsonFeed(file), new GeoJsonFeatures(head, frame, into));
            if (head.Type == "FeatureCollection") Collection(feed, features);
            else if (feed.TryWhole(out var whole, out var line)) features.Root(whole, line);
            features.Finish();
            if (mayBeDegrees && features.LooksLikeDegrees)
                throw new DesignRefusedException(0, null, "every coordinate lies within 180 and 90, as degrees do, and the site names no coordinate system; name the site's coordinate system, or write the file in the site grid and say so by \"crs\": null");
            if (mayBeDegrees && features.Any) into.Remark("Coordinates were taken as the site grid, though GeoJSON by RFC 7946 knows degrees of WGS 84 only: compare them with known points.");
        }
        catch (JsonException fault)
        {
            throw new DesignRefusedException((int)Math.Min((fault.LineNumber ?? -1) + 1, int.MaxValue), null, string.Create(CultureInfo.InvariantCulture,
                $"the text is not well-formed from byte {(fault.BytePositionInLine ?? 0) + 1} of the line on, or nested more than 64 deep; JSON was expected"));
        }
        catch (FormatException fault)
        {
            throw new DesignRefusedException(0, null, fault.Message);
        }
    }

    private static void Collection(JsonFeed feed, GeoJsonFeatures features)
    {
        feed.Read();
        while (feed.Read() && feed.Token == JsonTokenType.PropertyName)
        {
            if (feed.Text != "features")
            {
                feed.Skip();
                continue;
            }

            feed.Read();
            if (feed.Token != JsonTokenType.StartArray) throw new DesignRefusedException(feed.Line, "features", "is no array; the features of the collection were expected");
            while (feed.TryWhole(out var feature, out var line)) features.Feature(feature, line);
        }
    }

    /// <summary>The frame of the file, and whether its coordinates could be degrees for all that is known.</summary>
    private static (DesignFrame Frame, bool MayBeDegrees) FrameOf(GeoJsonHead head, DesignOptions options, DesignGather into)
    {
        const string of = "the file";
        if (head.IsBare) return (DesignFrame.Site(options.UnitInMetres ?? 1), false);
        if (head.System is not { } system)
            return options.CoordinateSystem is null ? (DesignFrame.Site(options.UnitInMetres ?? 1), true) : (DesignFrame.OfWgs84(of, options, into), false);
        if (system.EndsWith("CRS84", StringComparison.OrdinalIgnoreCase)) return (DesignFrame.OfWgs84(of, options, into), false);
        return (GeoJsonHead.EpsgIn(system) is { } code && !system.Contains('[', StringComparison.Ordinal) ? DesignFrame.OfEpsg(code, of, null, options, into) : DesignFrame.OfWkt(system, of, options, into), false);
    }
}
