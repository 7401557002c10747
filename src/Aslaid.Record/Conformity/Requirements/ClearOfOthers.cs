namespace Aslaid.Record;

/// <summary>How clear services lie of each other where they cross or run beside, against the separation table.</summary>
internal sealed class ClearOfOthers : IRequirement
{
    public string Name => "separation";

    public string Title => "Clear distance from another service";

    public string Unit => "m";

    public void Judge(Site site, ICollection<Judged> into)
    {
        foreach (var clear in site.Clearances.All)
        {
            var run = site.Runs[clear.One];
            into.Add(new(this, run.Code, run, run.Members[run.MemberAt(clear.Chainage)], clear.Chainage, clear.Chainage, clear.Judgement));
        }
    }
}
