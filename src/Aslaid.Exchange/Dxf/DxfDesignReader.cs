using System.IO;

namespace Aslaid.Exchange;

/// <summary>
/// Reads lines, arcs, points and faces of an ASCII DXF, from R12 on: straights and circular arcs as they are drawn, blocks taken apart,
/// faces of a layer as one surface. What is neither is counted and passed over.
/// </summary>
internal sealed class DxfDesignReader : IDesignReader
{
    private static ReadOnlySpan<byte> Binary => " Binary DXF\r\n\u001a\0"u8; // how the first line of the format's binary kind ends

    public string Name => "DXF";

    public bool Recognises(ReadOnlySpan<byte> head, string fileName)
    {
        if (fileName.EndsWith(".dxf", StringComparison.OrdinalIgnoreCase) || (head.IndexOf(Binary) is >= 0 and < 16)) return true;
        if (head.StartsWith("\uFEFF"u8)) head = head[3..];
        while (true)
        {
            var code = Line(ref head);
            var value = Line(ref head);
            if (!code.SequenceEqual("999"u8)) return code.SequenceEqual("0"u8) && value.SequenceEqual("SECTION"u8);
        }
    }

    public void Read(Stream file, DesignOptions options, DesignGather into)
    {
        var head = new byte[32];
        var got = file.ReadAtLeast(head, head.Length, throwOnEndOfStream: false);
        if (head.AsSpan(0, got).IndexOf(Binary) >= 0) throw new DesignRefusedException(0, null, "the file is a binary DXF; an ASCII DXF was expected: save it again as ASCII DXF");
        file.Position = 0;
        new DxfReading(file, options, into).Read();
    }

    /// <summary>The next line without its blanks; empty at the end.</summary>
    private static ReadOnlySpan<byte> Line(ref ReadOnlySpan<byte> text)
    {
        var end = text.IndexOf((byte)'\n');
        var line = end < 0 ? text : text[..end];
        text = end < 0 ? [] : text[(end + 1)..];
        return line.Trim(" \t\r"u8);
    }
}
