using System.Buffers;
using System.Collections;
using System.Collections.Concurrent;
using System.Runtime.InteropServices;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>A geometry as its bytes in a GeoPackage, and its box for the index.</summary>
/// <param name="LacksHeights">It was written without heights, since one is missing.</param>
public sealed record EncodedGeometry(byte[] Blob, CurveBox Box, bool LacksHeights);

/// <summary>A run made ready for the layers.</summary>
/// <param name="True">With true arcs.</param>
/// <param name="Chorded">With chords.</param>
internal sealed record EncodedRun(Run Run, bool IsArea, string State, EncodedGeometry True, EncodedGeometry Chorded, VertexTexts Texts);

/// <summary>
/// The runs of a record made ready for the layers, in order. One thread encodes while another inserts; it keeps at most
/// <see cref="Ahead"/> runs ahead.
/// </summary>
internal sealed class EncodedRuns : IEnumerable<EncodedRun>, IDisposable
{
    private const int Ahead = 16_384;
    private readonly BlockingCollection<EncodedRun> ready = new(Ahead);
    private readonly CancellationTokenSource given = new();
    private readonly Task encoding;

    public EncodedRuns(AsBuiltRecord record, int srsId, double sagitta) => encoding = Task.Run(() => Encode(record, srsId, sagitta));

    private void Encode(AsBuiltRecord record, int srsId, double sagitta)
    {
        try
        {
            var states = RunStates.Of(record);
            var (vertices, blob) = (new List<CurveVertex>(), new ArrayBufferWriter<byte>(4096));
            for (var number = 0; number < record.Runs.Count; number++)
            {
                var run = record.Runs[number];
                if (run.PieceCount == 0) continue;
                var area = RecordLayers.IsArea(run);
                CurveVertices.True(run, vertices);
                var curved = area ? Geometry(CurveKind.CurvePolygon, CurveDimensions.Height) : Geometry(CurveKind.CompoundCurve, CurveDimensions.HeightAndMeasure);
                CurveVertices.Chorded(run, sagitta, vertices);
                var chorded = area ? Geometry(CurveKind.Polygon, CurveDimensions.Height) : Geometry(CurveKind.LineString, CurveDimensions.HeightAndMeasure);
                ready.Add(new(run, area, states[number], curved, chorded, VertexTexts.Of(run)), given.Token);
            }

            EncodedGeometry Geometry(CurveKind kind, CurveDimensions dimensions)
            {
                var span = CollectionsMarshal.AsSpan(vertices);
                var lacks = false;
                foreach (ref readonly var vertex in span) lacks |= double.IsNaN(vertex.Height);
                if (lacks) dimensions &= ~CurveDimensions.Height;
                blob.ResetWrittenCount();
                var box = GeoPackageBlob.Write(blob, srsId, kind, span, dimensions);
                return new(blob.WrittenSpan.ToArray(), box, lacks);
            }
        }
        finally
        {
            ready.CompleteAdding();
        }
    }

    public IEnumerator<EncodedRun> GetEnumerator()
    {
        foreach (var run in ready.GetConsumingEnumerable()) yield return run;
        encoding.GetAwaiter().GetResult(); // whatever went wrong there goes wrong here
    }

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();

    /// <summary>Ends the encoding where the runs were not all asked for.</summary>
    public void Dispose()
    {
        given.Cancel();
        ((IAsyncResult)encoding).AsyncWaitHandle.WaitOne();
        ready.Dispose();
        given.Dispose();
    }
}
