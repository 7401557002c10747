using System.Text;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>
/// Finds the number of a word by its bytes, so that a word already met costs neither a string nor a decoding. Neighbouring rows
/// mostly carry the same word, which is looked at first.
/// </summary>
internal sealed class WordColumn(Words words)
{
    private const int Refused = -2;
    private int[] buckets = NewBuckets(64);
    private readonly List<(byte[] Word, int Hash, int Number)> met = [];
    private byte[] last = [];
    private int lastNumber = Words.None;

    /// <summary>The number of a word, kept if it is new; <see cref="Words.None"/> for no bytes.</summary>
    /// <param name="plain">False where the word holds characters that cannot be seen, and it must not; it is then not kept.</param>
    public int Keep(ReadOnlySpan<byte> word, bool mustBePlain, out bool plain)
    {
        plain = true;
        if (word.Length == 0) return Words.None;
        if (!word.SequenceEqual(last)) Meet(word, mustBePlain);
        plain = lastNumber != Refused;
        return plain ? lastNumber : Words.None;
    }

    private void Meet(ReadOnlySpan<byte> word, bool mustBePlain)
    {
        var hashing = new HashCode();
        hashing.AddBytes(word);
        var hash = hashing.ToHashCode();
        var bucket = hash & (buckets.Length - 1);
        while (buckets[bucket] >= 0)
        {
            var known = met[buckets[bucket]];
            if (known.Hash == hash && word.SequenceEqual(known.Word))
            {
                (last, lastNumber) = (known.Word, known.Number);
                return;
            }

            bucket = (bucket + 1) & (buckets.Length - 1);
        }

        last = word.ToArray();
        lastNumber = mustBePlain && CellText.HasUnseen(word) ? Refused : words.Keep(Encoding.UTF8.GetString(Csv.Unguarded(word)));
        buckets[bucket] = met.Count;
        met.Add((last, hash, lastNumber));
        if (2 * met.Count > buckets.Length) Grow();
    }

    private void Grow()
    {
        buckets = NewBuckets(2 * buckets.Length);
        for (var place = 0; place < met.Count; place++)
        {
            var bucket = met[place].Hash & (buckets.Length - 1);
            while (buckets[bucket] >= 0) bucket = (bucket + 1) & (buckets.Length - 1);
            buckets[bucket] = place;
        }
    }

    private static int[] NewBuckets(int count)
    {
        var made = new int[count];
        Array.Fill(made, -1);
        return made;
    }
}
