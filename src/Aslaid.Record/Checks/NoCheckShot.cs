using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Sessions that did not prove themselves on control, at their start and at their end.</summary>
internal sealed class NoCheckShot : ICheck
{
    /// <summary>Among how many shots from either end of a session one must be a check shot (DEFAULT).</summary>
    private const int AtEnd = 3;

    private const double NoControl = 0;
    private const double None = 1;
    private const double NoneAtStart = 2;
    private const double NoneAtEnd = 3;

    public string Name => "no-check-shot";

    public string Title => "Sessions without check shots on control";

    public string Unit => "1";

    public bool HoldsSession => true;

    public ImmutableArray<string> Explains => ["accuracy-over-limit", "method-unfit", "control-gap"];

    public void Look(Site site, Findings found)
    {
        var rows = site.ShotRows;
        if (rows.IsEmpty) return;
        if (site.Control.IsEmpty)
        {
            found.Add(Severity.Look, [rows[0]], site.Shots.At(rows[0]), site.Shots.HeightOf(rows[0]), measured: 0, figures: [NoControl]);
            return;
        }

        var sessions = new Session[site.Shots.SessionCount];
        var records = new Records(site.Shots.Raw);
        foreach (var row in rows)
            if (!records.Has(row)) sessions[site.Shots.SessionColumn[row]].Shots++;
        foreach (var row in rows)
            if (site.Shots.Entry(row) is { Kind: CodeKind.Control }) sessions[site.Shots.SessionColumn[row]].Unnamed++;
        foreach (var check in site.CheckShots)
        {
            ref var session = ref sessions[site.Shots.SessionColumn[check.Row]];
            (session.Checks, session.Unnamed) = (session.Checks + 1, session.Unnamed - 1);
        }

        Place(site, sessions, records);

        foreach (ref readonly var session in sessions.AsSpan())
        {
            if (session.Shots == 0) continue;
            var (severity, how, row) = session switch
            {
                { Checks: 0 } => (Severity.Stop, None, session.First),
                { AtStart: false } => (Severity.Look, NoneAtStart, session.First),
                { AtEnd: false } => (Severity.Look, NoneAtEnd, session.Last),
                _ => (Severity.Note, NoControl, -1),
            };
            if (row >= 0)
                found.Add(severity, [row], site.Shots.At(row), site.Shots.HeightOf(row), measured: session.Checks, figures: [how, session.Shots, Unproven(site, row), session.Unnamed]);
        }
    }

    /// <summary>How many times the accuracy that the instrument of a shot states counts until check shots prove it; 1 where it does not matter.</summary>
    private static double Unproven(Site site, int row)
    {
        var receiver = site.Shots.Receivers[site.Shots.ReceiverColumn[row]];
        var (plan, height) = (receiver.Plan.State == StatedAccuracy.Unproven && !double.IsNaN(site.Shots.Raw.UPlan[row]), receiver.Height.State == StatedAccuracy.Unproven && !double.IsNaN(site.Shots.Raw.UHeight[row]));
        return plan || height ? site.Settings.FactorUnproven : 1;
    }

    private struct Session
    {
        public int Shots, Checks, Unnamed, Seen, First, Last;
        public bool AtStart, AtEnd;
    }

    /// <summary>First and last shot of each session, and whether a check shot is among the few at either end.</summary>
    private static void Place(Site site, Session[] sessions, Records records)
    {
        var checks = site.CheckShots.Select(check => check.Row).ToHashSet();
        foreach (var row in RowOrder.Of(site.Shots.Raw)) // a session may reach over files that were taken in in any order
        {
            if (!site.Shots.IsShot(row) || !site.Shots.UsedColumn[row] || records.Has(row)) continue;
            ref var session = ref sessions[site.Shots.SessionColumn[row]];
            if (session.Seen++ == 0) session.First = row;
            session.Last = row;
            if (!checks.Contains(row)) continue;
            session.AtStart |= session.Seen <= AtEnd;
            session.AtEnd |= session.Seen > session.Shots - AtEnd;
        }
    }

    public string Message(Finding finding)
    {
        if (finding.Figure(0) == NoControl) return "No control points are known: no shot is proven against anything.";
        var session = finding.Session();
        var shots = CheckText.Count(finding.Figure(1), "shot");
        return finding.Figure(0) switch
        {
            None => $"No check shot on control in the session of {session}: nothing of its {shots} is proven{(finding.Figure(2) > 1 ? $", and stated accuracy counts {CheckText.Number(finding.Figure(2), "0.#")} times until then" : "")}.{Unnamed(finding)}",
            NoneAtStart => $"No check shot at the start of the session of {session} (first shot {finding.Shot(0)}, {shots}).",
            _ => $"No check shot at the end of the session of {session} (last shot {finding.Shot(0)}, {shots}).",
        };
    }

    private static string Unnamed(Finding finding) => finding.Figures.Length < 4 || finding.Figure(3) == 0
        ? ""
        : $" {CheckText.Count(finding.Figure(3), "shot")} of a control code {(finding.Figure(3) > 1 ? "name" : "names")} no known point, by id or note.";

    public string Cure(Finding finding) => finding.Figures.Length > 3 && finding.Figure(3) > 0 && finding.Figure(0) == None
        ? "Name the point in the note of each check shot and take the file again, or take in the control list that has them."
        : finding.Figure(0) switch
    {
        NoControl => "Take in the control list, and shoot a control point at the start and end of each session.",
        None => "Shoot some of its points again in a session that is proven on control.",
        _ => "Shoot a control point at the start and at the end of each session; here shoot a few of its points again.",
    };

    public Reshoot ReshootFor(Finding finding) => finding.Figures.Length > 3 && finding.Figure(3) > 0 && finding.Figure(0) == None ? Reshoot.None
        : finding.Figure(0) == NoControl ? Reshoot.Any : finding.Severity == Severity.Stop ? Reshoot.Open : Reshoot.Any;
}
