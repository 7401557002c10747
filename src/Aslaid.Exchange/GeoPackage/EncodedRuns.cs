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
/// <param name="Layer">The client's layer, or null.</param>
/// <param name="Attributes">Attributes by the client's field names, as <c>name=value</c> parted by semicolons; null for none.</param>
internal sealed record EncodedRun(Run Run, bool IsArea, string State, EncodedGeometry True, EncodedGeometry Chorded, VertexTexts Texts, string? Layer, string? Attributes);

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
            var (vertices, ring, blob) = (new List<CurveVertex>(), new List<CurveVertex>(), new ArrayBufferWriter<byte>(4096));
            var (ends, fields) = (new List<int>(), new ClientFields(record));
            for (var number = 0; number < record.Runs.Count; number++)
            {
                var run = record.Runs[number];
                if (run.PieceCount == 0) continue;
                var area = RecordLayers.IsArea(run);
                CurveVertices.True(run, vertices);
                AddHoles(run, area, hole => CurveVertices.True(hole, ring));
                var curved = area ? Geometry(CurveKind.CurvePolygon, CurveDimensions.Height) : Geometry(CurveKind.CompoundCurve, CurveDimensions.HeightAndMeasure);
                CurveVertices.Chorded(run, sagitta, vertices);
                AddHoles(run, area, hole => CurveVertices.Chorded(hole, sagitta, ring));
                var chorded = area ? Geometry(CurveKind.Polygon, CurveDimensions.Height) : Geometry(CurveKind.LineString, CurveDimensions.HeightAndMeasure);
                ready.Add(new(run, area, states[number], curved, chorded, VertexTexts.Of(run), record.Inputs.Delivery.LayerOf(run.Code), fields.TextOf(run) is { Length: > 0 } said ? said : null), given.Token);
            }

            // Holes follow the ring of their area; ends stays empty where there are none.
            void AddHoles(Run run, bool area, Action<Run> write)
            {
                ends.Clear();
                if (!area || record.Site.Holes.Of(run.Number) is not { Count: > 0 } holes) return;
                ends.Add(vertices.Count);
                foreach (var hole in holes)
                {
                    write(record.Runs[hole]);
                    vertices.AddRange(ring);
                    ends.Add(vertices.Count);
                }
            }

            EncodedGeometry Geometry(CurveKind kind, CurveDimensions dimensions)
            {
                var span = CollectionsMarshal.AsSpan(vertices);
                var lacks = false;
                foreach (ref readonly var vertex in span) lacks |= double.IsNaN(vertex.Height);
                if (lacks) dimensions &= ~CurveDimensions.Height;
                blob.ResetWrittenCount();
                var box = GeoPackageBlob.Write(blob, srsId, kind, span, CollectionsMarshal.AsSpan(ends), dimensions);
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
