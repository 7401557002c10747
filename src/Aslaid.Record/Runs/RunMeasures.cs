using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>
/// Measures every run: lengths, area, radii, each with its standard uncertainty by propagation (JCGM 100:2008, 5.2). The
/// gradient of a measure is gathered by shot, then by session, before anything is squared: a shot that comes twice counts
/// once, and what a session has in common cancels wherever it should.
/// </summary>
internal sealed class RunMeasures
{
    private const int RunsAPart = 512;
    private readonly CurrentShots shots;
    private readonly RunTable runs;
    private readonly double sessionPlan;
    private readonly double sessionHeight;

    private RunMeasures(RunTable runs, Settings settings)
    {
        (this.runs, shots) = (runs, runs.Shots);
        (sessionPlan, sessionHeight) = (settings.SessionUPlan / Math.Sqrt(2), settings.SessionUHeight);
    }

    public static void Fill(RunTable runs, Settings settings, IWorkers workers)
    {
        var measures = new RunMeasures(runs, settings);
        workers.Do((runs.Count + RunsAPart - 1) / RunsAPart, part =>
        {
            var scratch = new Scratch();
            for (var run = part * RunsAPart; run < Math.Min(runs.Count, (part + 1) * RunsAPart); run++) measures.Measure(run, scratch);
        });
    }

    private void Measure(int number, Scratch scratch)
    {
        var run = runs[number];
        scratch.Load(run);
        var path = scratch.Path;
        path.Chainages(runs.Chainages.AsSpan(run.FirstMember, run.MemberCount));
        runs.Boxes[number] = path.Box;

        scratch.Clear();
        runs.PlanLength[number] = PathMeasures.PlanLength(path, scratch.East, scratch.North);
        runs.UPlanLength[number] = Uncertainty(run.Members, scratch, false);

        scratch.Clear();
        var slope = PathMeasures.SlopeLength(path, scratch.East, scratch.North, scratch.Height);
        runs.SlopeLength[number] = slope ?? double.NaN;
        runs.USlopeLength[number] = slope is null ? double.NaN : Uncertainty(run.Members, scratch, true);

        (runs.Area[number], runs.UArea[number]) = (double.NaN, double.NaN);
        if (run.IsClosed)
        {
            scratch.Clear();
            runs.Area[number] = Math.Abs(PathMeasures.Area(path, scratch.East, scratch.North));
            runs.UArea[number] = Uncertainty(run.Members, scratch, false);
        }

        for (var piece = 0; piece < run.PieceCount; piece++)
        {
            var p = run.Piece(piece);
            if (p.ArcNumber < 0) continue;
            scratch.Clear();
            PathMeasures.Radius(path, piece, scratch.East, scratch.North);
            runs.URadius[p.ArcNumber] = Uncertainty(run.Members, scratch, false);
        }
    }

    /// <summary>NaN where a shot with weight states no accuracy.</summary>
    private double Uncertainty(ReadOnlySpan<int> members, Scratch scratch, bool withHeight)
    {
        var sum = 0.0;
        scratch.Gather(members, shots.Session);
        foreach (var (shot, east, north, height) in scratch.ByShot)
        {
            var plan = east * east + north * north;
            if (plan > 0) sum += plan * Square(shots.SigmaPlan[shot]);
            if (withHeight && height != 0) sum += height * height * Square(shots.SigmaHeight[shot]);
        }

        foreach (var (_, east, north, height) in scratch.BySession)
        {
            sum += (east * east + north * north) * Square(sessionPlan);
            if (withHeight) sum += height * height * Square(sessionHeight);
        }

        return Math.Sqrt(sum);
    }

    private static double Square(double x) => x * x;

    /// <summary>What one worker needs for one run, used again for the next.</summary>
    private sealed class Scratch
    {
        private PathVertex[] vertices = new PathVertex[64];
        private PathPiece[] pieces = new PathPiece[64];
        private double[] east = new double[64];
        private double[] north = new double[64];
        private double[] height = new double[64];
        private readonly Dictionary<int, int> placeOfShot = [];
        private readonly Dictionary<int, int> placeOfSession = [];
        private int members;
        private int pieceCount;

        public PathSpan Path => new(vertices.AsSpan(0, members), pieces.AsSpan(0, pieceCount));

        public Span<double> East => east.AsSpan(0, members);

        public Span<double> North => north.AsSpan(0, members);

        public Span<double> Height => height.AsSpan(0, members);

        public List<(int Shot, double East, double North, double Height)> ByShot { get; } = [];

        public List<(int Session, double East, double North, double Height)> BySession { get; } = [];

        public void Load(Run run)
        {
            (members, pieceCount) = (run.MemberCount, run.PieceCount);
            if (members > vertices.Length)
            {
                var size = 2 * members;
                (vertices, east, north, height) = (new PathVertex[size], new double[size], new double[size], new double[size]);
            }

            if (pieceCount > pieces.Length) pieces = new PathPiece[2 * pieceCount];
            var shots = run.Table.Shots;
            for (var member = 0; member < members; member++)
            {
                var shot = run.Members[member];
                vertices[member] = new(shots.At(shot), shots.HeightOf(shot), run.Through[member]);
            }

            for (var piece = 0; piece < pieceCount; piece++) pieces[piece] = run.Piece(piece).InPath;
        }

        public void Clear()
        {
            East.Clear();
            North.Clear();
            Height.Clear();
        }

        /// <summary>Adds the gradient of members that are one shot, and then of shots of one session.</summary>
        public void Gather(ReadOnlySpan<int> shotOfMember, ReadOnlySpan<int> sessionOfShot)
        {
            placeOfShot.Clear();
            placeOfSession.Clear();
            ByShot.Clear();
            BySession.Clear();
            for (var member = 0; member < shotOfMember.Length; member++)
            {
                if (east[member] == 0 && north[member] == 0 && height[member] == 0) continue;
                Put(ByShot, placeOfShot, shotOfMember[member], east[member], north[member], height[member]);
                Put(BySession, placeOfSession, sessionOfShot[shotOfMember[member]], east[member], north[member], height[member]);
            }
        }

        private static void Put(List<(int, double, double, double)> list, Dictionary<int, int> places, int key, double e, double n, double h)
        {
            if (places.TryGetValue(key, out var place))
            {
                var (_, oldE, oldN, oldH) = list[place];
                list[place] = (key, oldE + e, oldN + n, oldH + h);
                return;
            }

            places.Add(key, list.Count);
            list.Add((key, e, n, h));
        }
    }
}
