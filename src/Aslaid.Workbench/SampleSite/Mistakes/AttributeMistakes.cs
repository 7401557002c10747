using System.Globalization;

namespace Aslaid.Workbench;

/// <summary>A material that the client's delivery table does not know.</summary>
internal sealed class AttributeNotAllowedMistake : IMistake
{
    public string Check => "attribute-not-allowed";

    public void OnSite(Plot plot) => plot.Told(this, null, "A bollard's material is misspelt.", Bollards.Shoot(plot, "steal"));
}

/// <summary>A material that the client requires and nobody wrote down.</summary>
internal sealed class AttributeMissingMistake : IMistake
{
    public string Check => "attribute-missing";

    public void OnSite(Plot plot) => plot.Told(this, null, "The material of a bollard was not written down.", Bollards.Shoot(plot, ""));
}

/// <summary>Four bollards, each with its material; the third is wrong.</summary>
internal static class Bollards
{
    public static SampleShot Shoot(Plot plot, string third)
    {
        const string code = "BOLLARD";
        const string column = "material";
        plot.Book(code, ("name", "Bollard"), ("kind", "point"), ("group", "furniture"), ("measured_at", "ground"));
        plot.Delivery.Add($"{code},{column},yes,steel|concrete");
        plot.File.MoreColumns.Add(column);
        var shots = Enumerable.Range(0, 4).Select(i => plot.Point(code, plot.Corner.Ahead(Plot.East, 4 * i))).ToArray();
        for (var i = 0; i < shots.Length; i++)
            shots[i].More[column] = i == 2 ? third : i == 0 ? "concrete" : "steel";
        return shots[2];
    }
}

/// <summary>A branch whose length as its crew wrote it down (column <c>length_m</c>, on every shot) is not the length of its path.</summary>
internal sealed class LengthDiffersMistake : IMistake
{
    private const string Column = "length_m";

    public string Check => "length-differs";

    public MistakeScale Scale => new(1, "%");

    public void OnSite(Plot plot)
    {
        var branch = new Trace(plot.Corner, Plot.East).Straight(24, 6);
        var run = plot.Lay("WATER-BRANCH", "WB-8", branch, SiteFrame.Under(1.2), Interchange.Nodes("WATER-VALVE", 0, 4));
        var written = branch.PlanLength * (1 + (plot.Sign * Scale.At(plot.Size) / 100));
        plot.Delivery.Add($"WATER-BRANCH,{Column},,");
        plot.File.MoreColumns.Add(Column);
        foreach (var shot in run.Shots)
            shot.More[Column] = written.ToString("F2", CultureInfo.InvariantCulture);
        plot.Told(this, "WB-8", "The length of a branch was written down by heart.");
    }
}
