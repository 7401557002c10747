using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>
/// A place of a run at a share of one of its pieces, and how it answers to the run's shots while it keeps that share. Moved on
/// along the piece by ds it goes by <see cref="Ahead"/> ds, climbs by <see cref="Slope"/> ds and turns by <see cref="Bend"/> ds.
/// </summary>
internal sealed class RunPlace
{
    private readonly Run run;
    private readonly int piece;
    private readonly double share;
    private readonly PieceAnswer answer;
    private readonly int before = -1;
    private readonly int after;

    /// <param name="along">Metres from the start of the piece, within its length.</param>
    public RunPlace(Run run, int piece, double along)
    {
        (this.run, this.piece) = (run, piece);
        var length = run.Piece(piece).PlanLength;
        share = length > 0 ? Math.Clamp(along / length, 0, 1) : 0;
        answer = new(run.Piece(piece));
        (At, Ahead, Bend) = (answer.At(share), answer.Ahead(share), answer.Bend);
        Chainage = run.Chainages[run.Piece(piece).First] + share * length;
        (before, after) = HeightsAbout(Chainage);
        if (before < 0) return;
        var (from, to) = (run.Chainages[before], run.Chainages[after]);
        Slope = (HeightOf(after) - HeightOf(before)) / (to - from);
        Height = HeightOf(before) + Slope * (Chainage - from);
    }

    /// <summary>The place at a chainage of the run, metres; beyond an end that end.</summary>
    public static RunPlace AtChainage(Run run, double chainage)
    {
        var piece = PieceOf(run, run.MemberAt(chainage));
        return new(run, piece, chainage - run.Chainages[run.Piece(piece).First]);
    }

    public Point2 At { get; }

    /// <summary>Unit step along the run; none for a piece without length.</summary>
    public Step Ahead { get; }

    /// <summary>Unit step square to the run, to the right.</summary>
    public Step Right => -1 * Ahead.Left;

    /// <summary>Curvature, 1/m, right positive.</summary>
    public double Bend { get; }

    /// <summary>Metres from the start of the run.</summary>
    public double Chainage { get; }

    /// <summary>Whether shots with a height lie at or before and at or after it, not all in one place.</summary>
    public bool HasHeight => before >= 0;

    /// <summary>Metres, even between the nearest shots with a height.</summary>
    public double Height { get; }

    /// <summary>Rise per metre along the run; at a shot that of the stretch after it.</summary>
    public double Slope { get; }

    /// <summary>Adds <paramref name="by"/> times the move of the place.</summary>
    public void Add(GradientSum into, Step by) => answer.AddPlace(into, share, by);

    /// <summary>Adds <paramref name="factor"/> times the change of the bearing there.</summary>
    public void AddBearing(GradientSum into, double factor) => answer.AddBearing(into, share, factor);

    /// <summary>Adds <paramref name="factor"/> times the change of its chainage.</summary>
    public void AddChainage(GradientSum into, double factor) => AddChainage(into, factor, 0);

    /// <summary>Adds <paramref name="factor"/> times the change of the height there.</summary>
    public void AddHeight(GradientSum into, double factor)
    {
        var onward = (Chainage - run.Chainages[before]) / (run.Chainages[after] - run.Chainages[before]);
        into.AddHeight(run.Members[before], factor * (1 - onward));
        into.AddHeight(run.Members[after], factor * onward);
        if (Slope == 0) return;
        var since = PieceOf(run, before);
        AddChainage(into, factor * Slope, since);
        AddChainage(into, run, before, -factor * Slope * (1 - onward), since);
        AddChainage(into, run, after, -factor * Slope * onward, since);
    }

    /// <summary>
    /// Adds <paramref name="factor"/> times how far the foot of a shot moves along the run beside what the place itself does:
    /// the offset stays square, so (1 − o·bend) ds = ahead·(dP − dF) + o·dbearing.
    /// </summary>
    /// <param name="offset">Metres of the shot from this place, its foot, right positive.</param>
    public void AddSlide(GradientSum into, int shot, double offset, double factor)
    {
        factor /= 1 - offset * Bend;
        into.Add(shot, factor * Ahead);
        Add(into, -factor * Ahead);
        AddBearing(into, factor * offset);
    }

    /// <summary>Adds <paramref name="factor"/> times the change of the chainage of a member, taken from the start of a piece.</summary>
    /// <param name="since">A piece at or before the member; what lies before it is left out.</param>
    public static void AddChainage(GradientSum into, Run run, int member, double factor, int since)
    {
        if (factor == 0) return;
        var at = PieceOf(run, member);
        var piece = run.Piece(at);
        for (var i = since; i < at; i++) new PieceAnswer(run.Piece(i)).AddLength(into, factor);
        var along = run.Chainages[member] - run.Chainages[piece.First];
        if (member == piece.First || along <= 0) return;
        if (member == piece.Last || along >= piece.PlanLength)
        {
            new PieceAnswer(piece).AddLength(into, factor);
            return;
        }

        var foot = new RunPlace(run, at, along);
        foot.AddChainage(into, factor, at);
        foot.AddSlide(into, run.Members[member], (run.Table.Shots.At(run.Members[member]) - foot.At).Dot(foot.Right), factor);
    }

    /// <summary>The piece that begins at or before a member; the last piece for the last member.</summary>
    public static int PieceOf(Run run, int member)
    {
        var (low, high) = (0, run.PieceCount);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (run.Piece(middle).First <= member) low = middle + 1;
            else high = middle;
        }

        return Math.Max(0, low - 1);
    }

    private void AddChainage(GradientSum into, double factor, int since)
    {
        for (var i = since; i < piece; i++) new PieceAnswer(run.Piece(i)).AddLength(into, factor);
        if (share > 0) answer.AddLength(into, factor * share);
    }

    /// <summary>The nearest members with a height about a chainage, apart; −1 where there are none.</summary>
    private (int Before, int After) HeightsAbout(double chainage)
    {
        var last = run.MemberCount - 1;
        var low = Math.Min(run.MemberAt(chainage), last - 1);
        while (low >= 0 && double.IsNaN(HeightOf(low))) low--;
        if (low < 0) return (-1, -1);
        var high = low + 1;
        while (high <= last && (double.IsNaN(HeightOf(high)) || run.Chainages[high] <= run.Chainages[low])) high++;
        return high > last || run.Chainages[high] < chainage - Same ? (-1, -1) : (low, high);
    }

    private const double Same = 1e-9; // m

    private double HeightOf(int member) => run.Table.Shots.Heights[run.Members[member]];
}
