using System.Globalization;
using System.IO;
using Aslaid.Record;

namespace Aslaid.Tests;

/// <summary>A folder of its own for one test, gone afterwards.</summary>
internal sealed class DeliveryFolder : IDeliveryFolder, IDisposable
{
    private readonly string root = Directory.CreateTempSubdirectory("aslaid-").FullName;

    public static DeliveryFolder With(IDeliverable deliverable, Handover handover)
    {
        var folder = new DeliveryFolder();
        deliverable.Write(handover, folder);
        return folder;
    }

    public IEnumerable<string> Names => Directory.GetFiles(root).Select(file => System.IO.Path.GetFileName(file)).Order(StringComparer.Ordinal);

    public string PathOf(string name, string? what = null) => System.IO.Path.Combine(root, name);

    public string Text(string name) => File.ReadAllText(PathOf(name));

    public void Dispose() => Directory.Delete(root, true);

    /// <summary>The law of every format but those that stamp themselves: the same handover gives the same bytes, whatever the culture.</summary>
    public static void AssertSameBytes(IDeliverable deliverable, Func<Handover> handover)
    {
        using var once = With(deliverable, handover());
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            using var again = With(deliverable, handover());
            Assert.NotEmpty(once.Names);
            Assert.Equal(once.Names, again.Names);
            foreach (var name in once.Names) Assert.Equal(File.ReadAllBytes(once.PathOf(name)), File.ReadAllBytes(again.PathOf(name)));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
