using System.CommandLine;
using System.Globalization;
using System.IO;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

internal static class DesignVerb
{
    public static Command Make(Shell shell)
    {
        var project = VerbParts.Project();
        var files = new Argument<string[]>("FILE") { Description = "Design files: LandXML, DXF, GeoPackage, GeoJSON or shots CSV. A file of a name adopted before is its next revision.", Arity = ArgumentArity.OneOrMore };
        var map = new Option<string?>("--map") { Description = "Also adopt a design map: a CSV of design, code and where wanted level, status.", HelpName = "CSV" };
        var surface = new Option<string?>("--surface") { Description = "Which surface of the file counts, or what its only one is called.", HelpName = "NAME" };
        var kind = new Option<string>("--surface-kind") { Description = "What the surfaces are: designed, as-built, existing, temporary.", HelpName = "KIND", DefaultValueFactory = _ => "designed" };
        kind.AcceptOnlyFromAmong("designed", "as-built", "existing", "temporary");
        var date = new Option<string?>("--surface-date") { Description = "Their date, as 2026-03-10.", HelpName = "DATE" };
        var u = VerbParts.Metres("--surface-u", "Standard uncertainty of their heights in metres; a designed surface is exact.");
        var unit = VerbParts.Metres("--unit", "Metres to a unit of the file, where it states none: 1, 0.3048 or 0.3048006096.");
        var by = VerbParts.By();
        var why = new Option<string?>("--why") { Description = "The reason, for the journal.", HelpName = "TEXT" };
        var verb = new Command("design", "Adopt designs: lines, points and surfaces that what is built is held against.") { project, files, map, surface, kind, date, u, unit, by, why };
        verb.SetAction(parsed =>
        {
            using var session = ProjectSession.Open(parsed.GetValue(project)!, shell.Clock);
            var (actor, reason) = (VerbParts.ActorOf(parsed.GetValue(by)), PlainText.Demand("--why", parsed.GetValue(why) ?? ""));
            var released = session.Record().Holds.Count(hold => hold.State == HoldState.Complete);
            var terms = new DesignTerms(parsed.GetValue(unit), parsed.GetValue(surface), KindOf(parsed.GetValue(kind)!), DateOf(parsed.GetValue(date)), parsed.GetValue(u));
            if (terms.Unit is <= 0 || terms.U is < 0) throw new ProjectException("--unit is above 0, --surface-u is 0 or more. Nothing changed.");
            if (parsed.GetValue(map) is { } words)
            {
                var bytes = NamedFile.Read(words);
                foreach (var remark in Adoptions.Remarks(Adoptable.DesignMap, Path.GetFileName(words), bytes)) shell.Tell($"{words}: {remark}");
                if (session.Adopt(Adoptable.DesignMap, Path.GetFileName(words), bytes, actor, reason) is { } entry) shell.Say($"{words} holds from now on (journal {entry.Position}).");
            }

            foreach (var file in parsed.GetValue(files)!)
            {
                var (design, entry) = session.AdoptDesign(Path.GetFileName(file), NamedFile.Read(file), terms, actor, reason);
                foreach (var skipped in design.Skipped) shell.Tell($"{file}: {skipped}");
                var holds = $"{Figures.Count(design.Lines.Length, "line")}, {Figures.Count(design.Points.Length, "point")}, {Figures.Count(design.Surfaces.Length, "surface")}{(design.Surfaces.IsEmpty ? "" : $" of {Figures.Count(design.Surfaces.Sum(one => one.Tin.TriangleCount), "triangle")}")}";
                if (entry is null) shell.Say($"{file} is what holds already ({holds}). Nothing changed.");
                else shell.Say($"{file} holds from now on (journal {entry.Position}): {holds}.");
            }

            session.Publish();
            var lapsed = released - session.Record().Holds.Count(hold => hold.State == HoldState.Complete);
            if (lapsed > 0) shell.Say($"{lapsed} released lengths lapsed: what they rest on changed.");
            foreach (var word in session.Record().Site.Design.Unmapped.Take(MostWords))
                shell.Say($"'{word.Word}' stands for no code: {Figures.Count(word.Lines, "line")}, {Figures.Count(word.Points, "point")}. Give it one with --map.");
            if (session.Record().Site.Design.Unmapped.Length > MostWords) shell.Say($"… and {session.Record().Site.Design.Unmapped.Length - MostWords} more; aslaid show PROJECT design lists them.");
            return Exit.Fine;
        });
        return verb.WithExamples("aslaid design site.gpkg design.xml", "aslaid design site.gpkg ducts.dxf --map layers.csv --unit 1", "aslaid design site.gpkg ground.xml --surface OG --surface-kind existing --surface-date 2026-02-20 --surface-u 0.03");
    }

    private const int MostWords = 20;

    private static SurfaceKind KindOf(string word) => word switch { "as-built" => SurfaceKind.AsBuilt, "existing" => SurfaceKind.Existing, "temporary" => SurfaceKind.Temporary, _ => SurfaceKind.Designed };

    private static DateOnly? DateOf(string? text) => text is null ? null
        : DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var date) ? date
        : throw new ProjectException($"--surface-date: '{text}' is no date, as 2026-03-10. Nothing changed.");
}
