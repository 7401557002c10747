using System.Globalization;
using Aslaid.Exchange;

namespace Aslaid.Tests;

/// <summary>Reads the few forms of well-known text that the reference rows are printed in.</summary>
internal sealed class Wkt
{
    private readonly string[] _tokens;
    private int _at;

    private Wkt(string text) => _tokens = text.Replace("(", " ( ", StringComparison.Ordinal).Replace(")", " ) ", StringComparison.Ordinal)
        .Replace(",", " , ", StringComparison.Ordinal).Split(' ', StringSplitOptions.RemoveEmptyEntries);

    public CurveKind Kind { get; private set; }

    public CurveDimensions Dimensions { get; private set; }

    public List<CurveVertex> Vertices { get; } = [];

    public List<int> RingEnds { get; } = [];

    public static Wkt Read(string text)
    {
        var wkt = new Wkt(text);
        wkt.Kind = wkt.Start();
        if (wkt.Kind is CurveKind.Polygon or CurveKind.CurvePolygon)
            wkt.Each(() =>
            {
                wkt.Curve(wkt.Start(), ringStart: wkt.Vertices.Count);
                wkt.RingEnds.Add(wkt.Vertices.Count);
            });
        else wkt.Curve(wkt.Kind, 0);
        return wkt;
    }

    private CurveKind Start()
    {
        var kind = Enum.Parse<CurveKind>(_tokens[_at++], ignoreCase: true);
        Dimensions = _tokens[_at] switch { "Z" => CurveDimensions.Height, "M" => CurveDimensions.Measure, "ZM" => CurveDimensions.HeightAndMeasure, _ => CurveDimensions.Plane };
        if (_tokens[_at] != "(") _at++;
        return kind;
    }

    private void Curve(CurveKind kind, int ringStart)
    {
        if (kind == CurveKind.CompoundCurve)
        {
            Each(() => Curve(Start(), ringStart));
            return;
        }
        var shared = Vertices.Count > ringStart;
        var n = 0;
        Each(() =>
        {
            var vertex = Vertex(onArc: kind == CurveKind.CircularString && n % 2 == 1);
            if (n++ > 0 || !shared) Vertices.Add(vertex);
        });
    }

    private CurveVertex Vertex(bool onArc)
    {
        List<double> numbers = [];
        while (_tokens[_at] is not ("," or ")")) numbers.Add(double.Parse(_tokens[_at++], CultureInfo.InvariantCulture));
        var height = Dimensions.HasFlag(CurveDimensions.Height) ? numbers[2] : double.NaN;
        var measure = Dimensions.HasFlag(CurveDimensions.Measure) ? numbers[^1] : double.NaN;
        return new(numbers[0], numbers[1], height, measure, onArc);
    }

    private void Each(Action item)
    {
        Assert.Equal("(", _tokens[_at++]);
        do item();
        while (_tokens[_at++] == ",");
    }
}
