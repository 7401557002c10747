using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>
/// The runs, their members and their pieces, as columns. Run <c>r</c> owns members <c>FirstMember[r]</c> up to
/// <c>FirstMember[r + 1]</c> and pieces <c>FirstPiece[r]</c> up to <c>FirstPiece[r + 1]</c>.
/// </summary>
public sealed class RunTable
{
    internal RunTable(RunTableBuilder from, CurrentShots shots)
    {
        Shots = shots;
        Count = from.Keys.Count;
        Keys = [.. from.Keys];
        Wholes = [.. from.Wholes];
        Labels = [.. from.Labels];
        CodeWords = [.. from.CodeWords];
        CodePlaces = [.. from.CodePlaces];
        Closed = [.. from.Closed];
        FirstMembers = [.. from.FirstMembers, from.MemberShots.Count];
        FirstPieces = [.. from.FirstPieces, from.PieceKinds.Count];
        MemberShots = [.. from.MemberShots];
        MemberThrough = [.. from.MemberThrough];
        Chainages = new double[MemberShots.Length];
        PieceKinds = [.. from.PieceKinds];
        PieceFirsts = [.. from.PieceFirsts];
        PieceLasts = [.. from.PieceLasts];
        PieceArcs = [.. from.PieceArcs];
        Arcs = from.Arcs.ToArray();
        Doubts = [.. from.Doubts];
        Remeasured = [.. from.Remeasured];
        Gradients = new(MemberShots.Length);
        PlanLength = new double[Count];
        UPlanLength = new double[Count];
        SlopeLength = new double[Count];
        USlopeLength = new double[Count];
        Area = new double[Count];
        UArea = new double[Count];
        URadius = new double[Arcs.Length];
        Boxes = new Box2[Count];
        Facts = new RunFacts[Count];
        ByKey = new(StringComparer.Ordinal);
        for (var run = 0; run < Count; run++) ByKey.Add(Keys[run], run);
    }

    /// <summary>How many runs.</summary>
    public int Count { get; }

    /// <summary>The shots that the runs go through.</summary>
    public CurrentShots Shots { get; }

    internal string[] Keys { get; }

    private string?[] Wholes { get; }

    /// <summary>Key of the run that its label made, before that was parted: decisions about labels name it.</summary>
    public string KeyOfLabel(int run) => Wholes[run] ?? Keys[run];

    internal string[] Labels { get; }

    internal int[] CodeWords { get; }

    internal int[] CodePlaces { get; }

    internal bool[] Closed { get; }

    internal int[] FirstMembers { get; }

    internal int[] FirstPieces { get; }

    internal int[] MemberShots { get; }

    internal bool[] MemberThrough { get; }

    internal double[] Chainages { get; }

    internal PieceKind[] PieceKinds { get; }

    internal int[] PieceFirsts { get; }

    internal int[] PieceLasts { get; }

    internal int[] PieceArcs { get; }

    internal Arc[] Arcs { get; }

    internal double[] URadius { get; }

    internal RunGradients Gradients { get; }

    internal double[] PlanLength { get; }

    internal double[] UPlanLength { get; }

    internal double[] SlopeLength { get; }

    internal double[] USlopeLength { get; }

    internal double[] Area { get; }

    internal double[] UArea { get; }

    internal Box2[] Boxes { get; }

    internal RunFacts[] Facts { get; }

    private Dictionary<string, int> ByKey { get; }

    private readonly Dictionary<int, ImmutableSortedDictionary<string, string>> attributes = [];

    /// <summary>Attributes that the journal gave to a run, by name.</summary>
    public ImmutableSortedDictionary<string, string> AttributesOf(int run) =>
        attributes.GetValueOrDefault(run) ?? ImmutableSortedDictionary<string, string>.Empty;

    /// <summary>Whether the journal gave any run an attribute of this name, whatever its capitals.</summary>
    internal bool HasAttribute(string name) =>
        attributes.Values.Any(of => of.Keys.Any(key => string.Equals(key, name, StringComparison.OrdinalIgnoreCase)));

    /// <summary>Whether the journal gave any run any attribute.</summary>
    internal bool HasAttributes => attributes.Count > 0;

    internal void SetAttribute(int run, string name, string value) => attributes[run] = AttributesOf(run).SetItem(name, value);

    internal void RemoveAttribute(int run, string name)
    {
        if (AttributesOf(run).Remove(name) is { IsEmpty: false } rest) attributes[run] = rest;
        else attributes.Remove(run);
    }

    /// <summary>Places at which shots said <em>through</em> and no arc could be made of it.</summary>
    public ImmutableArray<ArcDoubt> Doubts { get; }

    /// <summary>End shots that left a path since they are another shot measured again.</summary>
    public ImmutableHashSet<int> Remeasured { get; }

    /// <summary>The handle of a run.</summary>
    public Run this[int run] => new(this, run);

    /// <summary>The run of a key, or null.</summary>
    public Run? Find(string key) => ByKey.TryGetValue(key, out var run) ? new Run(this, run) : null;

    /// <summary>How many pieces in all runs.</summary>
    public int PieceCount => PieceKinds.Length;
}

/// <summary>Derivatives of a run's lengths by the coordinates of each member, one entry a member.</summary>
internal sealed class RunGradients(int members)
{
    public double[] PlanEast { get; } = new double[members];

    public double[] PlanNorth { get; } = new double[members];

    public double[] SlopeEast { get; } = new double[members];

    public double[] SlopeNorth { get; } = new double[members];

    public double[] SlopeHeight { get; } = new double[members];
}

/// <summary>Why shots marked <em>through</em> are not on an arc.</summary>
public enum ArcDoubtKind : byte
{
    /// <summary>The through-shot stands off the chord by less than three times the standard uncertainty of that distance.</summary>
    NotProven,

    /// <summary>Two of the shots that should carry the arc lie in one place.</summary>
    Coincident,

    /// <summary>No shot follows the through-shot.</summary>
    Unfinished,

    /// <summary>The best fit through many shots did not settle.</summary>
    NotConverged,
}

/// <summary>A place at which no arc could be made: the run goes straight through its shots.</summary>
/// <param name="Run">Number of the run.</param>
/// <param name="FirstMember">First member concerned, as a number of the whole table.</param>
/// <param name="LastMember">Last member concerned.</param>
/// <param name="Ordinate">Metres, distance of the through-shot from its chord.</param>
/// <param name="UOrdinate">Metres, its standard uncertainty.</param>
public readonly record struct ArcDoubt(
    int Run, int FirstMember, int LastMember, ArcDoubtKind Kind, double Ordinate, double UOrdinate);

internal sealed class RunTableBuilder
{
    public List<string> Keys { get; } = [];

    public List<string?> Wholes { get; } = [];

    public List<string> Labels { get; } = [];

    public List<int> CodeWords { get; } = [];

    public List<int> CodePlaces { get; } = [];

    public List<bool> Closed { get; } = [];

    public List<int> FirstMembers { get; } = [];

    public List<int> FirstPieces { get; } = [];

    public List<int> MemberShots { get; } = [];

    public List<bool> MemberThrough { get; } = [];

    public List<PieceKind> PieceKinds { get; } = [];

    public List<int> PieceFirsts { get; } = [];

    public List<int> PieceLasts { get; } = [];

    public List<int> PieceArcs { get; } = [];

    public List<Arc> Arcs { get; } = [];

    public List<ArcDoubt> Doubts { get; } = [];

    public HashSet<int> Remeasured { get; } = [];

    /// <summary>Journal positions of the entries that cut a run.</summary>
    public HashSet<int> Cut { get; } = [];
}
