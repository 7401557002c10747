using System.IO;
using System.Text.Json;
using Aslaid.Workbench;
using Microsoft.Data.Sqlite;

namespace Aslaid.Tests;

/// <summary>What a person finds who opens a package.</summary>
public sealed class PackageTests
{
    [Fact]
    public void ReadMe_OfARecordWithStops_SaysWhatHoldsBeforeTheCautions()
    {
        using var folder = HandedOver(SampleSites.WithMistakes(1));
        var text = File.ReadAllText(folder["package/README.txt"]);
        using var check = JsonDocument.Parse(CommandLine.Run("check", folder["site.gpkg"], "--json").Out);
        var stops = check.RootElement.GetProperty("findings").EnumerateArray()
            .Where(finding => finding.GetProperty("severity").GetString() == "stop" && finding.GetProperty("state").GetString() != "accepted").ToList();
        Assert.NotEmpty(stops);
        var said = text[..text.IndexOf("\nCautions\n", StringComparison.Ordinal)];
        Assert.Contains("THIS RECORD IS NOT FINISHED", said, StringComparison.Ordinal);
        Assert.Contains($"\nStanding stops: {stops.Count}\n", said, StringComparison.Ordinal);
        Assert.Equal(Math.Min(20, stops.Count), stops.Count(stop => said.Contains($"- {stop.GetProperty("id").GetString()}  {stop.GetProperty("message").GetString()}\n", StringComparison.Ordinal)));
        foreach (var state in check.RootElement.GetProperty("lengths_m").EnumerateObject())
            Assert.Contains(FormattableString.Invariant($"{state.Value.GetDouble():0.0} m {state.Name}"), said, StringComparison.Ordinal);
    }

    [Fact]
    public void ReadMe_OfARecordWithoutStops_ClaimsNothingHolds()
    {
        using var folder = HandedOver(SampleSites.Clean(1));
        var text = File.ReadAllText(folder["package/README.txt"]);
        Assert.Contains("\nStanding stops: 0\n", text, StringComparison.Ordinal);
        Assert.DoesNotContain("NOT FINISHED", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Manifest_EveryFile_HasWordsOfItsOwn()
    {
        using var folder = HandedOver(SampleSites.WithMistakes(1), "--crs", "EPSG:25832");
        var files = Manifest.Read(File.ReadAllBytes(folder["package/manifest.json"])).Files;
        Assert.Contains(files, file => file.Name == "record.geojson");
        Assert.All(files, file => Assert.True(file.What.Length > 10, file.Name));
        Assert.Empty(files.GroupBy(file => file.What).Where(same => same.Count() > 1).Select(same => string.Join(", ", same.Select(file => file.Name))));
    }

    [Fact]
    public void Findings_InEveryFormat_NameTheirShotsAlike()
    {
        using var folder = HandedOver(SampleSites.WithMistakes(1));
        var rows = CsvCells.Lines(File.ReadAllText(folder["package/findings.csv"]));
        var (id, shots) = (Array.IndexOf(rows[0].ToArray(), "id"), Array.IndexOf(rows[0].ToArray(), "shots"));
        var table = rows.Skip(1).ToDictionary(row => row[id], row => row[shots]);
        Assert.Contains(table.Values, cell => cell.Contains("; ", StringComparison.Ordinal));

        var layer = new Dictionary<string, string>();
        using (var connection = new SqliteConnection($"Data Source={folder["package/record.gpkg"]};Pooling=False;Mode=ReadOnly"))
        {
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = "SELECT finding, shots FROM findings";
            using var reader = command.ExecuteReader();
            while (reader.Read()) layer.Add(reader.GetString(0), reader.GetString(1));
        }

        Assert.Equal(table, layer);
        using var json = JsonDocument.Parse(File.ReadAllText(folder["package/record.site.geojson"]));
        var features = json.RootElement.GetProperty("features").EnumerateArray().Select(feature => feature.GetProperty("properties"))
            .Where(properties => properties.GetProperty("what").GetString() == "finding")
            .ToDictionary(properties => properties.GetProperty("id").GetString()!, properties => string.Join("; ", properties.GetProperty("shots").EnumerateArray().Select(shot => shot.GetString())));
        Assert.Equal(table, features);
    }

    private static TempFolder HandedOver(SampleSite site, params string[] settings)
    {
        var folder = new TempFolder();
        var project = folder["site.gpkg"];
        CommandLine.Fine(["new", project, "--name", site.Name, "--codes", folder.Write("codes.csv", site.Codes), .. settings]);
        CommandLine.Fine("control", project, folder.Write("control.csv", site.Control));
        foreach (var file in site.Shots) CommandLine.Fine("take", project, folder.Write(file.Name, file.Text), "--crew", file.Crew);
        CommandLine.Fine("handover", project, "--out", folder["package"], "--by", "Tester");
        return folder;
    }
}
