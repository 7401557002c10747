using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Measures every run: lengths, area, radii, each with its gradient by member and its standard uncertainty.</summary>
internal sealed class RunMeasures(RunTable runs)
{
    private const int RunsAPart = 512;

    public static void Fill(RunTable runs, IWorkers workers)
    {
        var measures = new RunMeasures(runs);
        workers.Do((runs.Count + RunsAPart - 1) / RunsAPart, measures.MeasurePart);
    }

    private void MeasurePart(int part)
    {
        var (scratch, propagation) = (new Scratch(), new Propagation(runs.Shots));
        for (var run = part * RunsAPart; run < Math.Min(runs.Count, (part + 1) * RunsAPart); run++) Measure(runs[run], scratch, propagation);
    }

    private void Measure(Run run, Scratch scratch, Propagation propagation)
    {
        var number = run.Number;
        var path = scratch.Load(run);
        path.Chainages(runs.Chainages.AsSpan(run.FirstMember, run.MemberCount));
        runs.Boxes[number] = path.Box;

        var east = Own(runs.Gradients.PlanEast);
        var north = Own(runs.Gradients.PlanNorth);
        runs.PlanLength[number] = PathMeasures.PlanLength(path, east, north);
        propagation.Add(run.Members, east, north);
        runs.UPlanLength[number] = propagation.Take();

        east = Own(runs.Gradients.SlopeEast);
        north = Own(runs.Gradients.SlopeNorth);
        var height = Own(runs.Gradients.SlopeHeight);
        var slope = PathMeasures.SlopeLength(path, east, north, height);
        propagation.Add(run.Members, east, north, height);
        runs.SlopeLength[number] = slope ?? double.NaN;
        var uSlope = propagation.Take();
        runs.USlopeLength[number] = slope is null ? double.NaN : uSlope;

        (runs.Area[number], runs.UArea[number]) = (double.NaN, double.NaN);
        if (run.IsClosed && path.IsClosed)
        {
            scratch.Zeros(run.MemberCount, out east, out north);
            runs.Area[number] = Math.Abs(PathMeasures.Area(path, east, north));
            propagation.Add(run.Members, east, north);
            runs.UArea[number] = propagation.Take();
        }

        for (var piece = 0; piece < run.PieceCount; piece++)
        {
            var arc = run.Piece(piece).ArcNumber;
            if (arc < 0) continue;
            var (first, count) = (path.Pieces[piece].First, path.Pieces[piece].Last - path.Pieces[piece].First + 1);
            PathPiece alone = path.Pieces[piece] with { First = 0, Last = count - 1 }; // a radius answers to no shot but its own
            scratch.Zeros(count, out east, out north);
            PathMeasures.Radius(new(path.Vertices.Slice(first, count), new(in alone)), 0, east, north);
            propagation.Add(run.Members.Slice(first, count), east, north);
            runs.URadius[arc] = propagation.Take();
        }

        Span<double> Own(double[] column) => column.AsSpan(run.FirstMember, run.MemberCount);
    }

    /// <summary>What one worker needs for one run, used again for the next.</summary>
    private sealed class Scratch
    {
        private PathVertex[] vertices = new PathVertex[64];
        private PathPiece[] pieces = new PathPiece[64];
        private double[] east = new double[64];
        private double[] north = new double[64];

        public PathSpan Load(Run run)
        {
            var members = run.MemberCount;
            if (members > vertices.Length) (vertices, east, north) = (new PathVertex[2 * members], new double[2 * members], new double[2 * members]);
            if (run.PieceCount > pieces.Length) pieces = new PathPiece[2 * run.PieceCount];
            var shots = run.Table.Shots;
            for (var member = 0; member < members; member++)
            {
                var shot = run.Members[member];
                vertices[member] = new(shots.At(shot), shots.HeightOf(shot), run.Through[member]);
            }

            for (var piece = 0; piece < run.PieceCount; piece++) pieces[piece] = run.Piece(piece).InPath;
            return new(vertices.AsSpan(0, members), pieces.AsSpan(0, run.PieceCount));
        }

        /// <summary>Zeros for a gradient that is not kept.</summary>
        public void Zeros(int members, out Span<double> toEast, out Span<double> toNorth)
        {
            toEast = east.AsSpan(0, members);
            toNorth = north.AsSpan(0, members);
            toEast.Clear();
            toNorth.Clear();
        }
    }
}
