using System.IO;
using BenchmarkDotNet.Columns;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Diagnosers;
using BenchmarkDotNet.Exporters;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Loggers;
using Perfolizer.Horology;

namespace Aslaid.Benchmarks;

/// <summary>How all parts are measured, and where the reports go: one Markdown file a class, committed.</summary>
internal static class Reports
{
    // Ten iterations: the largest sites take a second each, and a growth of n² would show in one.
    public static IConfig Config { get; } = ManualConfig.CreateEmpty()
        .AddJob(Job.Default.WithWarmupCount(3).WithIterationCount(10).WithIterationTime(TimeInterval.FromMilliseconds(250)).AsDefault())
        .AddDiagnoser(MemoryDiagnoser.Default)
        .AddColumnProvider(DefaultColumnProviders.Instance)
        .AddLogger(ConsoleLogger.Default)
        .AddExporter(MarkdownExporter.GitHub)
        .WithArtifactsPath(Path.Combine(Repository.Root, "benchmarks")); // the runner adds "results"
}
