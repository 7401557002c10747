using System.Diagnostics;
using Aslaid.Record;
using Aslaid.Sheets;

namespace Aslaid.Tests;

/// <summary>A folder that goes when the test ends, and the plan drawn into it.</summary>
internal sealed class SheetFolder : IDeliveryFolder, IDisposable
{
    public const string Head = "9f3c41d0a7be55108c62f0e1d4c3b2a1f05e6d7c8b9a0f1e2d3c4b5a69788716";

    private readonly string folder = System.IO.Directory.CreateTempSubdirectory("aslaid-plan-").FullName;

    public static SheetFolder Of(AsBuiltRecord record, string project = "Marlhithe Interchange", string preparedBy = "Site survey")
    {
        var made = new SheetFolder();
        new PlanPicture().Write(new(record, project, 42, Head, new(2026, 3, 16, 15, 0, 0, TimeSpan.FromHours(1)), preparedBy), made);
        return made;
    }

    public byte[] Pdf => System.IO.File.ReadAllBytes(PathOf("plan.pdf"));

    public byte[] Png => System.IO.File.ReadAllBytes(PathOf("plan.png"));

    public string PathOf(string name, string? what = null) => System.IO.Path.Combine(folder, name);

    /// <summary>The words of the PDF as a foreign reader sees them, runs of white space as one space.</summary>
    public string Words()
    {
        var text = Ran("pdftotext", PathOf("plan.pdf"), "-");
        return string.Join(' ', text.Split([' ', '\n', '\r', '\f'], StringSplitOptions.RemoveEmptyEntries));
    }

    public string Facts() => Ran("pdfinfo", PathOf("plan.pdf"));

    public static void SkipWithout(string tool) => Assert.SkipUnless(
        (Environment.GetEnvironmentVariable("PATH") ?? "").Split(System.IO.Path.PathSeparator)
            .Any(place => System.IO.File.Exists(System.IO.Path.Combine(place, tool))),
        $"{tool} is not installed: nobody else can read the PDF here.");

    public void Dispose() => System.IO.Directory.Delete(folder, recursive: true);

    private static string Ran(string tool, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(tool, arguments) { RedirectStandardOutput = true })!;
        var said = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.Equal(0, process.ExitCode);
        return said;
    }
}
