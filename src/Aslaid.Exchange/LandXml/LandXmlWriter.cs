using System.IO;
using System.Text;
using System.Xml;
using Aslaid.Geometry;

namespace Aslaid.Exchange;

/// <summary>The elements of LandXML 1.2 that a record needs. Places are north, east and, where known, height.</summary>
internal sealed class LandXmlWriter : IDisposable
{
    public const string Namespace = "http://www.landxml.org/schema/LandXML-1.2";
    private const int Nanometre = 9; // decimals of metres: the step of a double at a northing of 6 000 km
    private readonly XmlWriter xml;

    public LandXmlWriter(string path)
    {
        var settings = new XmlWriterSettings { Indent = true, NewLineChars = "\n", Encoding = new UTF8Encoding(false), CloseOutput = true };
        xml = XmlWriter.Create(File.Create(path), settings);
        xml.WriteStartDocument();
    }

    public void Start(string element, params ReadOnlySpan<(string Name, string? Value)> attributes)
    {
        xml.WriteStartElement(element, Namespace);
        foreach (var (name, value) in attributes)
            if (value is not null) xml.WriteAttributeString(name, Clean(value));
    }

    public void End() => xml.WriteEndElement();

    public void Empty(string element, params ReadOnlySpan<(string Name, string? Value)> attributes)
    {
        Start(element, attributes);
        End();
    }

    public void Comment(string words) => xml.WriteComment($" {Clean(words).Replace("--", "- -", StringComparison.Ordinal)} ");

    public void Place(string element, Point2 at, double? height, params ReadOnlySpan<(string Name, string? Value)> attributes)
    {
        Start(element, attributes);
        xml.WriteString(Metres(at.North) + " " + Metres(at.East) + (height is { } known ? " " + Metres(known) : ""));
        End();
    }

    public static string Metres(double value) => Fixed.Text(value, Nanometre);

    public void Dispose() => xml.Dispose();

    /// <summary>XML 1.0 knows no control characters; each becomes the mark for a character that could not be shown.</summary>
    private static string Clean(string words)
    {
        if (words.All(XmlConvert.IsXmlChar)) return words;
        var clean = new StringBuilder(words.Length);
        for (var i = 0; i < words.Length; i++)
        {
            if (i + 1 < words.Length && XmlConvert.IsXmlSurrogatePair(words[i + 1], words[i])) clean.Append(words, i++, 2);
            else clean.Append(XmlConvert.IsXmlChar(words[i]) ? words[i] : '\uFFFD');
        }

        return clean.ToString();
    }
}
