namespace Aslaid.Record;

/// <summary>How a stretch of a drain falls in the direction of flow.</summary>
internal enum FallVerdict : byte
{
    /// <summary>It falls by at least what is asked, at 95 %.</summary>
    Good,

    /// <summary>Its doubt reaches over the limit.</summary>
    NotProven,

    /// <summary>It falls by less than is asked, beyond doubt.</summary>
    TooFlat,

    /// <summary>It rises, beyond doubt.</summary>
    Reversed,
}

/// <summary>A leg of a run between two neighbouring shots that have heights.</summary>
/// <param name="From">Member at its start, in the order of the run.</param>
/// <param name="To">Member at its end.</param>
/// <param name="Fall">Metres per metre in the direction of flow.</param>
/// <param name="U">Its standard uncertainty; NaN where a shot states no accuracy.</param>
internal readonly record struct FallLeg(int From, int To, double Fall, double U, FallVerdict Verdict);

/// <summary>The legs of one run, judged one by one.</summary>
/// <param name="least">Fall asked for, metres per metre.</param>
/// <param name="sigmas">Standard uncertainties beyond which there is no doubt.</param>
internal sealed class FallLegs(Site site, double least, double sigmas)
{
    private readonly CurrentShots shots = site.Shots;

    /// <summary>95 % both sides, for what is proven; the factor of the rule U = 2√2·u_z/L.</summary>
    public const double Coverage = 2;

    /// <summary>A leg that is no longer than this has no fall, metres (DEFAULT): two shots at a drop.</summary>
    private const double Shortest = 0.5;

    /// <summary>Nor has one that is no longer than so many times the plan uncertainty of its shots (DEFAULT).</summary>
    private const double ShortestInU = 10;

    /// <summary>
    /// Writes the legs of a run in its own order, read along the flow. Legs too short to fall are left out: at a drop each shot begins
    /// or ends the long leg on its side, and among shots that follow closely one leg is made of several.
    /// </summary>
    /// <param name="sense">1 where the run was shot along the flow, −1 against it.</param>
    public void Of(Run run, int sense, List<FallLeg> into)
    {
        into.Clear();
        var members = run.Members;
        var chainages = run.Chainages;
        var heights = shots.Heights;
        var (from, last) = (-1, -1);
        for (var member = 0; member < members.Length; member++)
        {
            if (double.IsNaN(heights[members[member]])) continue;
            if (last > from && !IsTooShort(run, last, member)) from = last;
            last = member;
            if (from >= 0)
            {
                if (IsTooShort(run, from, member)) continue;
                var length = chainages[member] - chainages[from];
                var fall = sense * (heights[members[from]] - heights[members[member]]) / length;
                if (IsPlainlyGood(members[from], members[member], length, fall)) into.Add(new(from, member, fall, 0, FallVerdict.Good));
                else if (!IsBroken(run, from, member)) into.Add(Leg(run, from, member, sense)); // a stretch of another thing has its own check
            }

            from = member;
        }
    }

    /// <summary>Whether a leg has no length to fall along.</summary>
    /// <param name="from">Member at its start.</param>
    /// <param name="to">A later member.</param>
    public bool IsTooShort(Run run, int from, int to)
    {
        var length = run.Chainages[to] - run.Chainages[from];
        if (length <= Shortest) return true;
        var u = Math.Sqrt(2) * Math.Max(shots.SigmaPlan[run.Members[from]], shots.SigmaPlan[run.Members[to]]); // radial
        return length <= ShortestInU * u; // false where it is not known
    }

    private bool IsBroken(Run run, int from, int to)
    {
        for (var member = from + 1; member <= to; member++)
            if (site.RunBreaks.Touches(run.Number, member)) return true;
        return false;
    }

    /// <summary>The first and the last member with a height, apart; −1 where there are no two.</summary>
    public static (int First, int Last) Ends(Run run)
    {
        var heights = run.Table.Shots.Heights;
        var (first, last) = (0, run.MemberCount - 1);
        while (first < last && double.IsNaN(heights[run.Members[first]])) first++;
        while (last > first && double.IsNaN(heights[run.Members[last]])) last--;
        return run.Chainages[last] > run.Chainages[first] ? (first, last) : (-1, -1);
    }

    /// <summary>
    /// Direction of flow of a run that has <see cref="Ends"/>: 1 along, −1 against the order of its shots; by its attribute <c>flow</c>, else
    /// from the higher end to the lower; 0 where both are level within their doubt.
    /// </summary>
    /// <param name="whole">The run from end to end, read along the flow.</param>
    public int Flow(Run run, out FallLeg whole)
    {
        var (first, last) = Ends(run);
        var said = (int)run.Facts.Flow;
        var sense = said != 0 ? said : shots.Heights[run.Members[first]] >= shots.Heights[run.Members[last]] ? 1 : -1;
        whole = Leg(run, first, last, sense);
        return said == 0 && Math.Abs(whole.Fall) <= Coverage * whole.U ? 0 : sense;
    }

    /// <summary>A stretch between two members, judged.</summary>
    public FallLeg Leg(Run run, int from, int to, int sense)
    {
        var (a, b) = (run.Members[from], run.Members[to]);
        var length = run.Chainages[to] - run.Chainages[from];
        var fall = sense * (shots.Heights[a] - shots.Heights[b]) / length;
        if (IsPlainlyGood(a, b, length, fall)) return new(from, to, fall, 0, FallVerdict.Good);
        var u = Measures.Fall(run, from, to)?.U(shots) ?? double.NaN;
        return new(from, to, fall, u, Judge(fall, u));
    }

    private FallVerdict Judge(double fall, double u) =>
        fall + sigmas * u < 0 ? FallVerdict.Reversed
        : fall + sigmas * u < least ? FallVerdict.TooFlat
        : fall - Coverage * u >= least ? FallVerdict.Good
        : FallVerdict.NotProven; // also where u is not known

    /// <summary>A quick look that spares most legs their gradient: twice the doubt of both shots alone, one session.</summary>
    private bool IsPlainlyGood(int a, int b, double length, double fall)
    {
        if (shots.Session[a] != shots.Session[b]) return false;
        var (height, plan) = (shots.SigmaHeight[a] + shots.SigmaHeight[b], Math.Abs(fall) * (shots.SigmaPlan[a] + shots.SigmaPlan[b]));
        return (fall - least) * length > 2 * Coverage * (height + plan);
    }
}
