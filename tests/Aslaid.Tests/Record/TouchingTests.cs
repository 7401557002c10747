using System.Collections.Immutable;
using Aslaid.Record;

namespace Aslaid.Tests;

public sealed class TouchingTests
{
    /// <summary>Chainages that often coincide, some before the start or past the end of a run of 10 m.</summary>
    private static readonly Gen<double> Chainage = Gen.OneOf(Gen.Int[-2, 12].Select(i => (double)i), Gen.Double[-1, 11]);

    private static readonly Gen<(double From, double To)[]> Stretches =
        Gen.OneOf(Gen.Select(Chainage, Chainage, (from, to) => (from, to)), Chainage.Select(at => (at, at))).Array[0, 25];

    [Theory]
    [InlineData(10.0)]
    [InlineData(0.0)]
    public void Next_AnyStretches_TellsTheSameAsLookingAtAll(double length) => Stretches.Sample(made =>
    {
        var stretches = made.Select((stretch, i) => new Stretch(stretch.From, stretch.To, 100 + i)).ToList();
        double[] edges = [.. made.SelectMany(s => new[] { s.From, s.To }).Select(at => Math.Clamp(at, 0, length)).Append(0).Append(length).Distinct().Order()];
        if (edges.Length == 1) edges = [0, length];
        var touching = new Touching(stretches, edges);
        for (var i = 0; i + 1 < edges.Length; i++)
        {
            touching.Next();
            var expected = LookingAtAll(stretches, edges[i], edges[i + 1]);
            Assert.Equal(expected, touching.Sources);
            Assert.Equal(expected.IsEmpty ? null : expected[^1], touching.LastSource);
        }
    });

    private static ImmutableArray<int> LookingAtAll(List<Stretch> stretches, double from, double to) =>
        [.. stretches.Where(s => (s.From <= from && s.To >= to) || (s.From == s.To && s.From >= from && s.From <= to)).Select(s => s.Source)];
}
