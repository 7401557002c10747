using System.Collections.Immutable;
using Aslaid.Geometry;

namespace Aslaid.Exchange;

/// <summary>Builds a path piece by piece, as design files list them. Pieces without length are left out.</summary>
internal sealed class PathChain
{
    private readonly ImmutableArray<PathVertex>.Builder vertices = ImmutableArray.CreateBuilder<PathVertex>();
    private readonly ImmutableArray<PathPiece>.Builder pieces = ImmutableArray.CreateBuilder<PathPiece>();

    /// <summary>Whether a start is known.</summary>
    public bool IsStarted => vertices.Count > 0;

    /// <summary>Where it has come to.</summary>
    public Point2 End => vertices[^1].At;

    /// <summary>How many pieces.</summary>
    public int Count => pieces.Count;

    /// <summary>How many pieces without length were left out.</summary>
    public int LeftOut { get; private set; }

    public void Start(Point2 at, double? height)
    {
        vertices.Clear();
        pieces.Clear();
        vertices.Add(new(at, height, false));
    }

    /// <summary>Straight on.</summary>
    public void LineTo(Point2 at, double? height)
    {
        if (at == End)
        {
            LeftOut++;
            if (vertices[^1].Height is null && height is not null) vertices[^1] = vertices[^1] with { Height = height };
            return;
        }

        vertices.Add(new(at, height, false));
        pieces.Add(new(PieceKind.Straight, vertices.Count - 2, vertices.Count - 1, default));
    }

    /// <summary>By an arc that starts where the chain has come to, to the bit.</summary>
    public void ArcTo(in Arc arc, double? height)
    {
        if (!(arc.PlanLength > 0))
        {
            LeftOut++;
            return;
        }

        vertices.Add(new(arc.To, height, false));
        pieces.Add(new(PieceKind.Arc, vertices.Count - 2, vertices.Count - 1, arc));
    }

    /// <summary>By such an arc, on which a place is kept for its height.</summary>
    /// <param name="through">On the arc, between its ends.</param>
    public void ArcTo(in Arc arc, Point2 through, double? throughHeight, double? height)
    {
        if (throughHeight is null || !(arc.PlanLength > 0))
        {
            ArcTo(arc, height);
            return;
        }

        vertices.Add(new(through, throughHeight, true));
        vertices.Add(new(arc.To, height, false));
        pieces.Add(new(PieceKind.Arc, vertices.Count - 3, vertices.Count - 1, arc));
    }

    /// <summary>The path; null where no piece has a length.</summary>
    public Path? Build() => pieces.Count == 0 ? null : Path.Of(vertices.ToImmutable(), pieces.ToImmutable());
}
