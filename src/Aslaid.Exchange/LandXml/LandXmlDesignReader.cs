using System.IO;
using System.Xml;
using Aslaid.Geometry;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>
/// A design as LandXML 1.0 to 1.2: alignments with their profile and stations, plan features, points, surfaces of triangles, networks
/// of pipes. Whatever unit the file states becomes metres.
/// </summary>
/// <remarks>Places are north, east, height. An alignment's code is sought in its <c>desc</c>, then its name; a point's in <c>code</c>, <c>desc</c>, its group.</remarks>
internal sealed class LandXmlDesignReader : IDesignReader
{
    public string Name => "LandXML";

    public bool Recognises(ReadOnlySpan<byte> head, string fileName) => head.IndexOf("<LandXML"u8) >= 0 || head.IndexOf(":LandXML"u8) >= 0;

    public void Read(Stream file, DesignOptions options, DesignGather into)
    {
        using var xml = new LandXmlCursor(file);
        try
        {
            if (xml.Root() != "LandXML") throw new DesignRefusedException(xml.Line, xml.Root(), "is the root of another kind of XML; LandXML was expected");
            new Reading(xml, options, into).Whole();
        }
        catch (XmlException wrong) when (wrong.Message.Contains("DTD", StringComparison.Ordinal))
        {
            throw new DesignRefusedException(wrong.LineNumber, null, "the file has a document type definition, through which it could pull in other files; save it without one");
        }
        catch (XmlException wrong)
        {
            throw new DesignRefusedException(wrong.LineNumber, null, $"the file is no well-formed XML, or ends too early: {wrong.Message.TrimEnd('.')}; export it again");
        }
    }

    private sealed class Reading(LandXmlCursor xml, DesignOptions options, DesignGather into)
    {
        private readonly LandXmlPoints points = new();
        private bool unitKnown;

        public void Whole()
        {
            xml.Children(name =>
            {
                switch (name)
                {
                    case "Units": xml.Children(Units); break;
                    case "CgPoints": Known(); Points(xml.Attribute("name")); break;
                    case "Alignments": Known(); xml.Children(Alignment); break;
                    case "PlanFeatures": Known(); xml.Children(PlanFeature); break;
                    case "Surfaces": Known(); xml.Children(Surface); break;
                    case "PipeNetworks": Known(); xml.Children(Network); break;
                    case "Project" or "Application" or "CoordinateSystem" or "FeatureDictionary" or "Amendment" or "Monuments" or "Survey": xml.Skip(); break;
                    default:
                        into.Skip(name, "such elements hold no line, point or surface that is read");
                        xml.Skip();
                        break;
                }
            });
        }

        private void Units(string name)
        {
            var unit = xml.Attribute("linearUnit");
            xml.Unit = unit switch
            {
                "meter" => 1, "millimeter" => 0.001, "centimeter" => 0.01, "kilometer" => 1000,
                "foot" => 0.3048, "USSurveyFoot" => 1200.0 / 3937, "inch" => 0.0254, "mile" => 1609.344,
                _ => throw new DesignRefusedException(xml.Line, unit, "is no linear unit known here; meter, millimeter, centimeter, kilometer, foot, USSurveyFoot, inch or mile was expected"),
            };
            unitKnown = true;
            xml.Skip();
        }

        /// <summary>Nothing is measured before its unit is known.</summary>
        private void Known()
        {
            if (unitKnown) return;
            unitKnown = true;
            xml.Unit = options.UnitInMetres ?? 1;
            if (options.UnitInMetres is null) into.Remark("The file states no unit before its first coordinate: metres were assumed.");
        }

        private void Points(string? group) => xml.Children(name =>
        {
            if (name == "CgPoints") Points(xml.Attribute("name") ?? group);
            else if (name == "CgPoint") Point(group);
            else xml.Skip();
        });

        private void Point(string? group)
        {
            string?[] words = [xml.Attribute("code"), xml.Attribute("desc"), group];
            var (name, reference, number) = (xml.Attribute("name"), xml.Attribute("pntRef"), xml.Attribute("oID"));
            var place = xml.ReadPlace() ?? points.Find(reference);
            if (place is not { } at)
            {
                into.Skip($"point {name ?? number}", reference is null ? "it has no coordinates" : $"it refers to a point {reference} that the file has not given before");
                return;
            }

            points.Keep(name, at);
            into.Point(name ?? number, words, at.At, at.Height);
        }

        private void Alignment(string element)
        {
            if (element != "Alignment")
            {
                xml.Skip();
                return;
            }

            var (name, words, start) = (xml.Attribute("name"), new[] { xml.Attribute("desc"), xml.Attribute("oID") is { } id && xml.Attribute("name") is null ? id : null }, xml.Metres("staStart") ?? 0);
            var existing = IsExisting();
            var (lines, profiles, equations) = (new LandXmlLines(xml, points), new LandXmlProfiles(xml), new List<StationEquation>());
            xml.Children(child =>
            {
                switch (child)
                {
                    case "CoordGeom": lines.Read(); break;
                    case "Profile": profiles.Read(); break;
                    case "StaEquation":
                        if (xml.Metres("staAhead") is { } ahead && (xml.Metres("staInternal") ?? xml.Metres("staBack")) is { } inside) equations.Add(new(inside - start, xml.Metres("staBack") ?? inside, ahead));
                        xml.Skip();
                        break;
                    case "CrossSects":
                        into.Skip("cross-sections of alignments", "they are no surface of their own");
                        xml.Skip();
                        break;
                    default: xml.Skip(); break;
                }
            });
            equations.Sort((a, b) => a.Chainage.CompareTo(b.Chainage));
            var profile = profiles.Of(start, out var fault);
            if (fault is not null) into.Skip($"profile of alignment {name}", fault);
            lines.Give(into, "alignment", name, words, profile, new(start, [.. equations]), existing);
        }

        private void PlanFeature(string element)
        {
            if (element != "PlanFeature")
            {
                xml.Skip();
                return;
            }

            var (name, words, lines, existing) = (xml.Attribute("name"), new[] { xml.Attribute("desc") }, new LandXmlLines(xml, points), IsExisting());
            xml.Children(child =>
            {
                if (child == "CoordGeom") lines.Read();
                else xml.Skip();
            });
            lines.Give(into, "plan feature", name, words, null, default, existing);
        }

        /// <summary>What stands there already or is to go; states are those of the schema's <c>stateType</c>.</summary>
        private bool IsExisting() => xml.Attribute("state") is "existing" or "abandoned" or "destroyed";

        private void Surface(string element)
        {
            if (element == "Surface") new LandXmlSurface(xml, into).Read();
            else xml.Skip();
        }

        private void Network(string element)
        {
            if (element == "PipeNetwork") new LandXmlPipes(xml, into).Read();
            else xml.Skip();
        }
    }
}

/// <summary>Points of a file by name, for lines that refer to them.</summary>
internal sealed class LandXmlPoints
{
    private readonly Dictionary<string, (Point2 At, double? Height)> known = new(StringComparer.Ordinal);

    public void Keep(string? name, (Point2 At, double? Height) place)
    {
        if (name is not null) known[name] = place;
    }

    public (Point2 At, double? Height)? Find(string? name) => name is not null && known.TryGetValue(name, out var place) ? place : null;
}
