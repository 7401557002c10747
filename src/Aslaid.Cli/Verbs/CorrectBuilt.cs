using System.CommandLine;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

/// <summary>A range of the design is built: what of it is not measured is missing from then on.</summary>
internal static class CorrectBuilt
{
    public static Command Kind(Shell shell, Argument<string> project)
    {
        var line = new Argument<string>("LINE") { Description = "A line of the design, as show design names it." };
        var from = VerbParts.Metres("--from", "Station in metres; the start where left out.");
        var to = VerbParts.Metres("--to", "Station in metres; the end where left out.");
        return CorrectVerb.Kind(shell, project, "built", "Say that a range of a line of the design is built: what of it is not measured holds from then on.", [line, from, to], (record, parsed) =>
        {
            var name = parsed.GetValue(line)!;
            var of = record.Site.Design.Find(name) ?? throw new ProjectException($"The design has no line {name}. List them with show design.");
            var (low, high) = (Chainage(of, parsed.GetValue(from), 0), Chainage(of, parsed.GetValue(to), of.Length));
            if (!(high > low)) throw new ProjectException(FormattableString.Invariant($"A range goes from a lower station to a higher; {of.Name} has stations {of.StationAt(0):0.###} to {of.StationAt(of.Length):0.###} m."));
            return new DesignBuilt(of.Name, low, high);
        });
    }

    private static double Chainage(DesignedLine of, double? station, double usual)
    {
        if (station is not { } wanted) return usual;
        var found = of.Line.Stationing.ChainagesOf(wanted, of.Length);
        if (found.IsEmpty) throw new ProjectException(FormattableString.Invariant($"{of.Name} has no station {wanted:0.###}: it goes from {of.StationAt(0):0.###} to {of.StationAt(of.Length):0.###} m."));
        return usual == 0 ? found[0] : found[^1];
    }
}
