using Aslaid.Record;

namespace Aslaid.Tests;

/// <summary>Checks along runs on sites that are right and uneven: nothing stops, and few things want a look.</summary>
public class RealShapesTests
{
    private static readonly string[] Checks = ["curve-by-chords", "bend-not-shot", "level-jump", "pole-height-wrong"];

    [Fact]
    public void AlongRuns_UnevenButRight_NoStopAndFewLooks()
    {
        var (stops, looks, shots) = (new List<string>(), new List<string>(), 0);
        for (var seed = 1; seed <= 300; seed++)
        {
            var inputs = Street(seed);
            var table = Derivation.Derive(inputs).Findings;
            shots += inputs.Shots.Count;
            for (var i = 0; i < table.Count; i++)
            {
                if (!Checks.Contains(table[i].Check.Name) || table[i].Severity == Severity.Note) continue;
                (table[i].Severity == Severity.Stop ? stops : looks).Add(FormattableString.Invariant($"{seed} {table[i].Check.Name}: {table[i].Message}"));
            }
        }

        Assert.Empty(stops);
        Assert.True(looks.Count * 100.0 / shots < 1, FormattableString.Invariant($"{looks.Count} looks of {shots} shots\n") + string.Join('\n', looks));
    }

    /// <summary>Kerb face and back shot together with dropped crossings, a duct that dips, one that rises to its end, a ring with corners, a slow bend; all laid with 10 mm of unevenness.</summary>
    private static RecordInputs Street(int seed)
    {
        var shots = new NoisyShots(seed, 67);
        var n = shots.Numbers;
        var (fall, phase) = (n.Between(-0.04, 0.04), n.Between(0, Math.Tau));
        var kerb = Shape(30, -n.Between(0.06, 0.13), 8);
        for (var i = 0; i < 30; i++)
        {
            shots.Add("KERB", "F1", 5 * i, 10, Ground(5 * i) + kerb[i]);
            shots.Add("KERB", "B1", 5 * i + 0.3, 10.15, Ground(5 * i) + kerb[i]);
        }

        var dip = Shape(25, -n.Between(0.15, 0.6), 8);
        for (var i = 0; i < 25; i++) shots.Add("DUCT", "D1", 6 * i, -10, Ground(6 * i) - 0.8 + dip[i]);
        for (var i = 0; i < 25; i++) shots.Add("DUCT", "D2", 6 * (25 - i), -10.4, Ground(6 * i) - 0.8 + Math.Max(0, (i - 21) * 0.15));
        (double East, double North)[] corners = [(200, 0), (208, 0), (208, 6), (200, 6)];
        foreach (var (east, north) in corners) shots.Add("ISLAND", "I1", east, north, Ground(east));
        var radius = n.Between(150, 600);
        for (var i = 0; i < 20; i++) shots.Add("DUCT", "D3", radius * Math.Sin(6 * i / radius), -40 - radius * (1 - Math.Cos(6 * i / radius)), Ground(6 * i) - 0.8);
        var drop = n.Between(0.05, 0.3);
        for (var i = 0; i < 16; i++) shots.Add("DUCT", "D4", 6 * i, 40, Ground(6 * i) - 0.8 - (i > 7 ? drop : 0));
        return shots.Inputs;

        double Ground(double east) => 6 + fall * east + 0.05 * Math.Sin(east / 20 + phase) + 0.010 * n.Normal();

        double[] Shape(int count, double depth, int longest)
        {
            var shape = new double[count];
            for (var at = 2 + n.Whole(6); at < count;)
            {
                var length = 2 + n.Whole(longest - 1);
                for (var i = at; i < Math.Min(count, at + length); i++) shape[i] = depth;
                at += length + 4 + n.Whole(8);
            }

            return shape;
        }
    }
}
