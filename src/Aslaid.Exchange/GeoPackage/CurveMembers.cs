namespace Aslaid.Exchange;

/// <summary>Walks a curve's members: the longest stretches that are all straight or all arcs. Neighbours share a vertex.</summary>
internal ref struct CurveMembers(ReadOnlySpan<CurveVertex> vertices)
{
    private readonly ReadOnlySpan<CurveVertex> _vertices = vertices;
    private int _end;

    /// <summary>The vertices of the member reached.</summary>
    public ReadOnlySpan<CurveVertex> Current { get; private set; }

    /// <summary>Whether the member reached consists of arcs.</summary>
    public readonly bool IsArcs => Current[1].OnArc;

    public bool Next()
    {
        var start = _end;
        if (start + 1 >= _vertices.Length) return false;
        if (_vertices[start + 1].OnArc)
            while (_end + 2 < _vertices.Length && _vertices[_end + 1].OnArc) _end += 2;
        else
            while (_end + 1 < _vertices.Length && !_vertices[_end + 1].OnArc) _end++;
        Current = _vertices[start..(_end + 1)];
        return true;
    }

    /// <summary>How many members, of a curve that <see cref="Demand"/> accepts.</summary>
    public static int CountOf(ReadOnlySpan<CurveVertex> vertices)
    {
        var count = 0;
        for (var members = new CurveMembers(vertices); members.Next();) count++;
        return count;
    }

    /// <summary>Refuses a curve that is too short or whose arcs lack an end.</summary>
    public static void Demand(ReadOnlySpan<CurveVertex> vertices)
    {
        if (vertices.Length < 2)
            throw new ArgumentException($"A curve needs at least 2 vertices and has {vertices.Length}.", nameof(vertices));
        if (vertices[0].OnArc || vertices[^1].OnArc)
            throw new ArgumentException("A curve starts and ends with a vertex that is an end, not with an arc's middle point.", nameof(vertices));
        for (var i = 1; i < vertices.Length; i++)
            if (vertices[i].OnArc && vertices[i - 1].OnArc)
                throw new ArgumentException($"Vertices {i - 1} and {i} are both an arc's middle point; an end must stand between them.", nameof(vertices));
    }
}
