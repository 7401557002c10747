using System.CommandLine;
using System.CommandLine.Completions;
using System.IO;
using System.Runtime.CompilerServices;
using System.Text.Json;
using System.Text.RegularExpressions;
using Aslaid.Cli;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Tests;

/// <summary>Every word that the program shows is explained in <c>docs/glossary.md</c>, as trade, standard or ours.</summary>
public sealed partial class GlossaryTests
{
    [Fact]
    public void Rows_HaveOneKindAndAMeaning_AndNoTermTwice()
    {
        Assert.All(GlossaryRow.All, row =>
        {
            Assert.Contains(row.Kind, (string[])["trade", "standard", "ours"]);
            Assert.True(row.Meaning.Length >= 8, $"{row.Terms[0]} has no meaning.");
            if (row.Kind == "standard") Assert.True(Standard().IsMatch(row.Meaning), $"{row.Terms[0]} names no standard.");
        });
        Assert.Empty(GlossaryRow.All.SelectMany(row => row.Terms).GroupBy(term => term).Where(group => group.Count() > 1).Select(group => group.Key));
    }

    [Fact]
    public void Verbs_TheirOptionsAndArguments_AreExplained() =>
        AssertExplained("the command line", Symbols(App.Root(new(TextWriter.Null, TextWriter.Null, false, TimeProvider.System))));

    [Fact]
    public void Names_OfColumnsAndSettings_AreExplained()
    {
        AssertExplained("the shots CSV", ["id", "east", "north", "height", "code", "run", "leg", "time", "u_plan", "u_height", .. ProjectTables.NumberColumns, .. ProjectTables.TextColumns]);
        AssertExplained("the code book", System.Text.Encoding.UTF8.GetString(CodeBookCsv.Write(CodeBook.Empty)).TrimEnd().Split(','));
        AssertExplained("the settings", SettingsText.Names);
        foreach (var table in ProjectTables.All.AddRange(RecordLayers.Tables(0)))
            AssertExplained($"table {table.Name}", [table.Name, .. table.Columns.Select(column => column.Name)]);
    }

    [Fact]
    public void Names_OfChecksChangesAndStates_AreExplained()
    {
        AssertExplained("the checks", CheckCatalogue.All.Select(check => check.Name));
        AssertExplained("the requirements", RequirementCatalogue.All.Select(requirement => requirement.Name));
        AssertExplained("the journal", Changes().Select(type => ChangeCodec.KindOf((Change)RuntimeHelpers.GetUninitializedObject(type))));
        AssertExplained("the states", from method in typeof(EnumWords).GetMethods()
                                      where method is { IsStatic: true, Name: nameof(EnumWords.Of) }
                                      let type = method.GetParameters()[0].ParameterType
                                      from value in Enum.GetValues(type).Cast<object>()
                                      select (string)method.Invoke(null, [value])!);
        AssertExplained("the kinds of codes", Enum.GetNames<CodeKind>().Select(name => name.ToLowerInvariant()));
        AssertExplained("the formats", DeliverableCatalogue.All.Select(deliverable => deliverable.Name));
    }

    [Fact]
    public void Names_OfJournalEntries_AreExplained() =>
        ChangeGen.Entry.Sample(entry => AssertExplained("a journal entry", PropertiesOf(System.Text.Encoding.UTF8.GetString(ChangeCodec.Encode(entry)))), iter: 500);

    [Fact]
    public void Words_PrintedForAJob_AreExplained()
    {
        using var folder = new TempFolder();
        var (project, package) = (folder["trench.gpkg"], folder["package"]);
        TrenchSampleTests.Take(project);
        var finding = JsonDocument.Parse(CommandLine.Run("check", project, "--json").Out).RootElement.GetProperty("findings")[0].GetProperty("id").GetString()!;

        foreach (var words in (string[][])[["check", project], ["visit", project], ["why", project, finding]])
            AssertExplained($"{words[0]} --json", PropertiesOf(CommandLine.Run([.. words, "--json"]).Out));
        foreach (var what in (string[])["runs", "shots", "findings", "quantities", "holds", "verdicts", "journal", "batches"])
        {
            AssertExplained($"show {what} --json", PropertiesOf(CommandLine.Fine("show", project, what, "--json").Out));
            if (what is not ("findings" or "journal"))
                AssertExplained($"show {what}", Gaps().Split(CommandLine.Fine("show", project, what).Out.Split('\n')[0]));
        }

        CommandLine.Fine("handover", project, "--out", package);
        foreach (var file in Directory.GetFiles(package))
        {
            var name = System.IO.Path.GetFileName(file);
            if (name.EndsWith(".csv", StringComparison.Ordinal)) AssertExplained(name, CsvCells.Lines(File.ReadAllText(file))[0]);
            if (name.EndsWith("json", StringComparison.Ordinal)) AssertExplained(name, PropertiesOf(File.ReadAllText(file)));
        }
    }

    [Fact]
    public void Fields_OfTheTitleBlock_AreExplained()
    {
        var fields = Field().Matches(File.ReadAllText(Repository.PathOf("src", "Aslaid.Sheets", "Plan", "TitleBlock.cs"))).Select(match => match.Groups[1].Value).ToList();
        Assert.NotEmpty(fields);
        AssertExplained("the title block", fields);
    }

    private static void AssertExplained(string where, IEnumerable<string> words)
    {
        var missing = words.Select(word => word.Trim()).Where(word => word.Length > 0 && !GlossaryRow.Known.Contains(word)).Distinct().Order(StringComparer.Ordinal).ToList();
        Assert.True(missing.Count == 0, $"docs/glossary.md does not explain, of {where}: {string.Join(", ", missing)}");
    }

    private static IEnumerable<string> Symbols(Command command)
    {
        foreach (var option in command.Options)
            foreach (var name in option.Aliases.Prepend(option.Name).Where(name => name.StartsWith("--", StringComparison.Ordinal))) yield return name;
        foreach (var argument in command.Arguments)
        {
            yield return argument.Name;
            foreach (var value in argument.GetCompletions(CompletionContext.Empty)) yield return value.Label;
        }

        foreach (var sub in command.Subcommands)
        {
            yield return sub.Name;
            foreach (var symbol in Symbols(sub)) yield return symbol;
        }
    }

    private static IEnumerable<Type> Changes() => typeof(Change).Assembly.GetTypes().Where(type => type.IsSubclassOf(typeof(Change)));

    /// <summary>Names of all members, however deep; not those of a run's attributes, which people choose.</summary>
    private static List<string> PropertiesOf(string json)
    {
        using var document = JsonDocument.Parse(json);
        var names = new List<string>();
        Walk(document.RootElement);
        return names;

        void Walk(JsonElement element)
        {
            if (element.ValueKind == JsonValueKind.Array)
                foreach (var item in element.EnumerateArray()) Walk(item);
            if (element.ValueKind != JsonValueKind.Object) return;
            foreach (var member in element.EnumerateObject())
            {
                names.Add(member.Name);
                if (member.Name != "attributes") Walk(member.Value);
            }
        }
    }

    [GeneratedRegex(@"\b(ISO|OGC|JCGM|RFC|IEEE|FIPS|LandXML|DXF|GNU|POSIX|EPSG|FGDC)\b")]
    private static partial Regex Standard();

    [GeneratedRegex("cells\\.Field\\(\"([^\"]+)\"")]
    private static partial Regex Field();

    [GeneratedRegex(" {2,}")]
    private static partial Regex Gaps();
}
