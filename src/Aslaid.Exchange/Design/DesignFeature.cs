using Aslaid.Geometry;

namespace Aslaid.Exchange;

/// <summary>A feature of a design file: its name, its words, and what its geometry gives, vertex by vertex.</summary>
/// <remarks>Faults are a <see cref="FormatException"/> without the place, which the reader of the file knows.</remarks>
internal sealed class DesignFeature(DesignGather into, DesignFrame frame, string of, string name, string?[] words)
{
    private const double Flat = 1e-8; // metres: coordinates of 6 000 000 m are good to a tenth of it
    private const double Gap = 1e-6; // metres by which members of a curve may part, for the noise of their writers
    private readonly PathChain chain = new();
    private bool started;
    private (double X, double Y) first, last;

    /// <summary>The properties that may say the code, in the order asked.</summary>
    public static string[] WordNames { get; } = ["code", "desc", "description", "layer", "type"];

    /// <summary>The properties that may say the name, in the order asked.</summary>
    public static string[] TitleNames { get; } = ["name", "label"];

    /// <summary>Takes a point.</summary>
    /// <param name="z">NaN where it has no height.</param>
    public void Point(double x, double y, double z) => into.Point(name, words, Place(x, y), Height(z));

    /// <summary>Begins a line, or goes straight on.</summary>
    /// <inheritdoc cref="Point" path="/param"/>
    public void LineTo(double x, double y, double z)
    {
        var (at, height) = (Place(x, y), Height(z));
        if (started) chain.LineTo(at, height);
        else
        {
            chain.Start(at, height);
            (started, first) = (true, (x, y));
        }

        last = (x, y);
    }

    /// <summary>Begins a further member of a line, which must start where the one before has ended.</summary>
    public void Join(double x, double y, double z)
    {
        if (!started) LineTo(x, y, z);
        else if (!(chain.End.DistanceTo(Place(x, y)) <= Gap)) throw new FormatException("a member of a curve does not start where the one before ends");
    }

    /// <summary>On by the arc through a middle place; where that leads back to its start it is a circle, and the middle lies opposite (ISO 13249-3).</summary>
    /// <remarks>A circle written so does not tell its turn; it is taken anticlockwise.</remarks>
    public void ArcTo((double X, double Y, double Z) middle, (double X, double Y, double Z) end)
    {
        if (frame.IsGeographic) throw new FormatException("an arc through longitudes and latitudes is none in the grid of the site; write the file in the site's grid");
        Point2 from = chain.End, through = Place(middle.X, middle.Y), to = Place(end.X, end.Y);
        var (high, height) = (Height(middle.Z), Height(end.Z));
        last = (end.X, end.Y);
        if (from == to && through != from) chain.ArcTo(Arc.FullCircle(from, through, Turn.Left), through, high, height);
        else if (Arc.TryThrough(from, through, to, Flat, out var arc, out _)) chain.ArcTo(arc, through, high, height);
        else if ((through - from).Dot(to - through) >= 0)
        {
            chain.LineTo(through, high);
            chain.LineTo(to, height);
        }
        else throw new FormatException("the middle of an arc lies in line with its ends but not between them");
    }

    /// <summary>The line is whole.</summary>
    public void EndLine() => End(isRing: false);

    /// <summary>The ring is whole; it must have come back to its start.</summary>
    public void EndRing() => End(isRing: true);

    /// <summary>Notes a geometry without vertices.</summary>
    public void Empty() => into.Skip("geometry of " + of, "it is empty");

    public void Skip(string what, string why) => into.Skip($"{what} of {of}", why);

    private void End(bool isRing)
    {
        var path = started ? chain.Build() : null;
        if (!started) Empty();
        else if (path is null) Skip(isRing ? "ring" : "line", "it has no length");
        else if (isRing && first != last) Skip("ring", "its last position is not its first");
        else into.Line(name, words, path);
        started = false;
    }

    private Point2 Place(double x, double y) => frame.TryPlace(x, y, out var at, out var why) ? at : throw new FormatException(why);

    private double? Height(double z) => double.IsNaN(z) ? null : frame.TryHeight(z, out var height, out var why) ? height : throw new FormatException(why);
}
