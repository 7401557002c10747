using System.Reflection;
using Aslaid.Record;

namespace Aslaid.Tests;

/// <summary>A check is a file, a line in the catalogue, a page, and a test class with a case that is found and one that is silent.</summary>
public class EveryCheckTests
{
    private static readonly Type[] Written =
        [.. typeof(ICheck).Assembly.GetTypes().Where(type => type is { IsInterface: false, IsAbstract: false } && type.IsAssignableTo(typeof(ICheck)))];

    [Fact]
    public void EveryCheck_IsInTheCatalogueOnce()
    {
        Assert.Equal(Written.Select(type => type.Name).Order(StringComparer.Ordinal), CheckCatalogue.All.Select(check => check.GetType().Name).Order(StringComparer.Ordinal));
        Assert.Equal(CheckCatalogue.All.Length, CheckCatalogue.All.Select(check => check.Name).Distinct().Count());
    }

    [Fact]
    public void EveryCheck_IsNamedAsItsClass() => Assert.All(CheckCatalogue.All, check => Assert.Equal(
        check.GetType().Name, string.Concat(check.Name.Split('-').Select(word => char.ToUpperInvariant(word[0]) + word[1..]))));

    [Fact]
    public void EveryCheck_HasAPageAndALineInTheIndex()
    {
        var pages = System.IO.Path.Combine(Root(), "docs", "checks");
        var index = System.IO.File.ReadAllText(System.IO.Path.Combine(pages, "README.md"));
        Assert.All(CheckCatalogue.All, check =>
        {
            var page = System.IO.File.ReadAllText(System.IO.Path.Combine(pages, check.Name + ".md"));
            Assert.StartsWith($"# {check.Name}\n\n{check.Title}.", page, StringComparison.Ordinal);
            Assert.All(["What it looks for", "Formula, limits and their source", "Example", "What it cannot see"],
                part => Assert.Contains("\n## " + part + "\n", page, StringComparison.Ordinal));
            Assert.Contains($"| [{check.Name}]({check.Name}.md) | {check.Title} |", index, StringComparison.Ordinal);
        });
    }

    [Fact]
    public void EveryPage_IsThatOfACheckOrOfAll() => Assert.All(
        System.IO.Directory.GetFiles(System.IO.Path.Combine(Root(), "docs", "checks"), "*.md").Select(System.IO.Path.GetFileNameWithoutExtension),
        page => Assert.True(page is "README" or "skill" || CheckCatalogue.Find(page!) is not null, page));

    [Fact]
    public void EveryCheck_HasACaseThatIsFoundAndOneThatIsSilent() => Assert.All(CheckCatalogue.All, check =>
    {
        var tests = typeof(EveryCheckTests).Assembly.GetType($"Aslaid.Tests.{check.GetType().Name}Tests");
        Assert.True(tests is not null, $"There is no {check.GetType().Name}Tests.");
        var cases = tests.GetMethods().Where(method => method.GetCustomAttributes<FactAttribute>().Any()).Select(method => method.Name).ToArray();
        Assert.Contains(cases, name => name.Contains("_IsFound", StringComparison.Ordinal));
        Assert.Contains(cases, name => name.Contains("_IsSilent", StringComparison.Ordinal));
    });

    private static string Root()
    {
        var folder = AppContext.BaseDirectory;
        while (!System.IO.File.Exists(System.IO.Path.Combine(folder, "Aslaid.slnx")))
            folder = System.IO.Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("Tests run outside the repository: Aslaid.slnx is not above them.");
        return folder;
    }
}
