// Parts:   dotnet run -c Release --project benchmarks/Aslaid.Benchmarks -- --filter "*Arc*"
// A try:   the same with --iterationCount 1 --warmupCount 1
// Whole:   dotnet run -c Release --project benchmarks/Aslaid.Benchmarks -- whole
using Aslaid.Benchmarks;
using BenchmarkDotNet.Running;

if (args is ["whole", .. var options]) return WholeCommand.Make().Parse(options).Invoke();
BenchmarkSwitcher.FromAssembly(typeof(Reports).Assembly).Run(args, Reports.Config);
return 0;
