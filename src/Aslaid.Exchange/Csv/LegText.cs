using System.Text;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>The words for how a run reaches a shot.</summary>
internal static class LegText
{
    public const string Wanted = "is no leg; straight, through, first, last, home, alone or nothing was expected";

    /// <summary>Reads a word whatever its case; nothing is a straight.</summary>
    public static bool TryRead(ReadOnlySpan<byte> word, out Leg leg)
    {
        Leg? read = word.Length == 0 ? Leg.Straight
            : Ascii.EqualsIgnoreCase(word, "through"u8) ? Leg.Through
            : Ascii.EqualsIgnoreCase(word, "straight"u8) ? Leg.Straight
            : Ascii.EqualsIgnoreCase(word, "first"u8) ? Leg.First
            : Ascii.EqualsIgnoreCase(word, "last"u8) ? Leg.Last
            : Ascii.EqualsIgnoreCase(word, "home"u8) ? Leg.Home
            : Ascii.EqualsIgnoreCase(word, "alone"u8) ? Leg.Alone
            : null;
        leg = read ?? Leg.Straight;
        return read is not null;
    }
}
