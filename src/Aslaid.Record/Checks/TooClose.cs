namespace Aslaid.Record;

/// <summary>Services that lie less clear of each other than their rule asks.</summary>
internal sealed class TooClose : ICheck
{
    public string Name => "too-close";

    public string Title => "Services too close to each other";

    public string Unit => "m";

    public bool NeedsAnother => true;

    public void Look(Site site, Findings found)
    {
        foreach (var clear in site.Clearances.All)
        {
            var judged = clear.Judgement;
            if (judged.Verdict == Verdict.Conforms || judged.Verdict is Verdict.NotProven && judged.Within == true) continue;
            var (one, other) = (site.Runs[clear.One], site.Runs[clear.Other]);
            if (judged.Value is null && clear.Plan >= judged.Limits.Lower) continue; // clear in plan, whatever the heights
            var (here, there) = (one.Members[one.MemberAt(clear.Chainage)], other.Members[other.MemberAt(clear.OtherChainage)]);
            found.Add(judged.Verdict == Verdict.DoesNotConform ? Severity.Stop : Severity.Look, [here, there], clear.At, one.Path.HeightAt(clear.Chainage), clear.One, clear.Chainage, clear.Chainage, judged.Value, judged.Limits.Lower,
                $"{EnumWords.Of(clear.Kind)}|{other.Label}|{clear.Rule.Source}", [judged.U95 ?? double.NaN, clear.OtherChainage, clear.Plan, clear.Vertical ?? double.NaN]);
        }
    }

    public string Message(Finding finding)
    {
        var words = finding.Word!.Split('|', 3);
        var how = words[0] switch { "crossing" => "crosses over", "alongside" => "runs beside", _ => "comes near" };
        var clear = finding.Measured is { } value ? $"{CheckText.Metres(value)} {(double.IsNaN(finding.Figure(0)) ? "(accuracy not given)" : $"± {CheckText.Metres(finding.Figure(0))}")} clear" : "how far clear is not known, a height or a size is missing";
        return $"{finding.RunLabel()} {how} {words[1]} {CheckText.Along(finding)} (there {CheckText.Number(finding.Figure(1), "0.0")} m): {clear}, least {CheckText.Metres(finding.Allowed)} ({words[2]}){(finding.Severity == Severity.Stop || finding.Measured is null ? "" : "; not proven")}.";
    }

    public string Cure(Finding finding) => finding.Severity == Severity.Stop
        ? "Move or protect one of them, or have it agreed by both owners; local code prevails. If one lies in the other, or both are of one bank, say so."
        : "Shoot both at that place while they are open; if one lies in the other, or both are of one bank, say so.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
