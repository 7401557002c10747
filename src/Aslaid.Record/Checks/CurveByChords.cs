using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Curves shot as a chain of straights whose chords cut off more than the code allows.</summary>
internal sealed class CurveByChords : ICheck
{
    /// <summary>A sagitta this many standard uncertainties over the limit is over it beyond doubt.</summary>
    private const double Coverage = 2;

    /// <summary>Past this many times the limit the curve is plainly misdrawn (DEFAULT).</summary>
    private const double Plainly = 2;

    /// <summary>Jointed pipes lie as chords and turn by less than this at a joint, radians: 10° (common practice: joints turn by a few degrees).</summary>
    private const double MostOfAJoint = 10 * Math.PI / 180;

    /// <summary>A service that turns by no more than this at each member is likely a pipe laid in straight lengths, radians: 5° (common practice).</summary>
    private const double LikelyAJoint = 5 * Math.PI / 180;

    public string Name => "curve-by-chords";

    public string Title => "A curve measured as straights";

    public string Unit => "m";

    public ImmutableArray<string> Explains => ["bend-not-shot", "tangent-break", "design-curve-cut", "off-design"];

    public void Look(Site site, Findings found)
    {
        foreach (var curve in site.ChordCurves.All)
        {
            var run = site.Runs[curve.Run];
            var (entry, limit) = (run.Entry!, run.Entry!.SagittaMax!.Value);
            var sagitta = ChordCurves.Sagitta(curve.Radius, curve.Longest);
            var doubt = Coverage * sagitta * curve.URadius / curve.Radius;
            if (sagitta - doubt <= limit || IsBroken(site, curve)) continue;
            var plainly = entry.NeedsProof && curve.Known && curve.Turn > MostOfAJoint && sagitta - doubt > Plainly * limit;
            var (longest, lost, wanted) = (ChordCurves.LongestChord(curve.Radius, limit), 0.0, 0.0);
            for (var member = curve.First; member < curve.Last; member++)
            {
                var chord = run.Chainages[member + 1] - run.Chainages[member];
                lost += ChordCurves.Lost(curve.Radius, chord);
                wanted += Math.Max(0, Math.Ceiling(chord / longest - 1e-9) - 1);
            }

            var middle = run.Members[(curve.First + curve.Last) / 2];
            var severity = plainly ? Severity.Stop : entry.Service is not null && curve.Turn <= LikelyAJoint ? Severity.Note : Severity.Look;
            found.Add(severity, run.Members[curve.First..(curve.Last + 1)], site.Shots.At(middle), site.Shots.HeightOf(middle),
                curve.Run, run.Chainages[curve.First], run.Chainages[curve.Last], sagitta, limit,
                figures: [curve.Radius, curve.Known ? curve.URadius : double.NaN, lost, wanted, longest, curve.First, curve.Last]);
        }
    }

    /// <summary>Whether a leg of the curve belongs to shots of a wrong code or in a wrong order: those lead.</summary>
    private static bool IsBroken(Site site, ChordCurve curve)
    {
        for (var member = curve.First + 1; member <= curve.Last; member++)
            if (site.RunBreaks.Touches(curve.Run, member) || site.LateStretches.Explains(curve.Run, member)) return true;
        return false;
    }

    public string Message(Finding finding)
    {
        var u = finding.Figure(1);
        var doubt = double.IsNaN(u) ? "accuracy not given" : $"± {CheckText.Metres(Coverage * u)}";
        return $"{finding.RunLabel()} {CheckText.Along(finding)} is a curve of radius {CheckText.Number(finding.Figure(0), "0.000")} m {doubt} measured as {CheckText.Count(finding.Shots.Length - 1, "chord")}"
            + $" ({CheckText.Shots(finding)}): sagitta lost {CheckText.Metres(finding.Measured)}, limit {CheckText.Metres(finding.Allowed)}; length lost {CheckText.Metres(finding.Figure(2))}.";
    }

    public string Cure(Finding finding) =>
        $"Shoot {CheckText.Count(finding.Figure(3), "more through-shot")} between {finding.Shot(0)} and {finding.Shot(finding.Shots.Length - 1)}, no chord over {CheckText.Number(finding.Figure(4), "0.00")} m, or make it an arc; leave it if it was laid in straight lengths.";

    /// <summary>The run through the same shots, those within the curve as through-shots of one arc.</summary>
    public Change? Correction(Finding finding)
    {
        var (run, first, last) = (finding.Run!.Value, (int)finding.Figure(5), (int)finding.Figure(6));
        var steps = ImmutableArray.CreateBuilder<PathStep>(run.MemberCount);
        for (var member = 0; member < run.MemberCount; member++)
            steps.Add(new(finding.Raw().Key(run.Members[member]), member > first && member < last || run.Through[member] && (member < first || member > last)));
        return new PathSet(run.Key, null, steps.MoveToImmutable());
    }

    public Reshoot ReshootFor(Finding finding) => finding.Severity == Severity.Stop ? Reshoot.Open : Reshoot.Any;
}
