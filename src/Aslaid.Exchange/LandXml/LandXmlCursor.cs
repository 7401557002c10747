using System.Globalization;
using System.IO;
using System.Xml;
using Aslaid.Geometry;

namespace Aslaid.Exchange;

/// <summary>Walks through LandXML element by element. Numbers are parsed as their text streams by; no text is held whole. Names count without their namespace.</summary>
internal sealed class LandXmlCursor : IDisposable
{
    private const int LongestNumber = 64; // characters
    private readonly XmlReader xml;
    private readonly IXmlLineInfo where;
    private readonly char[] chunk = new char[8192];
    private readonly char[] token = new char[LongestNumber];

    public LandXmlCursor(Stream file)
    {
        xml = XmlReader.Create(file, new XmlReaderSettings
        {
            DtdProcessing = DtdProcessing.Prohibit, // no entity is ever expanded, no other file ever asked for
            XmlResolver = null,
            IgnoreComments = true,
            IgnoreProcessingInstructions = true,
            IgnoreWhitespace = true,
            CloseInput = false,
        });
        where = (IXmlLineInfo)xml;
    }

    /// <summary>Numbers of the element read last, as they stand there.</summary>
    public List<double> Numbers { get; } = [];

    /// <summary>Metres to a unit of the file.</summary>
    public double Unit { get; set; } = 1;

    public int Line => where.LineNumber;

    /// <summary>Goes to the root.</summary>
    public string Root()
    {
        xml.MoveToContent();
        return xml.LocalName;
    }

    public string? Attribute(string name) => xml.GetAttribute(name);

    /// <summary>An attribute as a finite number, in the file's unit; null where it is missing, empty or <c>INF</c>.</summary>
    public double? Number(string name)
    {
        var text = xml.GetAttribute(name)?.Trim();
        if (string.IsNullOrEmpty(text) || text.Equals("INF", StringComparison.OrdinalIgnoreCase) || text.Equals("Infinity", StringComparison.OrdinalIgnoreCase)) return null;
        return double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value)
            ? value
            : throw new DesignRefusedException(Line, text, $"is no finite number; {name} of {xml.LocalName} was expected to be one");
    }

    /// <summary>An attribute as metres.</summary>
    public double? Metres(string name) => Unit * Number(name);

    /// <summary>Hands each child element over, which must be read to its end; then goes behind this element.</summary>
    public void Children(Action<string> child)
    {
        if (xml.IsEmptyElement)
        {
            xml.Read();
            return;
        }

        var depth = xml.Depth;
        xml.Read();
        while (xml.Depth > depth)
        {
            if (xml.NodeType == XmlNodeType.Element) child(xml.LocalName);
            else xml.Read();
        }

        xml.Read();
    }

    /// <summary>Passes over an element with all that is in it.</summary>
    public void Skip() => xml.Skip();

    /// <summary>Reads the numbers of this element into <see cref="Numbers"/> and goes behind it; what is no number refuses the file.</summary>
    public void ReadNumbers()
    {
        Numbers.Clear();
        var (name, depth) = (xml.LocalName, xml.Depth);
        if (xml.IsEmptyElement)
        {
            xml.Read();
            return;
        }

        var length = 0;
        xml.Read();
        while (xml.Depth > depth)
        {
            if (xml.NodeType is XmlNodeType.Text or XmlNodeType.CDATA or XmlNodeType.SignificantWhitespace)
            {
                int got;
                while ((got = xml.ReadValueChunk(chunk, 0, chunk.Length)) > 0)
                {
                    for (var i = 0; i < got; i++)
                    {
                        var letter = chunk[i];
                        if (letter is ' ' or '\n' or '\r' or '\t' or ',') Take(name, ref length);
                        else if (length < LongestNumber) token[length++] = letter;
                        else throw new DesignRefusedException(Line, new string(token), $"is no number; {name} was expected to hold numbers separated by blanks");
                    }
                }

                xml.Read();
            }
            else if (xml.NodeType == XmlNodeType.Element) xml.Skip(); // extensions inside
            else xml.Read();
        }

        Take(name, ref length);
        xml.Read();
    }

    /// <summary>Reads a place: north, east and where given height, in the file's unit; null for none.</summary>
    public (Point2 At, double? Height)? ReadPlace()
    {
        var line = Line;
        ReadNumbers();
        return Numbers.Count == 0 ? null : PlaceOf(0, Math.Min(3, Numbers.Count), line);
    }

    /// <summary>The place that begins at a number of <see cref="Numbers"/>, metres.</summary>
    public (Point2 At, double? Height) PlaceOf(int first, int size, int line)
    {
        if (size < 2) throw new DesignRefusedException(line, Numbers[first].ToString("R", CultureInfo.InvariantCulture), "is a single number; north, east and where known a height were expected");
        return (DesignGather.Place(Unit * Numbers[first + 1], Unit * Numbers[first], line), size > 2 ? DesignGather.Height(Unit * Numbers[first + 2], line) : null);
    }

    private void Take(string name, ref int length)
    {
        if (length == 0) return;
        if (!double.TryParse(token.AsSpan(0, length), NumberStyles.Float, CultureInfo.InvariantCulture, out var value) || !double.IsFinite(value))
            throw new DesignRefusedException(Line, new string(token, 0, length), $"is no finite number; {name} was expected to hold numbers separated by blanks");
        Numbers.Add(value);
        length = 0;
    }

    public void Dispose() => xml.Dispose();
}
