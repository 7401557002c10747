using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using System.IO;
using System.Text;
using Aslaid.Exchange;
using Aslaid.Geometry;
using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;

namespace Aslaid.Benchmarks;

/// <summary>One thing timed at one size.</summary>
/// <param name="Held">Bytes that its outcome keeps.</param>
internal readonly record struct DesignTime(string Size, double Seconds, long Held);

/// <summary>What designs cost.</summary>
internal static class DesignRuns
{
    public static ImmutableArray<(string What, int[] Sizes, Func<int, int, DesignTime> Run)> All { get; } =
    [
        ("deviations, shots against a tenth as many pieces", [10_000, 100_000, 1_000_000], Deviations),
        ("triangles made ready", [10_000, 100_000, 1_000_000], Triangles),
        ("heights asked of as many triangles", [10_000, 100_000, 1_000_000], Heights),
        ("LandXML of so many points and twice as many faces", [50_000, 500_000, 3_700_000], LandXml),
    ];

    /// <summary>Every shot of a site against lines that are its runs by two straights each.</summary>
    private static DesignTime Deviations(int shots, int repeats)
    {
        var inputs = SampleInputs.Of(SampleSites.OfSize(shots, seed: 1));
        var record = Derivation.Derive(inputs, ParallelWorkers.Instance);
        var (lines, pieces) = (ImmutableArray.CreateBuilder<DesignLine>(), 0);
        for (var number = 0; number < record.Runs.Count; number++)
        {
            var run = record.Runs[number];
            if (run.MemberCount < 3) continue;
            PathVertex Vertex(int member) => new(record.Shots.At(run.Members[member]), record.Shots.HeightOf(run.Members[member]), false);
            if (!Aslaid.Geometry.Path.TryBuild([Vertex(0), Vertex(run.MemberCount / 2), Vertex(run.MemberCount - 1)], 0, out var path, out _)) continue;
            lines.Add(new(run.Key, [run.Code], path));
            pieces += path.Pieces.Length;
        }

        var with = inputs with { Designs = [new(new("design.xml", "", null, null, SurfaceKind.Designed, null, null), 1, true, new(lines.ToImmutable(), [], [], []))] };
        var site = Derivation.Derive(with, ParallelWorkers.Instance).Site;
        var matched = Enumerable.Range(0, site.Runs.Count).Sum(run => Enumerable.Range(0, site.Runs[run].MemberCount).Count(member => site.Match.LineOf(site.Runs[run], member) >= 0));
        return Timed(string.Create(CultureInfo.InvariantCulture, $"{shots} shots ({matched} on a line), {pieces} pieces"), repeats, () => DesignMatch.Of(site, ParallelWorkers.Instance));
    }

    private static (Point2[] Places, double[] Heights, int[] Triangles) Field(int triangles)
    {
        var side = (int)Math.Ceiling(Math.Sqrt(triangles / 2.0));
        var numbers = new Random(4);
        var (places, heights, corners) = (new Point2[(side + 1) * (side + 1)], new double[(side + 1) * (side + 1)], new int[6 * side * side]);
        for (var i = 0; i < places.Length; i++) (places[i], heights[i]) = (new(512_000 + i % (side + 1) + 0.6 * numbers.NextDouble(), 6_243_000 + i / (side + 1) + 0.6 * numbers.NextDouble()), 5 + numbers.NextDouble());
        for (var i = 0; i < side * side; i++)
        {
            var a = i / side * (side + 1) + i % side;
            int[] both = [a, a + 1, a + side + 2, a, a + side + 2, a + side + 1];
            both.CopyTo(corners, 6 * i);
        }

        return (places, heights, corners);
    }

    private static Tin Made(int triangles)
    {
        var (places, heights, corners) = Field(triangles);
        return Tin.TryOf(places, heights, corners, out var tin, out var fault) ? tin : throw new InvalidOperationException(fault);
    }

    private static DesignTime Triangles(int triangles, int repeats)
    {
        var (places, heights, corners) = Field(triangles);
        return Timed(string.Create(CultureInfo.InvariantCulture, $"{corners.Length / 3} triangles"), repeats, () => Tin.TryOf(places, heights, corners, out var tin, out _) ? tin : null);
    }

    private static DesignTime Heights(int triangles, int repeats)
    {
        var tin = Made(triangles);
        var numbers = new Random(5);
        var asked = new Point2[triangles];
        for (var i = 0; i < asked.Length; i++) asked[i] = new(tin.Box.MinEast + numbers.NextDouble() * (tin.Box.MaxEast - tin.Box.MinEast), tin.Box.MinNorth + numbers.NextDouble() * (tin.Box.MaxNorth - tin.Box.MinNorth));
        return Timed(string.Create(CultureInfo.InvariantCulture, $"{asked.Length} heights"), repeats, () =>
        {
            var sum = 0.0;
            foreach (var at in asked) sum += tin.HeightAt(at) ?? 0;
            return sum;
        });
    }

    private static DesignTime LandXml(int points, int repeats)
    {
        var path = System.IO.Path.GetTempFileName();
        try
        {
            var (places, heights, corners) = Field(2 * points);
            using (var text = new StreamWriter(path, new UTF8Encoding(false), new() { Mode = FileMode.Create, Access = FileAccess.Write, BufferSize = 1 << 20 }))
            {
                text.Write("<LandXML xmlns=\"http://www.landxml.org/schema/LandXML-1.2\" version=\"1.2\"><Units><Metric linearUnit=\"meter\"/></Units><Surfaces><Surface name=\"FG\"><Definition surfType=\"TIN\"><Pnts>\n");
                for (var i = 0; i < places.Length; i++) text.Write(FormattableString.Invariant($"<P id=\"{i + 1}\">{places[i].North:F4} {places[i].East:F4} {heights[i]:F4}</P>\n"));
                text.Write("</Pnts><Faces>\n");
                for (var i = 0; i < corners.Length; i += 3) text.Write(FormattableString.Invariant($"<F>{corners[i] + 1} {corners[i + 1] + 1} {corners[i + 2] + 1}</F>\n"));
                text.Write("</Faces></Definition></Surface></Surfaces></LandXML>\n");
            }

            return Timed(string.Create(CultureInfo.InvariantCulture, $"{new FileInfo(path).Length / 1e6:0} MB"), repeats, () =>
            {
                using var stream = File.OpenRead(path);
                return DesignReaders.Read(stream, new("design.xml")).Design!;
            });
        }
        finally
        {
            File.Delete(path);
        }
    }

    /// <summary>Once to warm up, then the median; what is held is what the outcome keeps alive.</summary>
    private static DesignTime Timed(string size, int repeats, Func<object?> run)
    {
        var before = GC.GetTotalMemory(true);
        var outcome = run();
        var held = GC.GetTotalMemory(true) - before;
        GC.KeepAlive(outcome);
        outcome = null;
        var seconds = new double[repeats];
        for (var i = 0; i < repeats; i++)
        {
            GC.Collect();
            var clock = Stopwatch.StartNew();
            GC.KeepAlive(run());
            seconds[i] = clock.Elapsed.TotalSeconds;
        }

        Array.Sort(seconds);
        return new(size, seconds[repeats / 2], held);
    }
}
