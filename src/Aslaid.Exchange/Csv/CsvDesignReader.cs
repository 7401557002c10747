using System.IO;
using Aslaid.Geometry;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>A design as a shots CSV: rows of one code and run label are a line, with its arcs through <c>through</c>; rows without a label are points.</summary>
internal sealed class CsvDesignReader : IDesignReader
{
    public string Name => "shots CSV";

    public bool Recognises(ReadOnlySpan<byte> head, string fileName) => new ShotsCsvReader().Recognises(head, fileName);

    public void Read(Stream file, DesignOptions options, DesignGather into)
    {
        using var memory = new MemoryStream();
        file.CopyTo(memory);
        var intake = new ShotsCsvReader().Read(memory.GetBuffer().AsMemory(0, (int)memory.Length), new(options.FileName, null, default), ShotTable.Empty);
        if (intake.Shots is not { } shots)
        {
            var first = intake.Rejected.IsEmpty ? new(0, null, null, "the file holds no rows") : intake.Rejected[0];
            throw new DesignRefusedException(first.Line, first.Found, first.Column is { } column ? $"({column}) {first.Expected}" : first.Expected);
        }

        var lines = new Dictionary<(string Code, string Label), List<int>>();
        for (var row = 0; row < shots.Count; row++)
        {
            var shot = shots[row];
            if (shots.Labels[shots.Label[row]] is not { Length: > 0 } label)
            {
                if (shots.Again[row] < 0) into.Point(shot.Id, [shot.Code], shot.At, shot.Height);
                continue;
            }

            if (!lines.TryGetValue((shot.Code ?? "", label), out var rows)) lines.Add((shot.Code ?? "", label), rows = []);
            rows.Add(row);
        }

        foreach (var ((code, label), rows) in lines)
        {
            var vertices = rows.ConvertAll(row =>
            {
                var shot = shots[shots.Again[row] >= 0 ? shots.Again[row] : row];
                return new PathVertex(shot.At, shot.Height, shots[row].Leg == Leg.Through);
            });
            if (Geometry.Path.TryBuild(vertices.ToArray(), 0, out var path, out var notes) && notes.All(note => note.Fault == PathFault.Straight)) into.Line(label, [code], path);
            else into.Skip($"line {label}", vertices.Count < 2 ? "it has one place only" : "places of it coincide, or its arcs cannot be made");
        }
    }
}
