using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using System.IO;
using System.Runtime.CompilerServices;

namespace Aslaid.Cli;

/// <summary>Examples that a verb's own help prints below the rest, one a line.</summary>
internal static class HelpExamples
{
    private static readonly ConditionalWeakTable<Command, string[]> Examples = [];

    /// <summary>Gives a verb its examples, each as a person would type it.</summary>
    public static Command WithExamples(this Command command, params string[] examples)
    {
        Examples.AddOrUpdate(command, examples);
        return command;
    }

    /// <summary>Lets the help of every verb print its examples.</summary>
    public static RootCommand PrintingExamples(this RootCommand root)
    {
        var help = root.Options.OfType<HelpOption>().Single();
        help.Action = new Action((SynchronousCommandLineAction)help.Action!);
        return root;
    }

    private static void Print(TextWriter to, Command command)
    {
        if (Examples.TryGetValue(command, out var examples))
        {
            to.WriteLine("Examples:");
            foreach (var example in examples) to.WriteLine($"  {example}");
        }

        if (command.Subcommands.Count > 0) to.WriteLine($"{(examples is null ? "" : "\n")}Each has help with examples: {(command is RootCommand ? "aslaid VERB" : $"aslaid {command.Name} COMMAND")} --help");
        to.WriteLine();
    }

    /// <summary>The library's help, then the examples.</summary>
    private sealed class Action(SynchronousCommandLineAction standard) : SynchronousCommandLineAction
    {
        public override bool ClearsParseErrors => standard.ClearsParseErrors;

        public override int Invoke(ParseResult parseResult)
        {
            var exit = standard.Invoke(parseResult);
            Print(parseResult.InvocationConfiguration.Output, parseResult.CommandResult.Command);
            return exit;
        }
    }
}
