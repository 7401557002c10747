using System.Text;
using Aslaid.Sheets;

namespace Aslaid.Tests;

public class PdfIdentityTests
{
    private static readonly Gen<byte[]> Ids = Gen.Byte.Array[16];

    /// <summary>The library writes the trailer's identifier in two ways; both name the same content.</summary>
    [Fact]
    public void Settled_SameContentUnderAnyIdentifier_GivesTheSameBytes() => Gen.Select(Ids, Ids, Gen.Bool).Sample((one, two, digits) =>
        Assert.Equal(PdfIdentity.Settled(File(one, "content", true)), PdfIdentity.Settled(File(two, "content", digits))));

    [Fact]
    public void Settled_OtherContent_GivesAnotherIdentifier() => Ids.Sample(id =>
    {
        var (one, two) = (Text(PdfIdentity.Settled(File(id, "content", true))), Text(PdfIdentity.Settled(File(id, "contents", true))));
        Assert.NotEqual(one[one.IndexOf("/ID", StringComparison.Ordinal)..], two[two.IndexOf("/ID", StringComparison.Ordinal)..]);
    });

    [Fact]
    public void Settled_FileWithoutIdentifier_StaysAsItIs() =>
        Assert.Equal("%PDF-1.4 %%EOF"u8.ToArray(), PdfIdentity.Settled("%PDF-1.4 %%EOF"u8.ToArray()));

    private static byte[] File(byte[] id, string content, bool digits)
    {
        var uuid = new Guid(id, bigEndian: true).ToString("D");
        var trailer = digits ? $"<{Convert.ToHexString(id)}>" : $"({Encoding.Latin1.GetString(id).Replace(">", "\\>", StringComparison.Ordinal)})";
        return Encoding.Latin1.GetBytes(
            $"%PDF-1.4\n<xmpMM:DocumentID>uuid:{uuid}</xmpMM:DocumentID>\n<xmpMM:InstanceID>uuid:{uuid}</xmpMM:InstanceID>\n{content}\ntrailer\n<</Size 45\n/ID [{trailer} {trailer}]>>\nstartxref\n370493\n%%EOF\n");
    }

    private static string Text(byte[] file) => Encoding.Latin1.GetString(file);
}
