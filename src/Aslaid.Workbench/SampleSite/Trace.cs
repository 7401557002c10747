namespace Aslaid.Workbench;

/// <summary>A place on the drawing of the sample: metres from the drawing's own corner, before the site is turned.</summary>
internal readonly record struct Spot(double East, double North)
{
    /// <param name="bearing">Radians clockwise from the drawing's north.</param>
    public Spot Ahead(double bearing, double distance) =>
        new(East + (distance * Math.Sin(bearing)), North + (distance * Math.Cos(bearing)));

    public double Cross(Spot other) => (East * other.North) - (North * other.East);
}

/// <summary>A path laid by dead reckoning, with the places where a crew would shoot it.</summary>
/// <remarks>It owns the truth of the sample, so it shares no formula with the program that is tested against it.</remarks>
internal sealed class Trace
{
    /// <summary>A place to shoot.</summary>
    public readonly record struct Stop(Spot At, bool Through, double Chainage);

    /// <summary>An arc between two stops; the stops between them lie on it.</summary>
    public readonly record struct Bend(int First, int Last, double Radius, double Sweep, Spot Centre, bool Left)
    {
        public double PlanLength => Radius * Sweep;
    }

    private readonly List<Stop> _stops = [];
    private readonly List<Bend> _bends = [];
    private double _bearing;
    private double _turnedArea; // anticlockwise positive

    public Trace(Spot start, double bearing)
    {
        _bearing = bearing;
        _stops.Add(new(start, false, 0));
    }

    public IReadOnlyList<Stop> Stops => _stops;

    public IReadOnlyList<Bend> Bends => _bends;

    public double PlanLength => _stops[^1].Chainage;

    /// <summary>The last stop is the first.</summary>
    public bool Closed { get; private set; }

    /// <summary>Square metres; null while open.</summary>
    public double? Area => Closed ? Math.Abs(_turnedArea) : null;

    public Spot End => _stops[^1].At;

    public double Bearing => _bearing;

    /// <summary>Straight on, shot at even steps no longer than <paramref name="step"/>.</summary>
    public Trace Straight(double length, double step)
    {
        var from = _stops[^1];
        var legs = Math.Max(1, (int)Math.Ceiling(length / step));
        for (var i = 1; i <= legs; i++)
            _stops.Add(new(from.At.Ahead(_bearing, length * i / legs), false, from.Chainage + (length * i / legs)));
        Sweep(from.At, End);
        return this;
    }

    /// <summary>A corner without an arc.</summary>
    /// <param name="turn">Radians, right positive.</param>
    public Trace Corner(double turn)
    {
        _bearing += turn;
        return this;
    }

    /// <summary>An arc tangent to what came before.</summary>
    /// <param name="turn">Radians, right positive.</param>
    /// <param name="through">Where the through-shots stand, as shares of the sweep.</param>
    public Trace Curve(double radius, double turn, params double[] through)
    {
        var from = _stops[^1];
        var first = _stops.Count - 1;
        var side = Math.Sign(turn);
        var centre = from.At.Ahead(_bearing + (side * Math.PI / 2), radius);
        var sweep = Math.Abs(turn);
        foreach (var share in through.Length == 0 ? [0.5] : through)
            Add(share, true);
        Add(1, false);
        _bends.Add(new(first, _stops.Count - 1, radius, sweep, centre, side < 0));
        Sweep(from.At, End);
        _turnedArea -= side * radius * radius * (sweep - Math.Sin(sweep)) / 2; // right turns go clockwise
        _bearing += turn;
        return this;

        void Add(double share, bool isThrough) => _stops.Add(new(
            centre.Ahead(_bearing - (side * Math.PI / 2) + (turn * share), radius), isThrough, from.Chainage + (radius * sweep * share)));
    }

    /// <summary>Says that the last stop is the first; the pieces must already lead there.</summary>
    public Trace Home()
    {
        var gap = Math.Max(Math.Abs(End.East - _stops[0].At.East), Math.Abs(End.North - _stops[0].At.North));
        if (gap > 1e-6)
            throw new InvalidOperationException("This trace does not lead home.");
        Closed = true;
        return this;
    }

    /// <summary>A full circle: first, through, through, first again.</summary>
    public static Trace Circle(Spot centre, double radius, double bearing) =>
        new Trace(centre.Ahead(bearing, radius), bearing + (Math.PI / 2)).Curve(radius, Math.Tau, 1 / 3.0, 2 / 3.0).Home();

    private void Sweep(Spot from, Spot to) => _turnedArea += from.Cross(to) / 2;
}
