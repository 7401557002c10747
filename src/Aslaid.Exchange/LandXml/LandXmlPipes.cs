using Aslaid.Geometry;

namespace Aslaid.Exchange;

/// <summary>
/// A network of pipes: each pipe a line from structure to structure, at the inverts that the structures state for it; each structure a
/// point at its lowest invert, else its sump, else its rim.
/// </summary>
internal sealed class LandXmlPipes(LandXmlCursor xml, DesignGather into)
{
    private readonly Dictionary<string, Structure> structures = new(StringComparer.Ordinal);
    private readonly List<Pipe> pipes = [];

    public void Read()
    {
        string?[] network = [xml.Attribute("desc"), xml.Attribute("name")];
        xml.Children(element =>
        {
            if (element == "Structs") xml.Children(Struct);
            else if (element == "Pipes") xml.Children(PipeOf);
            else xml.Skip();
        });
        foreach (var one in structures.Values)
            into.Point(one.Name, [one.Desc, .. network], one.At, one.Inverts.Count > 0 ? one.Inverts.Values.Min() : one.Sump ?? one.Rim);
        foreach (var pipe in pipes) Give(pipe, network);
    }

    private void Struct(string element)
    {
        if (element != "Struct")
        {
            xml.Skip();
            return;
        }

        var (name, desc, rim, sump) = (xml.Attribute("name"), xml.Attribute("desc"), xml.Metres("elevRim"), xml.Metres("elevSump"));
        (Point2 At, double? Height)? centre = null;
        var inverts = new Dictionary<string, double>(StringComparer.Ordinal);
        xml.Children(child =>
        {
            if (child == "Center") centre = xml.ReadPlace();
            else if (child == "Invert")
            {
                if (xml.Metres("elev") is { } elevation) inverts[xml.Attribute("refPipe") ?? ""] = DesignGather.Height(elevation, xml.Line);
                xml.Skip();
            }
            else xml.Skip();
        });
        if (name is null || centre is not { } at) into.Skip($"structure {name}", "it has no name or no centre");
        else structures[name] = new(name, desc, at.At, inverts, sump, rim);
    }

    private void PipeOf(string element)
    {
        if (element != "Pipe")
        {
            xml.Skip();
            return;
        }

        var (name, desc, from, to) = (xml.Attribute("name"), xml.Attribute("desc"), xml.Attribute("refStart"), xml.Attribute("refEnd"));
        Point2? centre = null;
        xml.Children(child =>
        {
            if (child == "Center") centre = xml.ReadPlace()?.At;
            else xml.Skip();
        });
        pipes.Add(new(name, desc, from, to, centre));
    }

    private void Give(Pipe pipe, string?[] network)
    {
        if (pipe.From is null || pipe.To is null || !structures.TryGetValue(pipe.From, out var from) || !structures.TryGetValue(pipe.To, out var to))
        {
            into.Skip($"pipe {pipe.Name}", "it does not name two structures that the network has");
            return;
        }

        var chain = new PathChain();
        chain.Start(from.At, from.InvertOf(pipe.Name));
        var end = to.InvertOf(pipe.Name);
        if (pipe.Centre is { } centre && Arc.TryAbout(from.At, to.At, centre, (from.At - centre).Cross(to.At - centre) > 0 ? Turn.Left : Turn.Right, 0.02, out var arc)) chain.ArcTo(arc, end);
        else chain.LineTo(to.At, end);
        if (chain.Build() is { } path) into.Line(pipe.Name, [pipe.Desc, .. network], path);
        else into.Skip($"pipe {pipe.Name}", "its structures lie in one place");
    }

    private sealed record Structure(string Name, string? Desc, Point2 At, Dictionary<string, double> Inverts, double? Sump, double? Rim)
    {
        /// <summary>Of a pipe, else the only one of all; null where nothing says which.</summary>
        public double? InvertOf(string? pipe) => pipe is not null && Inverts.TryGetValue(pipe, out var own) ? own : Inverts.Count == 1 ? Inverts.Values.First() : null;
    }

    private sealed record Pipe(string? Name, string? Desc, string? From, string? To, Point2? Centre);
}
