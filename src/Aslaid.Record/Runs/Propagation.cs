using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>
/// The standard uncertainty of a measure from its gradient (JCGM 100:2008, 5.2). The gradient is gathered by shot, then by
/// session, before anything is squared: a shot that comes twice counts once, and what a session has in common cancels wherever
/// it should. Sums run in the order in which shots first come.
/// </summary>
internal sealed class Propagation
{
    private readonly CurrentShots shots;
    private readonly Dictionary<int, int> places = [];
    private readonly List<int> sessions = [];
    private readonly (double East, double North, double Height)[] bySession;
    private (int Shot, double East, double North, double Height)[] terms = new (int, double, double, double)[64];
    private readonly SortedDictionary<int, double> readings = [];
    private int count;

    public Propagation(CurrentShots shots)
    {
        this.shots = shots;
        bySession = new (double, double, double)[shots.SessionCount];
    }

    /// <summary>Adds the gradient of a measure by each of a run's members.</summary>
    /// <param name="height">Empty for a measure in plan.</param>
    public void Add(ReadOnlySpan<int> members, ReadOnlySpan<double> east, ReadOnlySpan<double> north, ReadOnlySpan<double> height = default)
    {
        for (var member = 0; member < members.Length; member++)
        {
            var up = height.IsEmpty ? 0 : height[member];
            Add(new ShotTerm(members[member], east[member], north[member], up));
        }
    }

    /// <summary>Adds the gradient of a measure by shot.</summary>
    public void Add(ReadOnlySpan<ShotTerm> gradient)
    {
        foreach (ref readonly var term in gradient) Add(term);
    }

    private void Add(in ShotTerm added)
    {
        if (added.East == 0 && added.North == 0 && added.Height == 0) return;
        var shot = added.Shot;
        if (shots.Constructed?.Find(shot) is { } constructed)
        {
            Add(constructed, added);
            return;
        }

        if (!places.TryGetValue(shot, out var place))
        {
            place = count++;
            places.Add(shot, place);
            if (place == terms.Length) Array.Resize(ref terms, 2 * terms.Length);
            terms[place] = (shot, 0, 0, 0);
        }

        ref var term = ref terms[place];
        (term.East, term.North, term.Height) = (term.East + added.East, term.North + added.North, term.Height + added.Height);
    }

    /// <summary>A constructed point answers as the shots and readings do that it was made from.</summary>
    private void Add(ConstructedPoint point, in ShotTerm added)
    {
        var plan = new Step(added.East, added.North);
        foreach (var (shot, answer) in point.ByShot)
        {
            Add(new ShotTerm(shot, plan.Dot(answer.ByEast) + added.Height * answer.HeightByEast, plan.Dot(answer.ByNorth) + added.Height * answer.HeightByNorth,
                added.Height * answer.HeightByHeight));
        }

        foreach (var (number, answer) in point.ByReading)
            readings[number] = readings.GetValueOrDefault(number) + plan.Dot(answer.Plan) + added.Height * answer.Height;
    }

    /// <summary>The uncertainty of all that was added, NaN where a shot with weight states no accuracy; then begins anew.</summary>
    public double Take()
    {
        var sum = 0.0;
        foreach (var (shot, east, north, height) in terms.AsSpan(0, count))
        {
            var plan = east * east + north * north;
            if (plan > 0) sum += plan * Square(shots.SigmaPlan[shot]);
            if (height != 0) sum += height * height * Square(shots.SigmaHeight[shot]);
            var session = shots.Session[shot];
            ref var common = ref bySession[session];
            if (common == default) sessions.Add(session);
            common = (common.East + east, common.North + north, common.Height + height);
        }

        foreach (var session in sessions)
        {
            var (east, north, height) = bySession[session];
            sum += (east * east + north * north) * Square(shots.Sessions[session].UPlan) + height * height * Square(shots.Sessions[session].UHeight);
            bySession[session] = default;
        }

        if (count > places.Capacity / 8) places.Clear();
        else foreach (ref readonly var term in terms.AsSpan(0, count)) places.Remove(term.Shot); // clearing costs the capacity, and one long run may have left it large
        foreach (var (number, factor) in readings) sum += Square(factor * shots.Constructed!.U(number));
        readings.Clear();
        sessions.Clear();
        count = 0;
        return Math.Sqrt(sum);
    }

    private static double Square(double x) => x * x;
}
