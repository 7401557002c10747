using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>Every run with its measures, and how much of it stands in which state.</summary>
internal static class RunsTable
{
    public static void Write(AsBuiltRecord record, string path)
    {
        var (lengths, fields) = (LengthsByState(record), new ClientFields(record));
        using var table = new Table(
            path,
            "run", "label", "code", "layer", "status", "flow", "start", "end", "closed", "plan_length_m", "u_plan_length_m", "slope_length_m", "u_slope_length_m", "area_m2", "u_area_m2",
            "shots", "open_m", "held_m", "complete_m", "covered_m", "attributes");
        for (var number = 0; number < record.Runs.Count; number++)
        {
            var run = record.Runs[number];
            table.Text(run.Key).Text(run.Label).Text(run.Code).Text(record.Inputs.Delivery.LayerOf(run.Code))
                .Text(run.Facts.StatusWord).Text(run.Facts.FlowWord).Text(run.Facts.Start).Text(run.Facts.End).YesNo(run.IsClosed)
                .Number(run.PlanLength, Fixed.Coordinate).Number(run.UPlanLength, Fixed.Coordinate)
                .Number(run.SlopeLength, Fixed.Coordinate).Number(run.USlopeLength, Fixed.Coordinate)
                .Number(run.Area, Fixed.Area).Number(run.UArea, Fixed.Area).Whole(Different(run.Members));
            for (var state = 0; state < 4; state++) table.Number(lengths[number, state], Fixed.Coordinate);
            table.Text(fields.TextOf(run)).End();
        }
    }

    private static int Different(ReadOnlySpan<int> shots)
    {
        var seen = new HashSet<int>();
        foreach (var shot in shots) seen.Add(shot);
        return seen.Count;
    }

    /// <summary>Metres by run and by <see cref="HoldState"/>, in the order of its members.</summary>
    private static double[,] LengthsByState(AsBuiltRecord record)
    {
        var lengths = new double[record.Runs.Count, 4];
        foreach (var hold in record.Holds) lengths[hold.Run, (int)hold.State] += hold.To - hold.From;
        return lengths;
    }
}
