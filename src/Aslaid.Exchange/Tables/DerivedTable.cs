using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>Lines derived by sections, vertex by vertex.</summary>
internal static class DerivedTable
{
    public static void Write(AsBuiltRecord record, string path)
    {
        using var table = new Table(path, "derived", "of", "part", "part_code", "right_m", "up_m", "plan_length_m", "vertex", "through", "east_m", "north_m", "height_m");
        foreach (var line in DerivedLines.Of(record))
        {
            for (var vertex = 0; vertex < line.Path.Vertices.Length; vertex++)
            {
                var at = line.Path.Vertices[vertex];
                table.Text(line.Key(record.Runs)).Text(record.Runs[line.Of].Key).Text(line.Part.Part).Text(line.Part.PartCode)
                    .Number(line.Part.Right, Fixed.Coordinate).Number(line.Part.Up, Fixed.Coordinate).Number(line.PlanLength, Fixed.Coordinate).Whole(vertex + 1).YesNo(at.Through)
                    .Number(at.At.East, Fixed.Coordinate).Number(at.At.North, Fixed.Coordinate).Number(at.Height, Fixed.Coordinate).End();
            }
        }
    }
}
