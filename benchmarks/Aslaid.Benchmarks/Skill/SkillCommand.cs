using System.CommandLine;
using System.IO;

namespace Aslaid.Benchmarks;

/// <summary>Measures what checks find of seeded mistakes, and writes the page about it.</summary>
internal static class SkillCommand
{
    public static RootCommand Make()
    {
        var seeds = new Option<int>("--seeds") { Description = "Sites for each mistake and size.", DefaultValueFactory = _ => 200 };
        var sites = new Option<int>("--sites") { Description = "Clean sites and awkward ones.", DefaultValueFactory = _ => 1000 };
        var workers = new Option<int>("--workers") { Description = "Sites at a time.", DefaultValueFactory = _ => 2 };
        var page = new Option<string>("--page") { Description = "Where the figures go.", HelpName = "MD", DefaultValueFactory = _ => Path.Combine(Repository.Root, "docs", "checks", "skill.md") };
        var command = new RootCommand("Measure what checks find of seeded mistakes, and how often they speak without need.") { seeds, sites, workers, page };
        command.SetAction(parsed =>
        {
            var (tries, right, atATime) = (parsed.GetValue(seeds), parsed.GetValue(sites), parsed.GetValue(workers));
            if (tries < 1 || right < 1 || atATime < 1)
            {
                Console.Error.WriteLine("--seeds, --sites and --workers are at least 1.");
                return 2;
            }

            var text = SkillPage.Write(SkillRuns.Measure(tries, right, atATime, Console.Error));
            Console.Out.Write(text);
            File.WriteAllText(parsed.GetValue(page)!, text);
            return 0;
        });
        return command;
    }
}
