using System.Collections.Immutable;

namespace Aslaid.Workbench;

/// <summary>Puts mistakes into the interchange, each on a lot of its own in the yard north of the street.</summary>
/// <param name="size">How far a mistake goes: where a limit is passed, by about this factor; 2 is plain, 1 is at the limit.</param>
internal sealed class SiteMistakes(Interchange site, double size)
{
    private const double East = Math.PI / 2;
    private const double Left = -Math.PI / 2;
    private const double OrdinateSigma = 0.0114; // m: of a mid-ordinate between usual shots with the tip of their pole, 0.0132 / √2 × √1.5
    private const double PostAccuracyLimit = 0.10; // m at 95 %, sign posts in the default code book
    private const double Quiet = 0.2; // share of the usual noise, where a mistake of millimetres must keep its size
    private readonly List<SeededMistake> _made = [];
    private Spot _lot;

    /// <summary>Every mistake that can be made, by the check that should find it.</summary>
    public static ImmutableArray<string> Names { get; } =
    [
        "unknown-code", "id-twice", "two-shots-one-place", "lone-shot-far-off", "accuracy-over-limit", "solution-not-fixed",
        "single-shot-run", "run-not-closed", "nearly-closed", "end-short", "arc-shot-near-end", "radius-out-of-range",
        "radius-too-uncertain", "arc-not-proven", "shots-too-far-apart", "code-not-changed", "no-check-shot", "control-missed",
    ];

    public ImmutableArray<SeededMistake> Made => [.. _made];

    private CrewFile File => site.NorthSecond;

    /// <summary>What goes wrong while the crew is still on site.</summary>
    public void MakeOnSite(string check)
    {
        var place = Names.IndexOf(check);
        _lot = new(6 + (46 * (place % 5)), 62 + (15 * (place / 5)));
        switch (check)
        {
            case "unknown-code": UnknownCode(); break;
            case "id-twice": IdTwice(); break;
            case "two-shots-one-place": TwoShotsOnePlace(); break;
            case "lone-shot-far-off": LoneShotFarOff(); break;
            case "accuracy-over-limit": AccuracyOverLimit(); break;
            case "solution-not-fixed": SolutionNotFixed(); break;
            case "single-shot-run": SingleShotRun(); break;
            case "run-not-closed": RunNotClosed(); break;
            case "nearly-closed": NearlyClosed(); break;
            case "end-short": EndShort(); break;
            case "arc-shot-near-end": ArcShotNearEnd(); break;
            case "radius-out-of-range": RadiusOutOfRange(); break;
            case "radius-too-uncertain":
                FlatArc(check, "KF-6", 5, 10 * OrdinateSigma / size, "A short, flat arc: it is proven, its radius hardly.");
                break;
            case "arc-not-proven":
                FlatArc(check, "KF-5", 6, 2 * OrdinateSigma / size, "A straight kerb shot as an arc.");
                break;
            case "shots-too-far-apart": ShotsTooFarApart(); break;
            case "code-not-changed": CodeNotChanged(); break;
            case "control-missed": ControlMissed(); break;
            case "no-check-shot": break; // made when the crew has left
            default: throw new ArgumentException($"No mistake is called {check}.", nameof(check));
        }
    }

    /// <summary>What was left undone.</summary>
    public void MakeAfterwards(string check)
    {
        if (check != "no-check-shot")
            return;
        var file = site.SouthSecond;
        file.Rows.RemoveRange(file.Rows.Count - 2, 2);
        _made.Add(new(check, file.Crew.Name, [], null, "Crew South drove home on the second day without a check shot."));
    }

    private void UnknownCode() => Told("unknown-code", null, "A lamp column's code is misspelt.", Point("LAMP-COLUMM", _lot));

    private void IdTwice()
    {
        var first = Point("FINISH", _lot);
        var second = Point("FINISH", _lot.Ahead(East, 12));
        second.Id = first.Id;
        Told("id-twice", null, "Two places carry one id.", first);
    }

    private void TwoShotsOnePlace()
    {
        var (at, first) = site.Lamps[0];
        var second = Point("LAMP-COLUMN", at);
        second.East = first.East + (0.004 * size);
        second.North = first.North;
        second.Height = first.Height + 0.003;
        Told("two-shots-one-place", null, "The crew shot a lamp column again on its way home, under a new id.", first, second);
    }

    private void LoneShotFarOff()
    {
        var far = _lot.Ahead(Math.PI / 4, 200 * size);
        var shot = File.Point("FINISH", far, SiteFrame.Ground(_lot));
        Told("lone-shot-far-off", null, "A finished level lies hundreds of metres off the site.", shot);
    }

    private void AccuracyOverLimit()
    {
        var shot = Point("SIGN-POST", _lot);
        shot.UPlan = size * PostAccuracyLimit / 2.448 * Math.Sqrt(2); // the limit is for 95 %, the stated figure 1 sigma radial
        Told("accuracy-over-limit", null, "A sign post was shot under a tree.", shot);
    }

    private void SolutionNotFixed()
    {
        var shot = Point("SIGN-POST", _lot);
        shot.Fix = "float";
        Told("solution-not-fixed", null, "A sign post was stored before the receiver had fixed.", shot);
    }

    private void SingleShotRun()
    {
        var shot = File.Shoot("KERB-BACK", _lot, Kerb(_lot, 0), "KB-9");
        Told("single-shot-run", "KB-9", "A kerb was begun and left after one shot.", shot);
    }

    private void RunNotClosed()
    {
        var open = new Trace(_lot, East).Straight(5, 5).Corner(Left).Straight(4, 5).Corner(Left).Straight(5, 5);
        var run = File.Lay("ISLAND-KERB", "IS-9", open, Kerb, truth: false);
        Told("run-not-closed", "IS-9", "An island was never closed on its first shot.", run.Shots[0], run.Shots[^1]);
    }

    private void NearlyClosed()
    {
        var gap = 0.015 * size;
        var round = new Trace(_lot, East).Straight(6, 6).Corner(Left).Straight(4, 6).Corner(Left).Straight(6, 6).Corner(Left).Straight(4 - gap, 6);
        var run = Quietly(() => File.Lay("KERB-FACE", "KF-8", round, Kerb, truth: false));
        Told("nearly-closed", "KF-8", "The crew came round to its first shot and took a new one beside it.", run.Shots[0], run.Shots[^1]);
    }

    private void EndShort()
    {
        var branch = new Trace(new(12, -16), 0).Straight(8 - (0.15 * size), 4);
        var run = Quietly(() => File.Lay("WATER-BRANCH", "WB-9", branch, SiteFrame.Under(1.2),
            nodes: Interchange.Nodes("WATER-HYDRANT", 0), truth: false));
        Told("end-short", "WB-9", "A branch ends short of the main WM-1.", run.Shots[^1]);
    }

    private void ArcShotNearEnd()
    {
        var kerb = new Trace(_lot, East).Straight(8, 8).Curve(8, Left, 0.2 / size).Straight(3, 3);
        var run = File.Lay("KERB-FACE", "KF-7", kerb, Kerb, truth: false);
        Told("arc-shot-near-end", "KF-7", "The through-shot of a kerb's arc stands close to the arc's start.", run.Shots[2]);
    }

    private void RadiusOutOfRange()
    {
        const double least = 0.4; // m, islands in the default code book
        var island = Interchange.RoundedTriangle(_lot, East, 12, double.DegreesToRadians(45), double.DegreesToRadians(60), [0.8, 0.9, least / size]);
        var run = Quietly(() => File.Lay("ISLAND-KERB", "IS-8", island, Kerb, truth: false));
        var sharp = island.Bends.MinBy(b => b.Radius);
        Told("radius-out-of-range", "IS-8", "One nose of an island is sharper than any kerb stone.",
            [.. Enumerable.Range(sharp.First, sharp.Last - sharp.First + 1).Select(i => run.Shots[i])]);
    }

    private void FlatArc(string check, string label, double chord, double ordinate, string note)
    {
        var radius = (chord * chord / (8 * ordinate)) + (ordinate / 2);
        var kerb = new Trace(_lot, East).Straight(6, 6).Curve(radius, -2 * Math.Asin(chord / (2 * radius))).Straight(6, 6);
        var run = Quietly(() => File.Lay("KERB-FACE", label, kerb, Kerb, truth: false));
        Told(check, label, note, run.Shots[1], run.Shots[2], run.Shots[3]);
    }

    private void ShotsTooFarApart()
    {
        const double most = 10; // m, telecom ducts in the default code book
        var duct = new Trace(_lot, East).Straight(8, 8).Straight(most * size, most * size).Straight(8, 8);
        var run = File.Lay("TELECOM-DUCT", "TD-9", duct, SiteFrame.Under(0.4), nodes: Interchange.Nodes("TELECOM-CHAMBER", 0, 3), truth: false);
        Told("shots-too-far-apart", "TD-9", "A stretch of duct was not shot.", run.Shots[1], run.Shots[2]);
    }

    private void CodeNotChanged()
    {
        var duct = new Trace(_lot, East).Straight(20, 2);
        var last = duct.Stops.Count - 1;
        File.Lay("POWER-DUCT", "PD-9", duct, SiteFrame.Under(0.75), nodes: Interchange.Nodes("POWER-CHAMBER", 0, last), truth: false);
        var kerb = Enumerable.Range(0, 7).Select(i => new Spot(_lot.East + 18.5 - (4 * i), _lot.North + 7)).ToArray();
        var wrong = kerb.Take(4).Select(at => File.Shoot("POWER-DUCT", at, Kerb(at, 0), "PD-9")).ToArray();
        foreach (var at in kerb.Skip(4))
            File.Shoot("KERB-FACE", at, Kerb(at, 0), "KF-9");
        Told("code-not-changed", "PD-9", "The crew walked from the duct to the kerb and left code and label as they were for four shots.", wrong);
    }

    private void ControlMissed()
    {
        var shot = File.Check(site.Frame.Marks[4]);
        shot.TrueEast += 0.04 * size;
        shot.East += 0.04 * size;
        Told("control-missed", null, "M5 was struck by an excavator; nobody knows yet.", shot);
    }

    private SampleShot Point(string code, Spot at) => File.Point(code, at, SiteFrame.Ground(at));

    private LaidRun Quietly(Func<LaidRun> lay)
    {
        File.Noise = Quiet;
        var run = lay();
        File.Noise = 1;
        return run;
    }

    private void Told(string check, string? run, string note, params SampleShot[] shots) =>
        _made.Add(new(check, File.Crew.Name, [.. shots.Select(s => s.Id)], run, note));

    private static double Kerb(Spot at, double chainage) => SiteFrame.Ground(at) + 0.12;
}
