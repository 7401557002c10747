using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>A line of the design in force.</summary>
/// <param name="Number">Its place among all.</param>
/// <param name="Code">Its code; null where nothing that it is called stands for one.</param>
/// <param name="Place">Place of the code in the code book, or −1.</param>
/// <param name="Level">Level that its heights are; null for that at which the code is measured.</param>
/// <param name="IsExisting">Whether it is to be met, not built.</param>
public sealed record DesignedLine(int Number, AdoptedDesign Of, DesignLine Line, string? Code, int Place, string? Level, bool IsExisting)
{
    /// <summary>What it is called; with its file where another file has a line of that name.</summary>
    public required string Name { get; init; }

    /// <summary>Its path.</summary>
    public Path Path => Line.Path;

    /// <summary>Metres along it in plan.</summary>
    public double Length => Line.Path.PlanLength;

    /// <summary>The station at a chainage, metres.</summary>
    public double StationAt(double chainage) => Line.Stationing.StationAt(chainage);

    /// <summary>Height and rise per metre at a chainage; null where the design has no height.</summary>
    public (double Height, double Grade)? HeightAt(double chainage)
    {
        if (Line.Profile is not { } profile) return Line.Path.HeightAndGradeAt(chainage);
        return Line.HeightAt(chainage) is { } height ? (height, profile.GradeAt(chainage) ?? 0) : null;
    }
}

/// <summary>A point of the design in force.</summary>
public sealed record DesignedPoint(int Number, AdoptedDesign Of, DesignPoint Point, string? Code, int Place);

/// <summary>A surface of the design in force.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="U">Standard uncertainty of its heights, metres; 0 for one designed, null where it is not stated.</param>
public sealed record DesignedSurface(AdoptedDesign Of, string Name, SurfaceKind Kind, DateOnly? Date, double? U, Tin Tin);

/// <summary>What a design calls something that stands for no code.</summary>
public readonly record struct UnmappedWord(string Word, int Lines, int Points);

/// <summary>The design in force, by codes of the code book.</summary>
public sealed class DesignTable
{
    private readonly List<int>?[] linesOf;
    private readonly List<int>?[] pointsOf;
    private readonly DesignPieces?[] piecesOf;
    private readonly Lazy<DesignPieces> all;

    private DesignTable(ImmutableArray<AdoptedDesign> files, ImmutableArray<DesignedLine> lines, ImmutableArray<DesignedPoint> points, ImmutableArray<DesignedSurface> surfaces, ImmutableArray<UnmappedWord> unmapped, int codes)
    {
        (Files, Lines, Points, Surfaces, Unmapped) = (files, lines, points, surfaces, unmapped);
        (linesOf, pointsOf, piecesOf) = (new List<int>?[codes], new List<int>?[codes], new DesignPieces?[codes]);
        foreach (var line in lines)
            if (line.Place >= 0) (linesOf[line.Place] ??= []).Add(line.Number);
        foreach (var point in points)
            if (point.Place >= 0) (pointsOf[point.Place] ??= []).Add(point.Number);
        for (var place = 0; place < codes; place++)
            if (linesOf[place] is { } own) piecesOf[place] = new(this, own);
        all = new(() => new(this, [.. Enumerable.Range(0, lines.Length).Where(number => lines[number].Place >= 0)]));
    }

    /// <summary>No design.</summary>
    public static DesignTable Empty { get; } = new([], [], [], [], [], 0);

    /// <summary>All files adopted, former revisions too, in the journal's order.</summary>
    public ImmutableArray<AdoptedDesign> Files { get; }

    /// <summary>The lines.</summary>
    public ImmutableArray<DesignedLine> Lines { get; }

    /// <summary>The points.</summary>
    public ImmutableArray<DesignedPoint> Points { get; }

    /// <summary>The surfaces by which cover is judged, the first that reaches a place: as built, designed, existing, and of a kind the latest.</summary>
    public ImmutableArray<DesignedSurface> Surfaces { get; }

    /// <summary>What stands for no code.</summary>
    public ImmutableArray<UnmappedWord> Unmapped { get; }

    /// <summary>Whether there is neither line nor point nor surface.</summary>
    public bool IsEmpty => Lines.IsEmpty && Points.IsEmpty && Surfaces.IsEmpty;

    /// <summary>Numbers of the lines of a code, rising.</summary>
    public IReadOnlyList<int> LinesOf(int place) => place < 0 || place >= linesOf.Length ? [] : linesOf[place] ?? [];

    /// <summary>Numbers of the points of a code, rising.</summary>
    public IReadOnlyList<int> PointsOf(int place) => place < 0 || place >= pointsOf.Length ? [] : pointsOf[place] ?? [];

    /// <summary>Searches among the lines of a code; null where it has none.</summary>
    internal DesignPieces? PiecesOf(int place) => place < 0 || place >= piecesOf.Length ? null : piecesOf[place];

    /// <summary>Searches among all lines with a code.</summary>
    internal DesignPieces Pieces => all.Value;

    /// <summary>The line of a name, or null.</summary>
    public DesignedLine? Find(string name) => Lines.FirstOrDefault(line => line.Name == name) ?? Lines.FirstOrDefault(line => string.Equals(line.Line.Name, name, StringComparison.OrdinalIgnoreCase));

    internal static DesignTable Of(RecordInputs inputs)
    {
        if (inputs.Designs.IsEmpty) return Empty;
        var (lines, points, surfaces) = (ImmutableArray.CreateBuilder<DesignedLine>(), ImmutableArray.CreateBuilder<DesignedPoint>(), new List<DesignedSurface>());
        var (unmapped, names) = (new SortedDictionary<string, (int Lines, int Points)>(StringComparer.Ordinal), new HashSet<string>(StringComparer.Ordinal));
        foreach (var file in inputs.Designs.Where(file => file.Holds))
        {
            foreach (var line in file.File.Lines)
            {
                var word = Meaning(inputs, line.Words);
                var name = names.Add(line.Name) ? line.Name : $"{line.Name} ({file.What.FileName})";
                names.Add(name);
                lines.Add(new(lines.Count, file, line, word?.Code, inputs.Codes.Find(word?.Code), word?.Level, word?.Status is { } said ? said == RunStatus.Existing : line.IsExisting) { Name = name });
                if (word is null) Count(line.Words, 1, 0);
            }

            foreach (var point in file.File.Points)
            {
                var word = Meaning(inputs, point.Words);
                points.Add(new(points.Count, file, point, word?.Code, inputs.Codes.Find(word?.Code)));
                if (word is null) Count(point.Words, 0, 1);
            }

            foreach (var surface in file.File.Surfaces)
            {
                if (file.What.Surface is { } wanted && file.File.Surfaces.Any(other => other.Name == wanted) && surface.Name != wanted) continue;
                var name = file.What.Surface is { } given && file.File.Surfaces.Length == 1 ? given : surface.Name;
                surfaces.Add(new(file, name, file.What.SurfaceKind, file.What.SurfaceDate, file.What.SurfaceKind == SurfaceKind.Designed ? file.What.SurfaceU ?? 0 : file.What.SurfaceU, surface.Tin));
            }
        }

        return new(inputs.Designs, lines.ToImmutable(), points.ToImmutable(),
            [.. surfaces.Where(surface => surface.Kind != SurfaceKind.Temporary).OrderBy(surface => Order(surface.Kind)).ThenByDescending(surface => surface.Date ?? DateOnly.MinValue).ThenByDescending(surface => surface.Of.Entry)],
            [.. unmapped.Select(word => new UnmappedWord(word.Key, word.Value.Lines, word.Value.Points))], inputs.Codes.Entries.Length);

        void Count(ImmutableArray<string> words, int moreLines, int morePoints)
        {
            var word = words.IsEmpty ? "" : words[0];
            var before = unmapped.GetValueOrDefault(word);
            unmapped[word] = (before.Lines + moreLines, before.Points + morePoints);
        }
    }

    private static int Order(SurfaceKind kind) => kind switch { SurfaceKind.AsBuilt => 0, SurfaceKind.Designed => 1, _ => 2 };

    /// <summary>The map speaks first, whatever the word; then the first word that is a code itself.</summary>
    private static DesignWord? Meaning(RecordInputs inputs, ImmutableArray<string> words)
    {
        foreach (var word in words)
            if (inputs.DesignMap.Find(word) is { } mapped) return inputs.Codes.Find(mapped.Code) >= 0 ? mapped : null;
        foreach (var word in words)
            if (inputs.Codes.Find(word) >= 0) return new(word, word, null, null);
        return null;
    }
}

/// <summary>Searches among the pieces of some lines of a design.</summary>
internal sealed class DesignPieces
{
    private readonly DesignTable table;
    private readonly int[] lines; // of each piece
    private readonly int[] pieces;
    private readonly BoxIndex index;

    public DesignPieces(DesignTable table, IReadOnlyList<int> of)
    {
        this.table = table;
        var count = of.Sum(line => table.Lines[line].Path.Pieces.Length);
        (lines, pieces) = (new int[count], new int[count]);
        var (boxes, at) = (new Box2[count], 0);
        foreach (var line in of)
        {
            var span = table.Lines[line].Path.Span;
            for (var piece = 0; piece < span.Pieces.Length; piece++, at++) (lines[at], pieces[at], boxes[at]) = (line, piece, span.BoxOf(piece));
        }

        index = BoxIndex.Of(boxes);
    }

    /// <summary>The nearest line and where a place lies beside it; of equally near pieces the first.</summary>
    public (int Line, int Piece, Locus Beside) Nearest(Point2 at) => Within(at, double.PositiveInfinity)!.Value;

    /// <summary>The same, no farther than so many metres; null where none is.</summary>
    public (int Line, int Piece, Locus Beside)? Within(Point2 at, double most)
    {
        var found = index.Nearest(at, new ToPiece(this, at), most, out _);
        return found < 0 ? null : (lines[found], pieces[found], Beside(lines[found], at, out _));
    }

    /// <summary>Where a place lies beside a line.</summary>
    public Locus Beside(int line, Point2 at, out int piece) => table.Lines[line].Path.Locate(at, out piece);

    /// <summary>Lines that come within a reach of a box, rising, each once.</summary>
    public void Query(Box2 box, List<int> near, SortedSet<int> into)
    {
        near.Clear();
        index.Query(box, near);
        foreach (var found in near) into.Add(lines[found]);
    }

    private readonly struct ToPiece(DesignPieces of, Point2 at) : IDistanceTo
    {
        public double To(int id) => of.table.Lines[of.lines[id]].Path.Span.LocateOn(of.pieces[id], at).Distance;
    }
}
