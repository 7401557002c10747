using System.Resources;

namespace Aslaid.Workbench;

/// <summary>The default code book as the sample hands it out.</summary>
internal static class SampleCodes
{
    private static readonly Lazy<string> Book = new(() =>
        new ResourceManager("Aslaid.Workbench.SampleSite.Codes", typeof(SampleCodes).Assembly)
            .GetString("codes", System.Globalization.CultureInfo.InvariantCulture)
        ?? throw new InvalidOperationException("The default code book is not inside the program."));

    public static string Csv => Book.Value;

    public static bool IsBuried(string code) =>
        code.StartsWith("WATER", StringComparison.Ordinal) || code.StartsWith("POWER", StringComparison.Ordinal)
        || code.StartsWith("TELECOM", StringComparison.Ordinal) || code.StartsWith("STORM", StringComparison.Ordinal)
        || code == "GULLY";
}
