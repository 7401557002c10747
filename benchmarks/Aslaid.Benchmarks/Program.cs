// Parts:   dotnet run -c Release --project benchmarks/Aslaid.Benchmarks -- --filter "*Arc*"
// A try:   the same with --iterationCount 1 --warmupCount 1
// Whole:   dotnet run -c Release --project benchmarks/Aslaid.Benchmarks -- whole
// Design:  dotnet run -c Release --project benchmarks/Aslaid.Benchmarks -- design
// Skill:   dotnet run -c Release --project benchmarks/Aslaid.Benchmarks -- skill
using Aslaid.Benchmarks;
using BenchmarkDotNet.Running;

if (args is ["whole", .. var options]) return WholeCommand.Make().Parse(options).Invoke();
if (args is ["design", .. var wanted]) return DesignCommand.Make().Parse(wanted).Invoke();
if (args is ["skill", .. var asked]) return SkillCommand.Make().Parse(asked).Invoke();
BenchmarkSwitcher.FromAssembly(typeof(Reports).Assembly).Run(args, Reports.Config);
return 0;
