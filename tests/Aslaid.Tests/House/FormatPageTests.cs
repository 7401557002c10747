using System.Globalization;
using System.IO;
using System.Runtime.CompilerServices;
using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Tests;

/// <summary>The pages of <c>docs/formats</c> name what the formats hold.</summary>
public sealed class FormatPageTests
{
    [Fact]
    public void ShotsCsv_NamesEveryColumn() => AssertNames("shots-csv",
        ["id", "east", "north", "height", "code", "run", "leg", "time", "u_plan", "u_height", .. ProjectTables.NumberColumns, .. ProjectTables.TextColumns]);

    [Fact]
    public void CodeBook_NamesEveryColumn() => AssertNames("code-book", Encoding.UTF8.GetString(CodeBookCsv.Write(CodeBook.Empty)).TrimEnd().Split(','));

    [Fact]
    public void Delivery_NamesEveryColumn() => AssertNames("delivery", Encoding.UTF8.GetString(DeliveryCsv.Write(DeliveryTable.Empty)).TrimEnd().Split(','));

    [Fact]
    public void Settings_NamesEachWithItsDefault()
    {
        AssertNames("settings", SettingsText.Names);
        var page = Page("settings");
        foreach (var line in Encoding.UTF8.GetString(SettingsText.Write(Settings.Default)).TrimEnd().Split('\n'))
        {
            var (name, value) = (line.Split(" = ")[0], line.Split(" = ")[1]);
            var written = page.Split('\n').Single(row => row.StartsWith($"| `{name}` |", StringComparison.Ordinal)).Split('|')[2].Trim();
            Assert.Equal(double.Parse(value, CultureInfo.InvariantCulture), double.Parse(written, CultureInfo.InvariantCulture));
        }
    }

    [Fact]
    public void ProjectFile_NamesTablesAndKindsOfEntries()
    {
        AssertNames("project-file", ProjectTables.All.AddRange(RecordLayers.Tables(0)).Select(table => table.Name));
        AssertNames("project-file", typeof(Change).Assembly.GetTypes().Where(type => type.IsSubclassOf(typeof(Change)))
            .Select(type => ChangeCodec.KindOf((Change)RuntimeHelpers.GetUninitializedObject(type))));
    }

    [Fact]
    public void Exchange_NamesLayersColumnsAndFiles()
    {
        AssertNames("exchange", RecordLayers.Tables(0).SelectMany(table => table.Columns.Select(column => column.Name).Prepend(table.Name)));
        using var folder = new TempFolder();
        TrenchSampleTests.Take(folder["trench.gpkg"]);
        CommandLine.Fine("handover", folder["trench.gpkg"], "--out", folder["package"]);
        var readme = File.ReadAllText(Repository.PathOf("README.md"));
        foreach (var file in Directory.GetFiles(folder["package"]))
        {
            var name = System.IO.Path.GetFileName(file);
            Assert.True(readme.Contains($"`{name}`", StringComparison.Ordinal), $"README.md does not tell of {name}.");
            if (name.EndsWith(".csv", StringComparison.Ordinal)) AssertNames("exchange", CsvCells.Lines(File.ReadAllText(file))[0].Except(ProjectTables.NumberColumns).Except(ProjectTables.TextColumns).Prepend(name));
        }
    }

    private static string Page(string name) => File.ReadAllText(Repository.PathOf("docs", "formats", name + ".md"));

    private static void AssertNames(string page, IEnumerable<string> names)
    {
        var text = Page(page);
        var missing = names.Distinct().Where(name => !text.Contains($"`{name}`", StringComparison.Ordinal)).ToList();
        Assert.True(missing.Count == 0, $"docs/formats/{page}.md does not name {string.Join(", ", missing)}.");
    }
}
