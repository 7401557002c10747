using System.Security.Cryptography;
using System.Text;

namespace Aslaid.Sheets;

/// <summary>
/// Gives a PDF an identifier that follows from its content. The drawing library draws a random one into metadata and
/// trailer; with it the same handover would never give the same hash twice.
/// </summary>
/// <remarks>
/// In the metadata the identifier always has the same length, so nothing behind it moves. In the trailer it is written now
/// as digits, now as escaped bytes; the trailer comes after the table of places, so it may change its length.
/// </remarks>
internal static class PdfIdentity
{
    private const string Blank = "00000000-0000-0000-0000-000000000000";

    /// <summary>The file with the identifier settled; a file without one as it is.</summary>
    public static byte[] Settled(byte[] pdf)
    {
        var (begin, end) = (pdf.AsSpan().LastIndexOf("/ID ["u8), pdf.AsSpan().LastIndexOf(">>\nstartxref"u8));
        if (begin < 0 || end < begin) return pdf;
        var (head, tail) = (pdf[..begin], pdf[end..]);
        Put(head, Blank);
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(head);
        hash.AppendData(tail);
        var id = new Guid(hash.GetHashAndReset().AsSpan(0, 16), bigEndian: true);
        Put(head, id.ToString("D"));
        var digits = id.ToString("N").ToUpperInvariant();
        return [.. head, .. Encoding.ASCII.GetBytes($"/ID [<{digits}> <{digits}>]"), .. tail];
    }

    /// <summary>Writes an identifier wherever the metadata has one.</summary>
    private static void Put(Span<byte> file, string id)
    {
        var mark = "ID>uuid:"u8;
        for (var rest = file; rest.IndexOf(mark) is >= 0 and var at; rest = rest[(at + mark.Length + id.Length)..])
            Encoding.ASCII.GetBytes(id, rest[(at + mark.Length)..]);
    }
}
