using System.Security.Cryptography;

namespace Aslaid.Record;

/// <summary>The hash chain over the journal: each hash is SHA-256 of the hash before (32 bytes, zeros at first) and the entry's bytes as kept.</summary>
public static class JournalChain
{
    /// <summary>What stands before the first entry.</summary>
    public static byte[] Origin => new byte[SHA256.HashSizeInBytes];

    /// <summary>The hash of the journal after an entry.</summary>
    public static byte[] Next(ReadOnlySpan<byte> before, ReadOnlySpan<byte> entry)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(before);
        hash.AppendData(entry);
        return hash.GetHashAndReset();
    }

    /// <summary>A hash as it is printed: lower-case hexadecimal.</summary>
    public static string Print(ReadOnlySpan<byte> hash) => Convert.ToHexStringLower(hash);
}
