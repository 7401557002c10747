namespace Aslaid.Record;

/// <summary>Lengths of runs, and points, of which the code asks for photographs and has none.</summary>
internal sealed class PhotoMissing : ICheck
{
    /// <summary>Metres: a length this near to the limit equals it.</summary>
    private const double Same = 1e-6;

    public string Name => "photo-missing";

    public string Title => "Photographs missing";

    public string Unit => "m";

    public void Look(Site site, Findings found)
    {
        var shots = site.Shots;
        var asks = false;
        foreach (var entry in shots.Book.Entries) asks |= entry.PhotoEvery is not null;
        if (!asks) return;
        var photos = shots.Raw.TextColumns.GetValueOrDefault("photo");
        for (var number = 0; number < site.Runs.Count; number++)
            if (site.Runs[number] is { Entry.PhotoEvery: > 0 and var every } run) LookAlong(run, every, photos, found);

        var marked = new bool[shots.Count];
        foreach (var row in site.Points)
            if (shots.IsShot(row) && shots.Entry(row) is { PhotoEvery: not null, Kind: CodeKind.Point } && !HasPhoto(shots.Raw, photos, row)) marked[row] = true;
        foreach (var stretch in ShotStretches.Loose(site, marked))
            found.Add(site, stretch, ShotStretches.NeedsProof(site, stretch) ? Severity.Stop : Severity.Look, stretch.Rows[0], null, null);
    }

    /// <summary>Between one photographed shot and the next, and from the ends to the nearest, no length is longer than asked for.</summary>
    private static void LookAlong(Run run, double every, int[]? photos, Findings found)
    {
        var (shots, lacking, members) = (run.Table.Shots, new List<int>(), run.Members.ToArray());
        var (longest, longestFrom, gaps, from, to, at) = (0.0, 0.0, 0, double.PositiveInfinity, 0.0, -1);
        var (before, start) = (0.0, 0); // chainage of the last photograph, and the member after it
        var first = -1;
        for (var member = 0; member < members.Length; member++)
        {
            if (!HasPhoto(shots.Raw, photos, members[member])) continue;
            if (first < 0) first = member;
            if (member > 0) Gap(before, run.Chainages[member], start, member);
            (before, start) = (run.Chainages[member], member + 1);
        }

        if (start < members.Length) Gap(before, run.PlanLength, start, members.Length);
        if (gaps == 0) return;
        found.Add(run.Entry!.NeedsProof ? Severity.Stop : Severity.Look, [.. lacking], shots.At(at), shots.HeightOf(at), run.Number, from, to,
            longest, every, figures: [gaps, longestFrom]);

        void Gap(double gapFrom, double gapTo, int firstMember, int endMember)
        {
            if (gapTo - gapFrom <= every + Same && first >= 0) return; // a run of which there is none at all has a gap, however short
            var rows = endMember > firstMember ? members[firstMember..endMember] : members[(firstMember - 1)..(firstMember + 1)]; // nothing was shot between the two
            gaps++;
            foreach (var row in rows)
                if (lacking.Count == 0 || (lacking[0] != row && lacking[^1] != row)) lacking.Add(row);
            (from, to) = (Math.Min(from, gapFrom), Math.Max(to, gapTo));
            if (gapTo - gapFrom < longest) return;
            (longest, longestFrom, at) = (gapTo - gapFrom, gapFrom, rows[0]);
        }
    }

    private static bool HasPhoto(ShotTable raw, int[]? photos, int row) => photos is not null && !string.IsNullOrWhiteSpace(raw.Texts[photos[row]]);

    public string Message(Finding finding) => finding.Run is null
        ? $"No photograph of {CheckText.Count(finding.Shots.Length, "shot")} whose code asks for one each ({CheckText.Shots(finding)})."
        : $"No photograph over {CheckText.Number(finding.Measured, "0.0")} m of {finding.RunLabel()} "
            + $"from {CheckText.Number(finding.Figure(1), "0.0")} m, limit {CheckText.Number(finding.Allowed, "0.0")} m"
            + $"{(finding.Figure(0) > 1 ? $"; {CheckText.Number(finding.Figure(0), "0")} such lengths" : "")} ({CheckText.Shots(finding)}).";

    public string Cure(Finding finding) => "Photograph it while it can be seen, and name the picture in the column photo.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.Open;
}
