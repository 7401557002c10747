using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Aslaid.Record;

namespace Aslaid.Tests;

public sealed class JournalTests
{
    [Fact]
    public void Decode_EncodedEntry_GivesTheSameBytesAgain() => ChangeGen.Entry.Sample(entry =>
    {
        var bytes = ChangeCodec.Encode(entry);
        var back = ChangeCodec.Decode(bytes);
        return back.Position == entry.Position && back.Time.EqualsExact(entry.Time) && back.By == entry.By && back.Why == entry.Why
            && ChangeCodec.Encode(back).AsSpan().SequenceEqual(bytes);
    });

    [Fact]
    public void Encode_NumbersInAnyCulture_AreTheirIeeeBits()
    {
        var entry = new JournalEntry(3, new(2026, 3, 10, 8, 15, 0, TimeSpan.FromHours(1)), Actor.Typed("Ü"), "0,1", new PoleHeightCorrected([new(1, 2)], 2.0, 0.1));
        const string expected = """{"position":3,"time":"2026-03-10T08:15:00.0000000+01:00","by":"Ü","by_proof":"typed","why":"0,1","kind":"pole-height-corrected","shots":["1:2"],"entered_m":"4000000000000000 2","true_m":"3fb999999999999a 0.1"}""";
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new("de-DE");
            Assert.Equal(expected, Encoding.UTF8.GetString(ChangeCodec.Encode(entry)));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Encode_MinusZero_IsZero()
    {
        var minus = ChangeCodec.Encode(new(1, default, default, "", new LengthCovered("r", -0.0, 1)));
        var plus = ChangeCodec.Encode(new(1, default, default, "", new LengthCovered("r", 0.0, 1)));
        Assert.Equal(plus, minus);
    }

    [Fact]
    public void Encode_NotANumber_IsRefused() =>
        Assert.Throws<ArgumentException>(() => ChangeCodec.Encode(new(1, default, default, "", new LengthCovered("r", double.NaN, 1))));

    [Theory]
    [InlineData("{}")]
    [InlineData("not json")]
    [InlineData("""{"position":1,"time":"yesterday","by":"a","by_proof":"typed","why":"","kind":"withdrawn","entry":1}""")]
    [InlineData("""{"position":1,"time":"2026-03-10T08:15:00.0000000+01:00","by":"a","by_proof":"typed","why":"","kind":"from-the-future"}""")]
    [InlineData("""{"position":1,"time":"2026-03-10T08:15:00.0000000+01:00","by":"a","by_proof":"typed","why":"","kind":"set-aside","shots":["x"]}""")]
    public void Decode_NoEntry_SaysSo(string text) =>
        Assert.Throws<FormatException>(() => ChangeCodec.Decode(Encoding.UTF8.GetBytes(text)));

    // The value was computed outside with Python's hashlib over 32 zero bytes and the bytes of the text.
    [Fact]
    public void Next_KnownEntry_IsSha256OfBeforeAndBytes() => Assert.Equal(
        "2b9ab6d18a027b5596b6f95d34a143af27414921ac03b10e91b12d95c2ade707", JournalChain.Print(JournalChain.Next(JournalChain.Origin, "entry"u8)));

    [Fact]
    public void InForce_WithdrawnWithdrawal_HoldsAgain()
    {
        ImmutableArray<JournalEntry> journal =
        [
            Entry(1, new SetAside([new(1, 2)])), Entry(2, new Withdrawn(1)), Entry(3, new Withdrawn(2)), Entry(4, new SetAside([new(1, 3)])), Entry(5, new Withdrawn(4)),
        ];
        Assert.Equal([1, 3, 5], Replay.InForce(journal).Select(entry => entry.Position));
    }

    private static JournalEntry Entry(int position, Change what) => new(position, default, default, "", what);
}
