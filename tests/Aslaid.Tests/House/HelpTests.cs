using System.CommandLine;
using System.CommandLine.Parsing;
using System.IO;
using System.Text.RegularExpressions;
using Aslaid.Cli;

namespace Aslaid.Tests;

/// <summary>What help and pages tell people to type is what the program takes.</summary>
public sealed partial class HelpTests
{
    private static readonly RootCommand Root = App.Root(new(TextWriter.Null, TextWriter.Null, Interactive: false, TimeProvider.System));

    public static TheoryData<string> Verbs => [.. Root.Subcommands.SelectMany(verb => verb.Subcommands.Select(kind => $"{verb.Name} {kind.Name}").Prepend(verb.Name))];

    [Theory]
    [MemberData(nameof(Verbs))]
    public void Help_OfEachVerb_EndsWithExamplesThatParse(string verb)
    {
        var help = CommandLine.Fine([.. verb.Split(' '), "--help"]).Out;
        var examples = Commands(help[help.IndexOf("Examples:\n", StringComparison.Ordinal)..]).ToList();
        Assert.NotEmpty(examples);
        Assert.All(examples, AssertParses);
        Assert.All(examples, example => Assert.StartsWith(verb.Split(' ')[0], example, StringComparison.Ordinal));
        Assert.Contains(examples, example => example.Contains($"{verb.Split(' ')[^1]} ", StringComparison.Ordinal) || example == verb);
        Assert.All(help.Split('\n').Where(line => line.Contains("aslaid ", StringComparison.Ordinal)), line => Assert.False(line.StartsWith("     ", StringComparison.Ordinal), line));
    }

    [Fact]
    public void Help_OfTheProgram_NamesTheVerbsWithoutExamples()
    {
        var help = CommandLine.Fine("--help").Out;
        Assert.DoesNotContain("site.gpkg", help, StringComparison.Ordinal);
        Assert.All(Root.Subcommands, verb => Assert.Contains($"  {verb.Name}", help, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("no verb 'chekc'. The nearest is: check", "chekc", "site.gpkg")]
    [InlineData("no verb 'hand-over'. The nearest is: handover", "hand-over")]
    [InlineData("no verb 'zzzzzzzz'. There are: demo, new,", "zzzzzzzz")]
    [InlineData("no correction 'recoed'. The nearest is: recode", "correct", "site.gpkg", "recoed", "101")]
    public void Run_VerbThatIsNone_NamesTheNearest(string says, params string[] line)
    {
        var run = CommandLine.Run(line);
        Assert.Equal(2, run.Exit);
        Assert.Contains(says, run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void EveryCommand_OnAPage_Parses()
    {
        var commands = from page in Repository.Texts("docs", "samples").Append((Name: "README.md", Text: File.ReadAllText(Repository.PathOf("README.md"))))
                       where page.Name.EndsWith(".md", StringComparison.Ordinal)
                       from Match block in Block().Matches(page.Text)
                       from command in Commands(block.Groups[1].Value)
                       select command;
        var all = commands.ToList();
        Assert.NotEmpty(all);
        Assert.All(all, AssertParses);
    }

    private static IEnumerable<string> Commands(string text) =>
        text.Split('\n').Select(line => Prompt().Match(line)).Where(match => match.Success).Select(match => match.Groups[1].Value);

    private static void AssertParses(string command)
    {
        var parsed = Root.Parse(CommandLineParser.SplitCommandLine(command.Split(" | ")[0]).ToArray());
        Assert.True(parsed.Errors.Count == 0, $"aslaid {command}: {string.Join(' ', parsed.Errors.Select(error => error.Message))}");
        Assert.True(parsed.CommandResult.Command.Action is not null, $"aslaid {command} leads to no verb.");
    }

    /// <summary>A line that begins with the program's name, as <c>$ ./aslaid check site.gpkg</c>.</summary>
    [GeneratedRegex(@"^\s*(?:\$ )?(?:\./)?aslaid ([a-z].*)$")]
    private static partial Regex Prompt();

    [GeneratedRegex("```[a-z]*\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex Block();
}
