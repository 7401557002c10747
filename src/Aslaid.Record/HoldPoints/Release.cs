using System.Collections.Immutable;
using System.Security.Cryptography;

namespace Aslaid.Record;

/// <summary>What a release rests on, and what it states.</summary>
public static class Release
{
    /// <summary>
    /// Hash of the inputs of a length of a run: keys, codes and legs of the members in it and next to it, and the limits of its
    /// code. Raw inputs only; a computed number is never hashed, since its last bit differs between machines.
    /// </summary>
    public static string InputsHash(Run run, double from, double to)
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

        hash.AppendData(write.Written);
        return Convert.ToHexStringLower(hash.GetHashAndReset());
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
