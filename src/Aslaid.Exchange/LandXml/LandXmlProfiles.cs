using Aslaid.Geometry;

namespace Aslaid.Exchange;

/// <summary>The designed profile of an alignment: the first <c>ProfAlign</c>. Its stations count from the alignment's start, as inside stations do.</summary>
internal sealed class LandXmlProfiles(LandXmlCursor xml)
{
    private readonly List<ProfilePoint> points = []; // by station
    private bool found;

    public void Read() => xml.Children(name =>
    {
        if (name == "ProfAlign" && !found)
        {
            found = true;
            xml.Children(Point);
        }
        else xml.Skip(); // ground as it was, and other proposals
    });

    /// <summary>The profile by chainage; null where there is none, or for a fault.</summary>
    public Profile? Of(double start, out string? fault)
    {
        fault = null;
        if (points.Count == 0) return null;
        var by = points.ConvertAll(point => point with { Chainage = point.Chainage - start });
        by.Sort((a, b) => a.Chainage.CompareTo(b.Chainage));
        return Profile.TryOf(by.ToArray(), out var profile, out fault) ? profile : null;
    }

    private void Point(string name)
    {
        var (length, first, last, radius, line) = (xml.Metres("length"), xml.Metres("lengthIn"), xml.Metres("lengthOut"), xml.Metres("radius"), xml.Line);
        if (name is not ("PVI" or "ParaCurve" or "UnsymParaCurve" or "CircCurve"))
        {
            xml.Skip();
            return;
        }

        xml.ReadNumbers();
        if (xml.Numbers.Count < 2) throw new DesignRefusedException(line, null, $"a {name} lacks its station or its height");
        var (station, height) = (xml.Unit * xml.Numbers[0], DesignGather.Height(xml.Unit * xml.Numbers[1], line));
        points.Add(name switch
        {
            "ParaCurve" => new(station, height, VerticalCurveKind.Parabola, (length ?? 0) / 2, (length ?? 0) / 2),
            "UnsymParaCurve" => new(station, height, VerticalCurveKind.Parabola, first ?? 0, last ?? 0),
            "CircCurve" => new(station, height, VerticalCurveKind.Circle, Radius: Math.Abs(radius ?? 0)),
            _ => new(station, height),
        });
    }
}
