using System.Security.Cryptography;
using System.Text;

namespace Aslaid.Sheets;

/// <summary>
/// Gives a PDF an identifier that follows from its content. The drawing library draws a random one into the trailer and
/// the metadata; with it the same handover would never give the same hash twice.
/// </summary>
internal static class PdfIdentity
{
    private const int Digits = 32;

    /// <summary>Replaces the identifier, in place, wherever it stands; a file without one stays as it is.</summary>
    public static void Settle(Span<byte> pdf)
    {
        var mark = "/ID [<"u8;
        var at = pdf.LastIndexOf(mark);
        if (at < 0 || at + mark.Length + Digits > pdf.Length) return;
        var plain = Encoding.ASCII.GetString(pdf.Slice(at + mark.Length, Digits));
        var blank = new string('0', Digits);
        Replace(pdf, plain, blank);
        Replace(pdf, Dashed(plain), Dashed(blank));
        var settled = Convert.ToHexString(SHA256.HashData(pdf))[..Digits];
        Replace(pdf[at..], blank, settled);
        Replace(pdf, Dashed(blank), Dashed(settled));
    }

    private static string Dashed(string id) => $"uuid:{id[..8]}-{id[8..12]}-{id[12..16]}-{id[16..20]}-{id[20..]}".ToLowerInvariant();

    private static void Replace(Span<byte> within, string old, string by)
    {
        var (from, to) = (Encoding.ASCII.GetBytes(old), Encoding.ASCII.GetBytes(by));
        for (var rest = within; rest.IndexOf(from) is >= 0 and var at; rest = rest[(at + to.Length)..]) to.CopyTo(rest[at..]);
    }
}
