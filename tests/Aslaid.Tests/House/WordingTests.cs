using System.Text.RegularExpressions;
using Aslaid.Record;

namespace Aslaid.Tests;

/// <summary>What no source and no page may contain.</summary>
public sealed partial class WordingTests
{
    private static readonly string[] Everything = ["src", "tests", "docs", "samples", "data"];

    [Fact]
    public void Sources_LeaveNothingForLater() => AssertNowhere(Later());

    [Fact]
    public void Sources_NameNoMachinesPath() => AssertNowhere(MachinePath());

    [Fact]
    public void Sources_SwallowNoException() => AssertNowhere(EmptyCatch());

    [Fact]
    public void Coordinates_AreNeverXAndY()
    {
        var found = from type in (Type[])[.. typeof(Point2).Assembly.GetExportedTypes(), .. typeof(AsBuiltRecord).Assembly.GetExportedTypes()]
                    from name in type.GetProperties().Select(property => property.Name)
                        .Concat(type.GetMethods().SelectMany(method => method.GetParameters()).Select(parameter => parameter.Name ?? ""))
                    where name is "X" or "Y" or "x" or "y"
                    select $"{type.Name}: {name}";
        Assert.Empty(found);
    }

    [Fact]
    public void Links_OfPagesLeadSomewhere()
    {
        var broken = from page in Repository.Texts("docs", "samples").Concat(RootPages())
                     from Match link in Link().Matches(page.Text)
                     let target = link.Groups[1].Value.Split('#')[0]
                     where target.Length > 0 && !target.Contains("://", StringComparison.Ordinal)
                     let path = System.IO.Path.Combine(System.IO.Path.GetDirectoryName(Repository.PathOf(page.Name))!, target)
                     where !System.IO.File.Exists(path) && !System.IO.Directory.Exists(path)
                     select $"{page.Name}: {target}";
        Assert.Empty(broken);
    }

    [Fact]
    public void CodePlaces_OfPagesExist()
    {
        var files = Repository.Texts("src", "tests").Select(file => file.Name).ToList();
        var missing = from page in Repository.Texts("docs", "samples").Concat(RootPages())
                      from Match place in CodePlace().Matches(page.Text)
                      let name = place.Groups[1].Value
                      where name[0] != 'X' && !name.Contains("/X", StringComparison.Ordinal) // a pattern, as XReader.cs
                      where !files.Exists(file => file.EndsWith("/" + name, StringComparison.Ordinal) || file == name || file.Contains("." + name, StringComparison.Ordinal))
                      select $"{page.Name}: {name}";
        Assert.Empty(missing);
    }

    private static IEnumerable<(string Name, string Text)> RootPages() =>
        System.IO.Directory.EnumerateFiles(Repository.Root, "*.md").Select(file => (System.IO.Path.GetFileName(file), System.IO.File.ReadAllText(file)));

    private static void AssertNowhere(Regex forbidden)
    {
        var found = from file in Repository.Texts(Everything).Concat(RootPages())
                    where !file.Name.EndsWith("WordingTests.cs", StringComparison.Ordinal)
                    from Match match in forbidden.Matches(file.Text)
                    select $"{file.Name}: {match.Value}";
        Assert.Empty(found);
    }

    [GeneratedRegex(@"\bTODO\b|\bFIXME\b|throw new NotImplementedException")]
    private static partial Regex Later();

    [GeneratedRegex(@"(?<![\w./])/(work|tmp|root|home|var|usr/local)/[\w.]|[A-Z]:\\Users")]
    private static partial Regex MachinePath();

    [GeneratedRegex(@"catch\s*(\([^)]*\))?\s*\{\s*\}")]
    private static partial Regex EmptyCatch();

    [GeneratedRegex("`([A-Za-z][A-Za-z./]*\\.cs)`")]
    private static partial Regex CodePlace();

    [GeneratedRegex(@"\]\(([^)\s]+)\)")]
    private static partial Regex Link();
}
