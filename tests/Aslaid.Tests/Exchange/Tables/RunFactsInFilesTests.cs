using System.Text.Json;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Testing;
using Microsoft.Data.Sqlite;

namespace Aslaid.Tests;

/// <summary>What was declared of a run goes out with it, whatever the format.</summary>
public sealed class RunFactsInFilesTests
{
    private const string Key = "WATER-MAIN/WM-1@North";

    private static readonly (string Name, string Word)[] Said = [("status", "existing"), ("flow", "against"), ("start", "cap"), ("end", "continues")];

    private static Handover Declared()
    {
        var handover = ExchangeSite.Small();
        return handover with { Record = Derivation.Derive(Said.Aggregate(handover.Record.Inputs, (inputs, fact) => inputs.Then(new AttributeSet(Key, fact.Name, fact.Word)))) };
    }

    [Fact]
    public void Tables_TellThem()
    {
        using var folder = DeliveryFolder.With(new TablesDeliverable(), Declared());
        var rows = CsvCells.Rows(folder.Text("runs.csv"));
        var run = rows.Single(row => row["run"] == Key);
        Assert.All(Said, fact => Assert.Equal(fact.Word, run[fact.Name]));
        Assert.All(rows.Where(row => row["run"] != Key), row => Assert.Equal(("new", "unknown", "", ""), (row["status"], row["flow"], row["start"], row["end"])));
    }

    [Fact]
    public void GeoJson_TellsThem()
    {
        using var folder = DeliveryFolder.With(new GeoJsonDeliverable(), Declared());
        using var json = JsonDocument.Parse(folder.Text("record.site.geojson"));
        var run = json.RootElement.GetProperty("features").EnumerateArray().Select(feature => feature.GetProperty("properties"))
            .First(properties => properties.TryGetProperty("run", out var key) && key.GetString() == Key && properties.TryGetProperty("status", out _));
        Assert.All(Said, fact => Assert.Equal(fact.Word, run.GetProperty(fact.Name).GetString()));
    }

    [Fact]
    public void GeoPackage_TellsThem()
    {
        using var folder = DeliveryFolder.With(new GeoPackageDeliverable(), Declared());
        using var file = new SqliteConnection($"Data Source={folder.PathOf(folder.Names.Single(name => name.EndsWith(".gpkg", StringComparison.Ordinal)))};Mode=ReadOnly;Pooling=False");
        file.Open();
        using var query = file.CreateCommand();
        query.CommandText = "SELECT \"status\", \"flow\", \"start\", \"end\" FROM lines WHERE run = $run";
        query.Parameters.AddWithValue("$run", Key);
        using var row = query.ExecuteReader();
        Assert.True(row.Read());
        Assert.Equal(Said.Select(fact => fact.Word), Enumerable.Range(0, 4).Select(row.GetString));
    }
}
