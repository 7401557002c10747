using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>Levels of runs, one row a shot of which any follows; an empty cell is not known.</summary>
internal static class LevelsTable
{
    public static void Write(AsBuiltRecord record, string path)
    {
        using var table = new Table(path, "run", "shot", "chainage_m", "top_m", "centre_m", "soffit_m", "invert_m", "underside_m", "encased_top_m", "encased_underside_m", "u_level_m");
        var levels = new LevelsOfRuns(record.Site);
        for (var number = 0; number < record.Runs.Count; number++)
        {
            var run = record.Runs[number];
            for (var member = 0; member < run.MemberCount; member++)
            {
                var at = levels.Of(run, member);
                if ((at.Top ?? at.Centre ?? at.Soffit ?? at.Invert ?? at.Underside) is null) continue;
                table.Text(run.Key).Text(record.Shots.Raw.Id(run.Members[member])).Number(run.Chainages[member], Fixed.Coordinate)
                    .Number(at.Top, Fixed.Coordinate).Number(at.Centre, Fixed.Coordinate).Number(at.Soffit, Fixed.Coordinate).Number(at.Invert, Fixed.Coordinate)
                    .Number(at.Underside, Fixed.Coordinate).Number(at.EncasedTop, Fixed.Coordinate).Number(at.EncasedUnderside, Fixed.Coordinate).Number(at.U, Fixed.Coordinate).End();
            }
        }
    }
}
