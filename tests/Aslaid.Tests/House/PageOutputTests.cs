using System.CommandLine.Parsing;
using System.IO;
using System.Text;
using System.Text.RegularExpressions;
using Aslaid.Workbench;

namespace Aslaid.Tests;

/// <summary>What a page quotes as output is what the program prints.</summary>
public sealed partial class PageOutputTests
{
    private const string LeftOut = "…";

    [Fact]
    public void Readme_Session_IsWhatTheProgramPrints()
    {
        using var folder = new TempFolder();
        var project = SampleProject(folder);
        var printed = new StringBuilder();
        var session = Block().Matches(Page("README.md")).Select(match => match.Groups[1].Value).Single(block => block.Contains("$ ./aslaid", StringComparison.Ordinal));
        foreach (var line in session.Split('\n').Where(line => line.StartsWith("$ ./aslaid ", StringComparison.Ordinal)))
            printed.Append(CommandLine.Run([.. CommandLineParser.SplitCommandLine(line["$ ./aslaid ".Length..]).Select(word => word == "site.gpkg" ? project : word)]).Out);

        AssertPrinted(session, printed.ToString());
    }

    [Fact]
    public void Tour_QuotesWhatWhyPrints()
    {
        using var folder = new TempFolder();
        var printed = CommandLine.Fine("why", SampleProject(folder), "WM-1").Out + File.ReadAllText(folder["north-day-1.csv"]);
        foreach (Match block in Block().Matches(Page("docs", "tour.md"))) AssertPrinted(block.Groups[1].Value, printed);
    }

    /// <summary>A check that speaks on the demo's site has that message as its page's example.</summary>
    [Fact]
    public void CheckPages_QuoteWhatTheDemoPrints()
    {
        using var folder = new TempFolder();
        using var json = System.Text.Json.JsonDocument.Parse(CommandLine.Run("check", SampleProject(folder), "--json").Out);
        foreach (var check in json.RootElement.GetProperty("findings").EnumerateArray().GroupBy(finding => finding.GetProperty("check").GetString()!))
        {
            var page = Page("docs", "checks", check.Key + ".md");
            Assert.True(check.Any(finding => page.Contains("\n> " + finding.GetProperty("message").GetString() + "\n", StringComparison.Ordinal)), check.Key);
        }
    }

    [Fact]
    public void TrenchPage_QuotesWhatCheckPrints()
    {
        using var folder = new TempFolder();
        TrenchSampleTests.Take(folder["trench.gpkg"]);
        var printed = CommandLine.Run("check", folder["trench.gpkg"]).Out;
        var quoted = Block().Matches(Page("samples", "trench", "README.md")).Select(match => match.Groups[1].Value)
            .Single(block => block.Contains("stop F-", StringComparison.Ordinal));
        AssertPrinted(quoted, printed);
    }

    private static string Page(params ReadOnlySpan<string> name) => File.ReadAllText(Repository.PathOf(name));

    private static void AssertPrinted(string quoted, string printed)
    {
        var lines = printed.Split('\n');
        foreach (var line in quoted.Split('\n').Where(line => line.Length > 0 && line != LeftOut && !line.StartsWith('$')))
        {
            var parts = line.Split(LeftOut, 2); // a line may leave out its end
            Assert.True(lines.Any(one => parts.Length == 2 ? one.StartsWith(parts[0].TrimEnd(','), StringComparison.Ordinal) : one == line), $"The program does not print: {line}");
        }
    }

    /// <summary>The demo's site, taken in as the demo does.</summary>
    private static string SampleProject(TempFolder folder)
    {
        var site = SampleSites.WithMistakes(1);
        var project = folder["site.gpkg"];
        CommandLine.Fine("new", project, "--name", site.Name, "--codes", folder.Write("codes.csv", site.Codes));
        CommandLine.Fine("control", project, folder.Write("control.csv", site.Control));
        foreach (var file in site.Shots) CommandLine.Fine("take", project, folder.Write(file.Name, file.Text), "--crew", file.Crew);
        return project;
    }

    [GeneratedRegex("```[a-z]*\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex Block();
}
