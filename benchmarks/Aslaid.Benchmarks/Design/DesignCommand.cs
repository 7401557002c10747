using System.CommandLine;
using System.Globalization;
using System.IO;
using System.Text;

namespace Aslaid.Benchmarks;

/// <summary>Times what designs cost at three sizes, and writes the figures down.</summary>
internal static class DesignCommand
{
    public static RootCommand Make()
    {
        var repeats = new Option<int>("--repeats") { Description = "Timed runs of each; figures are their medians.", DefaultValueFactory = _ => 3 };
        var page = new Option<string>("--page") { Description = "Where the figures go.", HelpName = "MD", DefaultValueFactory = _ => Path.Combine(Repository.Root, "benchmarks", "results", "design.md") };
        var command = new RootCommand("Time designs: deviations, heights on triangles, LandXML.") { repeats, page };
        command.SetAction(parsed =>
        {
            var text = new StringBuilder();
            text.Append(CultureInfo.InvariantCulture, $"# Designs\n\nMade by `design --repeats {parsed.GetValue(repeats)}`: medians, {Machine.Description}. Growth is the exponent from the smallest size to the largest.\n\n| what | size | seconds | memory held |\n|---|---|---|---|\n");
            foreach (var (what, sizes, run) in DesignRuns.All)
            {
                var seconds = new List<double>();
                foreach (var size in sizes)
                {
                    var timed = run(size, parsed.GetValue(repeats));
                    seconds.Add(timed.Seconds);
                    var line = string.Create(CultureInfo.InvariantCulture, $"| {what} | {timed.Size} | {timed.Seconds:0.000} | {timed.Held / 1e6:0} MB |\n");
                    Console.Error.Write(line);
                    text.Append(line);
                }

                text.Append(CultureInfo.InvariantCulture, $"| {what} | growth | {Math.Log(seconds[^1] / seconds[0]) / Math.Log((double)sizes[^1] / sizes[0]):0.00} | |\n");
            }

            File.WriteAllText(parsed.GetValue(page)!, text.ToString());
            return 0;
        });
        return command;
    }
}
