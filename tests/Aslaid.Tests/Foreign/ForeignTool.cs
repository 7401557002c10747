using System.Diagnostics;
using System.IO;
using System.Text;

namespace Aslaid.Tests;

/// <summary>Programs of other makers that read what Aslaid writes. Where one is absent the test is skipped and says why.</summary>
internal static class ForeignTool
{
    private static readonly Lazy<string?> SystemPython = new(() => OnPath("/usr/bin/python3"));

    /// <summary>Runs a script in the system's Python, which must have the modules named.</summary>
    public static string Python(string script, string[] modules, params string[] arguments)
    {
        Assert.SkipUnless(SystemPython.Value is not null, "There is no python3 at its usual place in the system.");
        foreach (var module in modules)
            Assert.SkipUnless(HasModule(module), $"The system's Python has no module {module}.");
        return Output(SystemPython.Value!, ["-c", script, .. arguments]);
    }

    /// <summary>Runs a program found on the PATH and returns what it prints.</summary>
    public static string Run(string program, params string[] arguments)
    {
        var found = OnPath(program);
        Assert.SkipUnless(found is not null, $"{program} is not installed here.");
        return Output(found!, arguments);
    }

    private static readonly System.Collections.Concurrent.ConcurrentDictionary<string, bool> Modules = [];

    private static bool HasModule(string module) =>
        Modules.GetOrAdd(module, m => Start(SystemPython.Value!, ["-c", $"import {m}"]).Code == 0);

    private static string Output(string program, string[] arguments)
    {
        var (code, output, errors) = Start(program, arguments);
        Assert.True(code == 0, $"{program} ended with code {code}.\n{output}\n{errors}");
        return output;
    }

    private static (int Code, string Output, string Errors) Start(string program, string[] arguments)
    {
        var start = new ProcessStartInfo(program, arguments)
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            StandardOutputEncoding = Encoding.UTF8,
            StandardErrorEncoding = Encoding.UTF8,
        };
        start.Environment["LC_ALL"] = "C.UTF-8";
        using var process = Process.Start(start) ?? throw new InvalidOperationException($"{program} did not start.");
        var errors = process.StandardError.ReadToEndAsync();
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, output, errors.GetAwaiter().GetResult());
    }

    private static string? OnPath(string program) =>
        (Environment.GetEnvironmentVariable("PATH") ?? "").Split(System.IO.Path.PathSeparator)
            .Select(folder => System.IO.Path.Combine(folder, program)) // an absolute name stays itself
            .FirstOrDefault(File.Exists);
}
