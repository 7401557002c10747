using System.CommandLine;
using System.IO;

namespace Aslaid.Benchmarks;

/// <summary>Times the published program as people run it, and writes the performance page.</summary>
internal static class WholeCommand
{
    private const string Published = "artifacts/aslaid/aslaid.dll";

    public static RootCommand Make()
    {
        var program = new Option<string>("--program") { Description = "The published program.", HelpName = "DLL", DefaultValueFactory = _ => Path.Combine(Repository.Root, Published) };
        var repeats = new Option<int>("--repeats") { Description = "Timed runs at each size; figures are their medians.", DefaultValueFactory = _ => 5 };
        var quick = new Option<bool>("--quick") { Description = "Leave out the million shots." };
        var page = new Option<string>("--page") { Description = "Where the figures go.", HelpName = "MD", DefaultValueFactory = _ => Path.Combine(Repository.Root, "docs", "performance.md") };
        var command = new RootCommand("Time the published program from 10 000 to 1 000 000 shots.") { program, repeats, quick, page };
        command.SetAction(parsed =>
        {
            var (dll, times) = (parsed.GetValue(program)!, parsed.GetValue(repeats));
            if (!File.Exists(dll)) return Refuse($"There is no {dll}. Run ./aslaid --version first: it publishes the program.");
            if (times < 1) return Refuse($"--repeats is {times}; at least one run is needed.");
            int[] sizes = parsed.GetValue(quick) ? [10_000, 100_000] : [10_000, 100_000, 1_000_000];
            var load = Machine.Load;
            var runs = WholeRuns.Time(new(dll), sizes, times, Console.Error);
            var text = PerformancePage.Write(runs, $"whole{(parsed.GetValue(quick) ? " --quick" : "")} --repeats {times}", load);
            Console.Out.Write(text);
            File.WriteAllText(parsed.GetValue(page)!, text);
            return 0;
        });
        return command;
    }

    private static int Refuse(string why)
    {
        Console.Error.WriteLine(why);
        return 2;
    }
}
