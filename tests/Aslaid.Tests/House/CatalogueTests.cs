using System.IO;
using System.Text.RegularExpressions;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Sheets;
using Aslaid.Workbench;

namespace Aslaid.Tests;

/// <summary>What is written is catalogued, so that a newcomer is used and tested on arrival. For checks see <see cref="EveryCheckTests"/>.</summary>
public sealed partial class CatalogueTests
{
    [Fact]
    public void EveryReader_IsInTheCatalogue() => AssertSame<IShotReader>(ReaderCatalogue.Shots, typeof(IShotReader));

    [Fact]
    public void EveryDeliverable_IsInTheCatalogue() =>
        AssertSame<IDeliverable>(DeliverableCatalogue.All, typeof(IDeliverable), typeof(TablesDeliverable), typeof(PlanPicture), typeof(DeliverableCatalogue));

    [Fact]
    public void Names_OfChecksAndDeliverables_AreStableWords()
    {
        var names = CheckCatalogue.All.Select(check => check.Name).Concat(DeliverableCatalogue.All.Select(deliverable => deliverable.Name)).ToList();
        Assert.All(names, name => Assert.Matches(KebabCase(), name));
        Assert.Equal(names.Count, names.Distinct().Count());
    }

    [Fact]
    public void EveryDecision_IsNumberedOnceAndHasItsParts()
    {
        var pages = Directory.GetFiles(Repository.PathOf("docs", "decisions"), "*.md");
        Assert.NotEmpty(pages);
        Assert.Equal(pages.Length, pages.Select(page => System.IO.Path.GetFileName(page)[..4]).Distinct().Count());
        Assert.All(pages, page => Assert.Contains("Status", File.ReadAllText(page), StringComparison.Ordinal));
    }

    private static void AssertSame<T>(IEnumerable<T> catalogue, params Type[] amongAssembliesOf) where T : class
    {
        var written = amongAssembliesOf.Select(type => type.Assembly).Distinct().SelectMany(assembly => assembly.GetTypes())
            .Where(type => type is { IsInterface: false, IsAbstract: false } && type.IsAssignableTo(typeof(T)));
        Assert.Equal(written.Select(type => type.Name).Order(StringComparer.Ordinal), catalogue.Select(one => one.GetType().Name).Order(StringComparer.Ordinal));
    }

    [GeneratedRegex("^[a-z]+(-[a-z]+)*$")]
    private static partial Regex KebabCase();
}
