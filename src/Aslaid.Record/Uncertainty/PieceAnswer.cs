using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>How one piece of a run answers to its shots: length, places and headings at a share of it.</summary>
/// <remarks>
/// Straight from A to B, share f, û its unit step, r square to it on the right, L its length: dF = (1 − f) dA + f dB;
/// dL = û·(dB − dA); dbearing = r·(dB − dA)/L. Arc about C, û the unit step from C to the place, P₀ its first shot, θ its sweep:
/// F = C + Rû, so dF = dC + û dR + R û_left dφ, dφ = t₀·(dP₀ − dC) ± f dθ with t₀ = (P₀ − C)_left/|P₀ − C|², and dbearing = −dφ;
/// centre, radius, sweep and length answer as <see cref="ArcGradients"/> has it. A straight without length answers by its ends only.
/// </remarks>
internal sealed class PieceAnswer
{
    private readonly Piece piece;
    private ArcGradient[]? byControl;
    private readonly Step atStart;
    private readonly Step along;
    private readonly double length;

    public PieceAnswer(Piece piece)
    {
        this.piece = piece;
        length = piece.PlanLength;
        if (piece.Kind == PieceKind.Straight)
        {
            if (length > 0) along = 1 / length * (piece.To - piece.From);
            return;
        }

        Arc = piece.Arc;
        var outward = piece.From - Arc.Centre;
        atStart = 1 / outward.SizeSquared * outward.Left;
    }

    private Arc Arc { get; }

    private bool IsArc => piece.Kind == PieceKind.Arc;

    private double Sense => Arc.Turn == Turn.Left ? 1 : -1;

    /// <summary>Curvature, 1/m, right positive; 0 on a straight.</summary>
    public double Bend => IsArc ? -Sense / Arc.Radius : 0;

    /// <summary>The place at a share of the piece.</summary>
    public Point2 At(double share) => IsArc ? Arc.PointAt(share * length) : piece.Straight.PointAt(share * length);

    /// <summary>The unit step that the piece heads at a share of it; none for a straight without length.</summary>
    public Step Ahead(double share) => IsArc ? Sense * Outward(share).Left : along;

    /// <summary>Adds <paramref name="by"/>·dF, F the place at a share of the piece.</summary>
    public void AddPlace(GradientSum into, double share, Step by)
    {
        if (!IsArc)
        {
            into.Add(Shot(0), (1 - share) * by);
            into.Add(Shot(1), share * by);
            return;
        }

        var outward = Outward(share);
        var turn = Arc.Radius * by.Dot(outward.Left);
        AddArc(into, by - turn * atStart, by.Dot(outward), turn * Sense * share, 0);
        into.Add(Shot(0), turn * atStart);
    }

    /// <summary>Adds <paramref name="factor"/> times the change of the bearing at a share of the piece.</summary>
    public void AddBearing(GradientSum into, double share, double factor)
    {
        if (IsArc)
        {
            AddArc(into, factor * atStart, 0, -factor * Sense * share, 0);
            into.Add(Shot(0), -factor * atStart);
        }
        else if (length > 0)
        {
            var side = -factor / length * along.Left;
            into.Add(Shot(1), side);
            into.Add(Shot(0), -1 * side);
        }
    }

    /// <summary>Adds <paramref name="factor"/> times the change of the length in plan.</summary>
    public void AddLength(GradientSum into, double factor)
    {
        if (IsArc)
        {
            AddArc(into, default, 0, 0, factor);
            return;
        }

        into.Add(Shot(1), factor * along);
        into.Add(Shot(0), -factor * along);
    }

    /// <summary>Adds <paramref name="factor"/> times the change of an arc's radius.</summary>
    public void AddRadius(GradientSum into, double factor) => AddArc(into, default, factor, 0, 0);

    /// <summary>Adds <paramref name="factor"/> times the change of an arc's sweep.</summary>
    public void AddSweep(GradientSum into, double factor) => AddArc(into, default, 0, factor, 0);

    private void AddArc(GradientSum into, Step byCentre, double byRadius, double bySweep, double byLength)
    {
        byControl ??= ByControl();
        for (var i = 0; i < byControl.Length; i++)
        {
            ref readonly var g = ref byControl[i];
            into.Add(Shot(i), new(
                byCentre.Dot(new(g.CentreEastE, g.CentreNorthE)) + byRadius * g.RadiusE + bySweep * g.SweepE + byLength * g.LengthE,
                byCentre.Dot(new(g.CentreEastN, g.CentreNorthN)) + byRadius * g.RadiusN + bySweep * g.SweepN + byLength * g.LengthN));
        }
    }

    private ArcGradient[] ByControl()
    {
        var places = new Point2[piece.Last - piece.First + (Arc.IsFullCircle ? 0 : 1)];
        for (var i = 0; i < places.Length; i++) places[i] = piece.Run.Table.Shots.At(Shot(i));
        var by = new ArcGradient[places.Length];
        ArcGradients.Compute(Arc, places, held: !Arc.IsFullCircle, by);
        return by;
    }

    private Step Outward(double share) => 1 / Arc.Radius * (Arc.PointAt(share * length) - Arc.Centre);

    private int Shot(int control) => piece.Run.Members[piece.First + control];
}
