using System.Collections.Immutable;
using System.Security.Cryptography;

namespace Aslaid.Record;

/// <summary>What a release rests on, and what it states.</summary>
public static class Release
{
    /// <summary>
    /// Hash of the inputs of a length of a run: keys, codes and legs of the members in it and next to it, and the limits of its
    /// code, and the lines of the design that the members lie on. Raw inputs only; a computed number is never hashed, since its last bit
    /// differs between machines: of a design, places count to the millimetre and arcs to the hundred thousandth of a radian.
    /// </summary>
    public static string InputsHash(Site site, Run run, double from, double to)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var write = new CanonicalBytes();
        write.Text(run.Code);
        write.Text(run.Entry is { } entry ? CodeBookText.Of(entry) : null);
        var (first, last) = MembersOf(run, from, to);
        for (var member = first; member <= last; member++)
        {
            var key = run.Table.Shots.Raw.Key(run.Members[member]);
            write.Whole(key.Batch);
            write.Whole(key.Line);
            write.Whole(run.Through[member] ? 1 : 0);
        }

        var lines = new SortedSet<int>();
        for (var member = first; member <= last; member++)
            if (site.Match.LineOf(run, member) is >= 0 and var line) lines.Add(line);
        foreach (var line in lines) Write(write, site.Design.Lines[line]);

        hash.AppendData(write.Written);
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    private static void Write(CanonicalBytes write, DesignedLine line)
    {
        write.Text(line.Name);
        foreach (var vertex in line.Path.Vertices)
        {
            write.Whole((long)Math.Round(1000 * vertex.At.East));
            write.Whole((long)Math.Round(1000 * vertex.At.North));
            write.Whole(vertex.Height is { } height ? (long)Math.Round(1000 * height) : long.MinValue);
        }

        foreach (var piece in line.Path.Pieces) write.Whole(piece.Kind == Geometry.PieceKind.Arc ? (long)Math.Round(1e5 * piece.Arc.Sweep) * (piece.Arc.Turn == Geometry.Turn.Left ? 1 : -1) : 0);
        if (line.Line.Profile is not { } profile) return;
        foreach (var point in profile.Points)
        {
            write.Whole((long)Math.Round(1000 * point.Chainage));
            write.Whole((long)Math.Round(1000 * point.Height));
            write.Whole((long)Math.Round(1000 * (point.LengthIn + 2 * point.LengthOut + 3 * point.Radius)));
        }
    }

    /// <summary>The vertices of a length of a run as they now stand.</summary>
    public static ImmutableArray<ReleasedVertex> Vertices(Run run, double from, double to)
    {
        var (first, last) = MembersOf(run, from, to);
        var vertices = ImmutableArray.CreateBuilder<ReleasedVertex>(last - first + 1);
        for (var member = first; member <= last; member++)
        {
            var shot = run.Members[member];
            var at = run.Table.Shots.At(shot);
            vertices.Add(new(run.Chainages[member], at.East, at.North, run.Table.Shots.HeightOf(shot)));
        }

        return vertices.MoveToImmutable();
    }

    /// <summary>The members in the length, and the nearest one on either side of it.</summary>
    private static (int First, int Last) MembersOf(Run run, double from, double to)
    {
        var (first, last) = (0, run.MemberCount - 1);
        while (first < last && run.Chainages[first + 1] <= from) first++;
        while (last > first && run.Chainages[last - 1] >= to) last--;
        return (first, last);
    }
}
