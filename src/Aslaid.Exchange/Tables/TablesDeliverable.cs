using System.Globalization;
using Aslaid.Geometry;
using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>
/// The record as plain tables: <c>shots.csv</c>, <c>runs.csv</c>, <c>arcs.csv</c>, <c>quantities.csv</c>, <c>findings.csv</c>,
/// <c>holds.csv</c>, <c>nodes.csv</c>, <c>levels.csv</c> and <c>verdicts.csv</c>. Site grid, metres, the unit in every column's name; lengths and coordinates to 0.1 mm.
/// </summary>
/// <remarks>A text that a spreadsheet would take for a formula begins with an apostrophe. A list within a cell is parted by
/// <c>; </c>. An empty cell is unknown, never zero.</remarks>
public sealed class TablesDeliverable : IDeliverable
{
    /// <inheritdoc/>
    public string Name => "tables";

    /// <inheritdoc/>
    public string What => "shots, runs, arcs, quantities, findings, holds and verdicts as CSV, site grid, metres";

    /// <inheritdoc/>
    public void Write(Handover handover, IDeliveryFolder folder)
    {
        var record = handover.Record;
        ShotsTable.Write(record, folder.PathOf("shots.csv", "every shot as measured and as it now stands, with what its file said of it; CSV"));
        RunsTable.Write(record, folder.PathOf("runs.csv", "runs: lengths, areas, metres by state, attributes; CSV"));
        Arcs(record, folder.PathOf("arcs.csv", "arcs of the runs: radius, sweep, centre, tangents, with uncertainty; CSV"));
        Quantities(record, folder.PathOf("quantities.csv", "quantities by code and pay item, with uncertainty and rule; CSV"));
        Findings(record, folder.PathOf("findings.csv", "what the checks found, with evidence and cure; CSV"));
        Holds(record, folder.PathOf("holds.csv", "lengths of runs: open, held, complete or covered, and by what; CSV"));
        NodesTable.Write(record, folder.PathOf("nodes.csv", "nodes: chambers, fittings and joints, what enters them and which runs end there; CSV"));
        LevelsTable.Write(record, folder.PathOf("levels.csv", "levels of runs shot by shot: top, centre, soffit, invert, underside, encasement; CSV"));
        if (!record.Inputs.Sections.Parts.IsEmpty) DerivedTable.Write(record, folder.PathOf("derived.csv", "lines derived from runs by their sections: nobody shot them, and they are counted in nothing; CSV"));
        if (!record.Site.Design.IsEmpty)
        {
            DesignTables.Deviations(record, folder.PathOf("deviations.csv", "departures from the design, shot by shot, against tolerance; not accuracy of the data; CSV"));
            DesignTables.Coverage(record, folder.PathOf("coverage.csv", "lines of the design: what of them is measured and what is not, by stations; CSV"));
            DesignTables.Cover(record, folder.PathOf("cover.csv", "cover of buried runs along them, with the surface and its kind; CSV"));
        }

        if (!record.Site.Clearances.All.IsEmpty) DesignTables.Clearances(record, folder.PathOf("clearances.csv", "clear distances between services where they cross or run beside, against the separation table; CSV"));
        VerdictsTable.Write(record, folder.PathOf("verdicts.csv", "values against limits: within them, proven or not, with uncertainty and probability; CSV"));
    }

    private static void Arcs(AsBuiltRecord record, string path)
    {
        using var table = new Table(
            path,
            "run", "shots", "radius_m", "u_radius_m", "sweep_deg", "turns", "plan_length_m", "chord_m", "tangent_length_m", "sagitta_m",
            "centre_east_m", "centre_north_m", "from_m", "to_m", "from_east_m", "from_north_m", "to_east_m", "to_north_m");
        for (var number = 0; number < record.Runs.Count; number++)
        {
            var run = record.Runs[number];
            for (var at = 0; at < run.PieceCount; at++)
            {
                var piece = run.Piece(at);
                if (piece.Kind != PieceKind.Arc) continue;
                var arc = piece.Arc;
                table.Text(run.Key).Text(Ids(record, run.Members[piece.First..(piece.Last + 1)]))
                    .Number(arc.Radius, Fixed.Coordinate).Number(piece.URadius, Fixed.Coordinate)
                    .Number(double.RadiansToDegrees(arc.Sweep), Fixed.Angle).Text(arc.Turn == Turn.Left ? "left" : "right")
                    .Number(arc.PlanLength, Fixed.Coordinate).Number(arc.Chord, Fixed.Coordinate)
                    .Number(arc.TangentLength, Fixed.Coordinate).Number(arc.Sagitta, Fixed.Coordinate);
                Place(table, arc.Centre).Number(run.Chainages[piece.First], Fixed.Coordinate).Number(run.Chainages[piece.Last], Fixed.Coordinate);
                Place(Place(table, arc.From), arc.To).End();
            }
        }
    }

    private static void Quantities(AsBuiltRecord record, string path)
    {
        using var table = new Table(path, "code", "pay_item", "kind", "value", "unit", "u", "of_which_held", "gross", "runs", "left_out", "rule");
        foreach (var line in record.Quantities)
        {
            var decimals = line.Kind switch { QuantityKind.Count => 0, QuantityKind.Area => Fixed.Area, _ => Fixed.Coordinate };
            table.Text(line.Code).Text(line.PayItem).Text(EnumWords.Of(line.Kind)).Number(line.Value, decimals).Text(line.Unit)
                .Number(line.U, decimals).Number(line.Held, Fixed.Coordinate).Number(line.Gross, Fixed.Area).Whole(line.Runs).Whole(line.LeftOut).Text(line.Rule).End();
        }
    }

    private static void Findings(AsBuiltRecord record, string path)
    {
        using var table = new Table(
            path,
            "id", "check", "severity", "state", "shots", "run", "from_m", "to_m", "east_m", "north_m", "height_m", "measured", "allowed",
            "unit", "message", "cure", "reshoot", "under");
        for (var number = 0; number < record.Findings.Count; number++)
        {
            var finding = record.Findings[number];
            table.Text(finding.Id).Text(finding.Check.Name).Text(EnumWords.Of(finding.Severity)).Text(EnumWords.Of(finding.State))
                .Text(Ids(record, finding.Shots)).Text(finding.Run?.Key)
                .Number(finding.From, Fixed.Coordinate).Number(finding.To, Fixed.Coordinate);
            Place(table, finding.At).Number(finding.AtHeight, Fixed.Coordinate).Number(finding.Measured, Fixed.Figure).Number(finding.Allowed, Fixed.Figure)
                .Text(finding.Check.Unit).Text(finding.Message).Text(finding.Cure).Text(EnumWords.Of(finding.Reshoot)).Text(finding.Under?.Id).End();
        }
    }

    private static void Holds(AsBuiltRecord record, string path)
    {
        using var table = new Table(path, "run", "from_m", "to_m", "state", "held_by", "lapsed_releases", "journal");
        foreach (var hold in record.Holds)
        {
            table.Text(record.Runs[hold.Run].Key).Number(hold.From, Fixed.Coordinate).Number(hold.To, Fixed.Coordinate)
                .Text(EnumWords.Of(hold.State)).Text(string.Join("; ", hold.By.Select(finding => record.Findings[finding].Id)))
                .Text(string.Join("; ", hold.Lapsed.Select(position => position.ToString(CultureInfo.InvariantCulture))))
                .Text(hold.Entry == 0 ? null : hold.Entry.ToString(CultureInfo.InvariantCulture)).End();
        }
    }

    /// <summary>Shots as <c>batch:line id</c>, so that ids that repeat stay apart.</summary>
    internal static string Ids(AsBuiltRecord record, ReadOnlySpan<int> rows)
    {
        var words = new string[rows.Length];
        for (var i = 0; i < rows.Length; i++) words[i] = $"{record.Shots.Raw.Key(rows[i])} {record.Shots.Raw.Id(rows[i])}";
        return string.Join("; ", words);
    }

    private static Table Place(Table table, Point2 at) => table.Number(at.East, Fixed.Coordinate).Number(at.North, Fixed.Coordinate);
}
