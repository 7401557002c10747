namespace Aslaid.Record;

/// <summary>Shots of a line code through which no run goes: a path that was set by hand left them out, or does not know them yet.</summary>
internal sealed class ShotOnNoPath : ICheck
{
    public string Name => "shot-on-no-path";

    public string Title => "Shots of a line code that lie on no path";

    public string Unit => "1";

    public void Look(Site site, Findings found)
    {
        var groups = new Dictionary<(int Code, int Label, string? Crew), List<int>>();
        var order = new List<(int Code, int Label, string? Crew)>();
        var carrying = (site.Shots.Constructed?.All ?? []).Where(point => point.Fit is not null).SelectMany(point => point.ByShot).Select(term => term.Shot).ToHashSet();
        foreach (var row in site.ShotRows)
        {
            if (carrying.Contains(row)) continue; // its run goes by the fit through it
            if (site.Membership.Run[row] >= 0 || site.Shots.Raw.Leg[row] == Leg.Alone || site.Runs.Remeasured.Contains(row)) continue;
            var kind = site.Shots.Entry(row)?.Kind ?? (site.Shots.Label[row] == Words.None ? CodeKind.Point : CodeKind.Line);
            if (kind is not (CodeKind.Line or CodeKind.Area)) continue;
            var key = (site.Shots.Code[row], site.Shots.Label[row], site.Shots.Raw.Crew(row));
            if (!groups.TryGetValue(key, out var rows))
            {
                groups.Add(key, rows = []);
                order.Add(key);
            }

            rows.Add(row);
        }

        foreach (var key in order)
        {
            var rows = groups[key];
            var label = site.Shots.Labels[key.Label];
            var run = label is null ? null : site.Runs.Find(RunMembers.KeyOf(site.Shots.Codes[key.Code] ?? "", label, key.Crew));
            found.Add(Severity.Stop, [.. rows], site.Shots.At(rows[0]), site.Shots.HeightOf(rows[0]), run?.Number ?? -1, measured: rows.Count, word: label ?? site.Shots.Codes[key.Code]);
        }
    }

    public string Message(Finding finding) =>
        $"{CheckText.Count(finding.Shots.Length, "shot")} of {finding.Word} {(finding.Shots.Length == 1 ? "lies" : "lie")} on no path ({CheckText.Shots(finding)}).";

    public string Cure(Finding finding) => $"Put {(finding.Shots.Length == 1 ? "it" : "them")} into the path of {finding.Word} where {(finding.Shots.Length == 1 ? "it belongs" : "they belong")}, or set {(finding.Shots.Length == 1 ? "it" : "them")} aside.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
