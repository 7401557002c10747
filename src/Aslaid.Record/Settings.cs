namespace Aslaid.Record;

/// <summary>
/// What a project may set. Every default is a <em>DEFAULT</em> of this program (as the limits table says), to be
/// replaced by the project's own specification. Lengths in metres.
/// </summary>
public sealed record Settings
{
    /// <summary>The settings that hold when nothing else is adopted.</summary>
    public static Settings Default { get; } = new();

    /// <summary>A run without a label ends where the next shot of its code is farther than this, metres.</summary>
    public double GapDistance { get; init; } = 60;

    /// <summary>A run without a label ends where the next shot of its code is later than this, minutes.</summary>
    public double GapMinutes { get; init; } = 90;

    /// <summary>A pause longer than this ends a session, minutes (DEFAULT: a session is at most a working day with its breaks).</summary>
    public double SessionGapMinutes { get; init; } = 240;

    /// <summary>Standard uncertainty of a distance read from a tape, metres, where nothing else is said (DEFAULT: read to the centimetre, held by hand, common practice).</summary>
    public double TapeU { get; init; } = 0.005;

    /// <summary>Share of a node's size that lengths into and through it leave out: 0 counts through chambers, 1 between them (DEFAULT 0).</summary>
    public double NodeLeftOutShare { get; init; }

    /// <summary>Depth of one band by which lengths are claimed, metres; 0 for no bands (DEFAULT 1.5, common practice).</summary>
    public double DepthBand { get; init; } = 1.5;

    /// <summary>Standard uncertainty per axis in plan, metres, by which an arc is told from a straight when shots state no accuracy. It proves nothing else.</summary>
    public double ArcProofUPlan { get; init; } = 0.015;

    /// <summary>Common part of a session in plan (base, set-up, site fit), metres, 1 sigma, radial.</summary>
    public double SessionUPlan { get; init; } = 0.010;

    /// <summary>Common part of a session in height, metres, 1 sigma.</summary>
    public double SessionUHeight { get; init; } = 0.015;

    /// <summary>Different shots nearer than this in plan and height may be one place, metres.</summary>
    public double SamePlace { get; init; } = 0.020;

    /// <summary>Repeats within this time are statistics, not duplicates, minutes.</summary>
    public double RepeatMinutes { get; init; } = 20;

    /// <summary>Ceiling of a control misfit in plan, metres.</summary>
    public double ControlPlanMax { get; init; } = 0.030;

    /// <summary>Ceiling of a control misfit in height, metres.</summary>
    public double ControlHeightMax { get; init; } = 0.050;

    /// <summary>How far a shot may lie from its nearest neighbour before it is far off, metres.</summary>
    public double LoneDistance { get; init; } = 100;

    /// <summary>Share of its radius by which an arc's radius may be uncertain (1 sigma) before a person should look (DEFAULT).</summary>
    public double RadiusDoubt { get; init; } = 0.10;

    /// <summary>How well the tip of the pole is put on the thing, metres, 1 sigma, radial (DEFAULT). Added to accuracy that an instrument states, not to accuracy declared for a batch.</summary>
    public double PoleCentring { get; init; } = 0.003;

    /// <summary>How well the pole is held upright where nothing compensates its tilt, degrees, 1 sigma (DEFAULT: 8 minutes, a circular level kept within its ring, common practice).</summary>
    public double PoleTiltUDegrees { get; init; } = 0.13;

    /// <summary>A pole that leans more than this without compensation, degrees (DEFAULT: 1° on 2 m is 35 mm).</summary>
    public double PoleTiltMaxDegrees { get; init; } = 1;

    /// <summary>Factor on the accuracy that an instrument states, until check shots prove it (DEFAULT 2).</summary>
    public double FactorUnproven { get; init; } = 2;

    /// <summary>Longest time between check shots of a session, minutes (DEFAULT: every two hours).</summary>
    public double ControlGapMinutes { get; init; } = 120;

    /// <summary>Fewest satellites of a satellite fix (common practice, DEFAULT 6).</summary>
    public double SatellitesMin { get; init; } = 6;

    /// <summary>Largest PDOP of a satellite fix (DEFAULT 4).</summary>
    public double DilutionMax { get; init; } = 4;

    /// <summary>Share of shots that must be occupied a second time, later and set up anew; 0 asks for none, since shots taken once are good where control was checked (BFR Verm).</summary>
    public double RepeatShareMin { get; init; }

    /// <summary>Guard band as a share of the 95 % uncertainty (JCGM 106): 1 accepts only what conforms beyond doubt, 0 is the bare limit.</summary>
    public double GuardBand { get; init; } = 1;

    /// <summary>A batch that lies farther than this from every control point belongs to another site or another grid, metres (DEFAULT).</summary>
    public double OtherSiteDistance { get; init; } = 5000;

    /// <summary>How far from a line or point of the design a shot of its code may lie and still belong to it, metres (DEFAULT).</summary>
    public double DesignReach { get; init; } = 3;

    /// <summary>Coordinate system of the site grid: an EPSG code as <c>EPSG:25832</c> or WKT 1; null for a bare site grid.</summary>
    public string? CoordinateSystem { get; init; }
}
