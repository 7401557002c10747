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

    [Fact]
    public void EveryVerb_HasExamplesThatParse()
    {
        foreach (var verb in Root.Subcommands)
        {
            var examples = Commands(verb.Description ?? "").ToList();
            Assert.True(examples.Count > 0, $"{verb.Name} has no example.");
            Assert.All(examples, AssertParses);
        }
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
