using System.Collections.Immutable;
using System.IO;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>What a person says about a design file as it is adopted.</summary>
/// <param name="FileName">Name of the file, without its folder.</param>
/// <param name="UnitInMetres">Metres to a unit of its coordinates, where the file states no unit; null to refuse such a file where its format needs one.</param>
/// <param name="CoordinateSystem">Coordinate system of the site grid, an EPSG code or WKT 1; null for a bare site grid.</param>
public sealed record DesignOptions(string FileName, double? UnitInMetres = null, string? CoordinateSystem = null);

/// <summary>The outcome of reading a design file: it goes in whole or not at all.</summary>
/// <param name="Design">Null when the file was refused.</param>
/// <param name="Refused">Why it was refused; null where it was not.</param>
public sealed record DesignIntake(DesignFile? Design, Rejection? Refused);

/// <summary>Reads a design from one kind of file. A file that cannot be read is refused with <see cref="DesignRefusedException"/>.</summary>
internal interface IDesignReader
{
    /// <summary>What people call this kind of file.</summary>
    string Name { get; }

    /// <summary>Whether the file looks like this kind; looks at its first few thousand bytes only.</summary>
    bool Recognises(ReadOnlySpan<byte> head, string fileName);

    /// <summary>Reads the whole file from its start, as it streams by.</summary>
    /// <exception cref="DesignRefusedException">It cannot be read.</exception>
    void Read(Stream file, DesignOptions options, DesignGather into);
}

/// <summary>A design file that cannot be read: where, what was found, what was expected.</summary>
#pragma warning disable CA1032, CA1064 // thrown and caught here only
internal sealed class DesignRefusedException(int line, string? found, string expected) : Exception(expected)
{
    public Rejection Rejection { get; } = new(line, null, found is null ? null : CellText.Shown(found), expected);
}
#pragma warning restore CA1032, CA1064

/// <summary>Every reader of designs there is, in the order in which they are asked.</summary>
public static class DesignReaders
{
    private const int Head = 4096; // bytes

    private static ImmutableArray<IDesignReader> All { get; } =
    [
        new DxfDesignReader(),
    ];

    /// <summary>Reads a design file.</summary>
    /// <param name="file">Seekable, at its start.</param>
    public static DesignIntake Read(Stream file, DesignOptions options)
    {
        ArgumentNullException.ThrowIfNull(file);
        ArgumentNullException.ThrowIfNull(options);
        var head = new byte[Head];
        var got = file.ReadAtLeast(head, Head, throwOnEndOfStream: false);
        file.Position = 0;
        try
        {
            if (got == 0) throw new DesignRefusedException(0, null, "the file is empty; a design was expected");
            var reader = All.FirstOrDefault(known => known.Recognises(head.AsSpan(0, got), options.FileName))
                ?? throw new DesignRefusedException(0, null, $"this is no kind of file that is read as a design; {string.Join(", ", All.Select(known => known.Name))} was expected");
            var gather = new DesignGather();
            reader.Read(file, options, gather);
            return new(gather.Build(), null);
        }
        catch (DesignRefusedException refused)
        {
            return new(null, refused.Rejection);
        }
    }
}
