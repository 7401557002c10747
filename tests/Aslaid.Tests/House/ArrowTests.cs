using System.IO;
using System.Xml.Linq;

namespace Aslaid.Tests;

/// <summary>References go inward only: Cli -> Workbench -> Exchange, Sheets -> Record -> Geometry.</summary>
public sealed class ArrowTests
{
    /// <summary>What each project may reference.</summary>
    private static readonly Dictionary<string, string[]> Allowed = new()
    {
        ["Aslaid.Geometry"] = [],
        ["Aslaid.Record"] = ["Aslaid.Geometry"],
        ["Aslaid.Exchange"] = ["Aslaid.Record", "Aslaid.Geometry"],
        ["Aslaid.Sheets"] = ["Aslaid.Record", "Aslaid.Geometry"],
        ["Aslaid.Workbench"] = ["Aslaid.Exchange", "Aslaid.Sheets", "Aslaid.Record", "Aslaid.Geometry"],
        ["Aslaid.Cli"] = ["Aslaid.Workbench", "Aslaid.Exchange", "Aslaid.Sheets", "Aslaid.Record", "Aslaid.Geometry"],
    };

    public static TheoryData<string> Projects => [.. Directory.EnumerateFiles(Repository.PathOf("src"), "*.csproj", SearchOption.AllDirectories)
        .Select(System.IO.Path.GetFileNameWithoutExtension).OfType<string>().Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Projects))]
    public void ProjectReferences_PointInwardOnly(string project)
    {
        Assert.True(Allowed.TryGetValue(project, out var allowed), $"{project} has no place among the arrows: give it one here and in the README.");
        var references = Included(project, "ProjectReference").Select(path => System.IO.Path.GetFileNameWithoutExtension(path.Replace('\\', '/')));
        Assert.Empty(references.Except(allowed!));
    }

    [Theory]
    [InlineData("Aslaid.Geometry")]
    [InlineData("Aslaid.Record")]
    public void Core_ReferencesNoPackage(string project) => Assert.Empty(Included(project, "PackageReference"));

    [Fact]
    public void Core_TouchesNoFile() =>
        Assert.DoesNotContain(Repository.Texts("src/Aslaid.Geometry", "src/Aslaid.Record"), file => file.Text.Contains("using System.IO;", StringComparison.Ordinal));

    private static IEnumerable<string> Included(string project, string kind) =>
        XDocument.Load(Repository.PathOf("src", project, project + ".csproj")).Descendants(kind).Select(reference => reference.Attribute("Include")!.Value);
}
