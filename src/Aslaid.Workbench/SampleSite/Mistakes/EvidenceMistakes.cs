using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>
/// A duct whose code asks for a photograph every 10 m (column <c>photo_every_m</c> of the code book) and that has none along a
/// stretch. All other shots of the code have one.
/// </summary>
internal sealed class PhotoMissingMistake : IMistake
{
    private const string Code = "TELECOM-DUCT";
    private const string Column = "photo";

    public string Check => "photo-missing";

    public MistakeScale Scale => new(10, "m");

    public void OnSite(Plot plot)
    {
        plot.Book(Code, ("name", "Telecom duct"), ("kind", "line"), ("group", "telecom"), ("service", "telecom"), ("measured_at", "top"), ("od_m", "0.11"),
            ("tol_plan_m", "0.1"), ("tol_height_m", "0.1"), ("plan_95_max_m", "0.05"), ("height_95_max_m", "0.05"), ("spacing_max_m", "10"),
            ("sagitta_max_m", "0.025"), ("radius_min_m", "1"), ("radius_max_m", "200"), ("cover_min_m", "0.35"), ("end_reach_m", "1"),
            ("ends_on", "TELECOM-CHAMBER"), ("needs_proof", "yes"), ("photo_every_m", "10"));
        var stretch = Scale.At(plot.Size);
        var duct = new Trace(plot.Corner, Plot.East).Straight(10, 5).Straight(stretch, 5).Straight(10, 5);
        var run = plot.Lay(Code, "TD-7", duct, SiteFrame.Under(0.4), Interchange.Nodes("TELECOM-CHAMBER", 0, duct.Stops.Count - 1));
        foreach (var shot in run.Shots.Skip(3).SkipLast(3))
            shot.More[Column] = "";
        plot.Told(this, "TD-7", "Nobody took photographs along a stretch of duct.");
    }

    public void Afterwards(Plot plot)
    {
        foreach (var file in plot.Files)
        {
            var shots = file.Rows.Where(row => !row.Again && row.Code.StartsWith("TELECOM", StringComparison.Ordinal)).ToArray();
            if (shots.Length == 0)
                continue;
            file.MoreColumns.Add(Column);
            foreach (var shot in shots)
                shot.More.TryAdd(Column, $"photo-{shot.Id}.jpg");
        }
    }
}

/// <summary>A duct of which 32 m are noted as covered half an hour after its fifth shot; its sixth and seventh lie there and were shot later.</summary>
internal sealed class ShotAfterCoveringMistake : IMistake
{
    public string Check => "shot-after-covering";

    public void OnSite(Plot plot)
    {
        var duct = new Trace(plot.Corner, Plot.East).Straight(40, 5);
        var run = plot.Lay("TELECOM-DUCT", "TD-6", duct, SiteFrame.Under(0.4), Interchange.Nodes("TELECOM-CHAMBER", 0, 8));
        for (var i = 5; i < run.Shots.Count; i++)
            run.Shots[i].Time = run.Shots[i].Time.AddHours(1);
        plot.File.Wait(60);
        plot.Journal.Add(new(plot.Journal.Count + 1, run.Shots[4].Time.AddMinutes(30), Actor.Typed("Site engineer"), "The trench was filled.",
            new LengthCovered($"TELECOM-DUCT/TD-6@{plot.File.Crew.Name}", 0, 32)));
        plot.Told(this, "TD-6", "Shots of a duct were taken after it had been covered.", run.Shots[5], run.Shots[6]);
    }
}
