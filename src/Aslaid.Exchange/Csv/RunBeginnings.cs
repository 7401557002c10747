using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>
/// Knows which runs have a shot already, so that a through-shot cannot begin one: labelled runs over all batches, runs without a
/// label within this one.
/// </summary>
internal sealed class RunBeginnings
{
    private readonly HashSet<(int Code, int Label, int Crew)> labelled = [];
    private readonly HashSet<(int Code, int Crew)> open = [];
    private (int Code, int Label, int Crew) last = (Words.None, Words.None, Words.None);

    /// <summary>A row of an earlier batch.</summary>
    public void Known(int code, int label, int crew, Leg leg)
    {
        if (label == Words.None || leg == Leg.Alone || last == (code, label, crew)) return;
        last = (code, label, crew);
        labelled.Add(last);
    }

    /// <summary>A row of this batch; false where it is a through-shot with nothing before it.</summary>
    public bool Reach(int code, int label, int crew, Leg leg)
    {
        if (leg == Leg.Alone) return true;
        if (label != Words.None)
        {
            if (last == (code, label, crew)) return true;
            last = (code, label, crew);
            return !labelled.Add(last) || leg != Leg.Through;
        }

        if (leg is Leg.Last or Leg.Home)
        {
            open.Remove((code, crew));
            return true;
        }

        return !open.Add((code, crew)) || leg != Leg.Through;
    }
}
