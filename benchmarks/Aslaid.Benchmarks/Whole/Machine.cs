using System.Globalization;
using System.IO;
using System.Runtime.InteropServices;

namespace Aslaid.Benchmarks;

/// <summary>What figures depend on besides the program.</summary>
internal static class Machine
{
    /// <summary>One line; no names.</summary>
    public static string Description { get; } = string.Create(CultureInfo.InvariantCulture,
        $"{Environment.ProcessorCount} processors ({RuntimeInformation.OSArchitecture}), {RuntimeInformation.OSDescription}, {RuntimeInformation.FrameworkDescription}");

    /// <summary>How many processes wanted a processor, mean of the last minute; null where the system does not tell.</summary>
    public static double? Load => File.Exists("/proc/loadavg")
        ? double.Parse(File.ReadAllText("/proc/loadavg").Split(' ')[0], CultureInfo.InvariantCulture)
        : null;
}
