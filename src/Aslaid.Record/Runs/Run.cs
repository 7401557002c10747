using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>One thing laid: a path of one code. A handle on a row of the run table.</summary>
public readonly record struct Run(RunTable Table, int Number)
{
    /// <summary>What names it for good: code, label and crew, as <c>WATER-MAIN/WM-1@North</c>.</summary>
    public string Key => Table.Keys[Number];

    /// <summary>Label that the crew gave, or <c>from batch/id</c> where runs were inferred.</summary>
    public string Label => Table.Labels[Number];

    /// <summary>Its code.</summary>
    public string Code => Table.Shots.Codes[Table.CodeWords[Number]] ?? "";

    /// <summary>Its code's entry; null for a code that the book does not know.</summary>
    public CodeEntry? Entry => Table.CodePlaces[Number] < 0 ? null : Table.Shots.Book.Entries[Table.CodePlaces[Number]];

    /// <summary>What was declared of it.</summary>
    public RunFacts Facts => Table.Facts[Number];

    /// <summary>Whether it counts in quantities: it is new.</summary>
    public bool Counts => Facts.Status == RunStatus.New;

    /// <summary>Whether it ends on its own first shot.</summary>
    public bool IsClosed => Table.Closed[Number];

    /// <summary>How many members.</summary>
    public int MemberCount => Table.FirstMembers[Number + 1] - Table.FirstMembers[Number];

    /// <summary>First member, as a number of the whole table.</summary>
    public int FirstMember => Table.FirstMembers[Number];

    /// <summary>Rows of the shots that it goes through, in order; a shot may come more than once.</summary>
    public ReadOnlySpan<int> Members => Table.MemberShots.AsSpan(FirstMember, MemberCount);

    /// <summary>Which members are through-shots.</summary>
    public ReadOnlySpan<bool> Through => Table.MemberThrough.AsSpan(FirstMember, MemberCount);

    /// <summary>Chainage of each member, metres in plan from the first; a through-shot's is that of its foot on the arc.</summary>
    public ReadOnlySpan<double> Chainages => Table.Chainages.AsSpan(FirstMember, MemberCount);

    /// <summary>The last member at or before a chainage, metres; 0 before the first.</summary>
    public int MemberAt(double chainage)
    {
        var (low, high) = (0, MemberCount);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (Chainages[middle] <= chainage) low = middle + 1;
            else high = middle;
        }

        return Math.Max(0, low - 1);
    }

    /// <summary>How many pieces.</summary>
    public int PieceCount => Table.FirstPieces[Number + 1] - Table.FirstPieces[Number];

    /// <summary>A piece, from 0.</summary>
    public Piece Piece(int piece) => new(this, Table.FirstPieces[Number] + piece);

    /// <summary>Length in plan, metres, on the grid.</summary>
    public double PlanLength => Table.PlanLength[Number];

    /// <summary>Its standard uncertainty, metres; null where a shot states no accuracy.</summary>
    public double? UPlanLength => Known(Table.UPlanLength[Number]);

    /// <summary>Length on the slope, metres; null where a height is missing.</summary>
    public double? SlopeLength => Known(Table.SlopeLength[Number]);

    /// <summary>Its standard uncertainty, metres.</summary>
    public double? USlopeLength => Known(Table.USlopeLength[Number]);

    /// <summary>Area enclosed, square metres, never negative; null unless closed.</summary>
    public double? Area => Known(Table.Area[Number]);

    /// <summary>Its standard uncertainty, square metres.</summary>
    public double? UArea => Known(Table.UArea[Number]);

    /// <summary>The box about its path, bulges of arcs included.</summary>
    public Box2 Box => Table.Boxes[Number];

    /// <summary>Its path, made anew: vertices are the members in order.</summary>
    public Path Path
    {
        get
        {
            var vertices = ImmutableArray.CreateBuilder<PathVertex>(MemberCount);
            for (var member = 0; member < MemberCount; member++)
            {
                var shot = Members[member];
                vertices.Add(new(Table.Shots.At(shot), Table.Shots.HeightOf(shot), Through[member]));
            }

            var pieces = ImmutableArray.CreateBuilder<PathPiece>(PieceCount);
            for (var piece = 0; piece < PieceCount; piece++) pieces.Add(Piece(piece).InPath);
            return Path.Of(vertices.MoveToImmutable(), pieces.MoveToImmutable());
        }
    }

    private static double? Known(double value) => double.IsNaN(value) ? null : value;
}

/// <summary>One straight or one arc of a run: a handle.</summary>
/// <param name="Number">Number of the piece in the whole table.</param>
public readonly record struct Piece(Run Run, int Number)
{
    private RunTable Table => Run.Table;

    /// <summary>Straight or arc.</summary>
    public PieceKind Kind => Table.PieceKinds[Number];

    /// <summary>Member of the run, from 0, at which it begins.</summary>
    public int First => Table.PieceFirsts[Number] - Run.FirstMember;

    /// <summary>Member of the run, from 0, at which it ends; those between lie on the arc.</summary>
    public int Last => Table.PieceLasts[Number] - Run.FirstMember;

    /// <summary>Where it begins.</summary>
    public Point2 From => Table.Shots.At(Run.Members[First]);

    /// <summary>Where it ends.</summary>
    public Point2 To => Table.Shots.At(Run.Members[Last]);

    /// <summary>The arc; only where <see cref="Kind"/> says so.</summary>
    public Arc Arc => Table.Arcs[Table.PieceArcs[Number]];

    /// <summary>The straight; only where <see cref="Kind"/> says so.</summary>
    public Straight Straight => new(From, To);

    /// <summary>Number of the arc in the whole table, or −1.</summary>
    public int ArcNumber => Table.PieceArcs[Number];

    /// <summary>Standard uncertainty of the radius, metres; null for a straight or where a shot states no accuracy.</summary>
    public double? URadius => ArcNumber < 0 || double.IsNaN(Table.URadius[ArcNumber]) ? null : Table.URadius[ArcNumber];

    /// <summary>Length in plan, metres.</summary>
    public double PlanLength => Kind == PieceKind.Arc ? Arc.PlanLength : Straight.PlanLength;

    /// <summary>The piece as a part of its run's path.</summary>
    public PathPiece InPath => new(Kind, First, Last, Kind == PieceKind.Arc ? Arc : default);
}
