using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>Copies, as attribute tables, of what the record holds besides features.</summary>
internal static class DerivedTables
{
    public static void Write(GeoPackageFile file, AsBuiltRecord record, DateTimeOffset now)
    {
        Fill(file, ProjectTables.Quantities, record.Quantities, now, (rows, q) =>
        {
            rows.Text(1, q.Code);
            rows.Text(2, q.PayItem);
            rows.Text(3, EnumWords.Of(q.Kind));
            rows.Real(4, q.Value);
            rows.Text(5, q.Unit);
            rows.Real(6, q.U);
            rows.Real(7, q.Held);
            rows.Whole(8, q.Runs);
            rows.Whole(9, q.LeftOut);
            rows.Text(10, q.Rule);
        });
        Fill(file, ProjectTables.Holds, record.Holds, now, (rows, hold) =>
        {
            rows.Text(1, record.Runs[hold.Run].Key);
            rows.Real(2, hold.From);
            rows.Real(3, hold.To);
            rows.Text(4, EnumWords.Of(hold.State));
            rows.Text(5, string.Join(' ', hold.By.Select(finding => record.Findings[finding].Id)));
            if (hold.Entry > 0) rows.Whole(6, hold.Entry);
        });
        Fill(file, ProjectTables.Sessions, SessionFacts.Of(record), now, (rows, session) =>
        {
            rows.Whole(1, session.Batch);
            rows.Text(2, session.Crew);
            rows.Text(3, session.Instrument);
            rows.Text(4, session.Setup);
            rows.Whole(5, session.Shots);
            rows.Whole(6, session.Accuracy.CheckShots);
            rows.Real(7, session.Accuracy.UPlan * Math.Sqrt(2));
            rows.Real(8, session.Accuracy.UHeight);
            if (session.Accuracy.CheckShots == 0) return;
            rows.Real(9, session.Accuracy.East);
            rows.Real(10, session.Accuracy.North);
            rows.Real(11, session.Accuracy.Height);
        });
        Fill(file, ProjectTables.Instruments, record.Shots.Receivers, now, (rows, instrument) =>
        {
            rows.Text(1, instrument.Crew);
            rows.Text(2, instrument.Name);
            rows.Text(3, instrument.Method);
            rows.Whole(4, instrument.CheckShots);
            rows.Text(5, EnumWords.Of(instrument.Plan.State));
            rows.Real(6, instrument.Plan.Factor);
            rows.Real(7, instrument.Plan.Ratio);
            rows.Text(8, EnumWords.Of(instrument.Height.State));
            rows.Real(9, instrument.Height.Factor);
            rows.Real(10, instrument.Height.Ratio);
        });
        Fill(file, ProjectTables.Control, record.Inputs.Control, now, (rows, point) =>
        {
            rows.Text(1, point.Id);
            rows.Real(2, point.At.East);
            rows.Real(3, point.At.North);
            rows.Real(4, point.Height);
            rows.Real(5, point.UPlan);
            rows.Real(6, point.UHeight);
        });
        Fill(file, ProjectTables.CodeBook, record.Inputs.Codes.Entries, now, (rows, entry) =>
        {
            rows.Text(1, entry.Code);
            rows.Text(2, entry.Name);
            rows.Text(3, entry.Kind.ToString().ToLowerInvariant());
            rows.Text(4, entry.Service);
            rows.Text(5, entry.MeasuredAt);
            rows.Text(6, CodeBookText.Of(entry));
            rows.Text(7, entry.Source);
        });
        var settings = Encoding.UTF8.GetString(SettingsText.Write(record.Inputs.Settings)).Split('\n')
            .Where(line => line.Length > 0 && line[0] != '#').Select(line => line.Split('=', 2, StringSplitOptions.TrimEntries));
        Fill(file, ProjectTables.Settings, settings, now, (rows, setting) =>
        {
            rows.Text(1, setting[0]);
            rows.Text(2, setting[1]);
        });
    }

    private static void Fill<T>(GeoPackageFile file, GeoPackageTable table, IEnumerable<T> things, DateTimeOffset now, Action<BulkInsert, T> put)
    {
        using var fill = file.Fill(table);
        var id = 0;
        foreach (var thing in things)
        {
            fill.Start(++id);
            put(fill.Rows, thing);
            fill.Rows.Row();
        }

        fill.Complete(now);
    }
}
