using System.Collections.Immutable;
using System.IO;
using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Testing;

/// <summary>The inputs of a record from an invented site, read by the readers of the program.</summary>
public static class SampleInputs
{
    private static readonly string DefaultCodes = SampleSites.Lot(1).Codes;

    private static readonly Lazy<CodeBook> DefaultBook = new(() => Book(DefaultCodes));

    /// <summary>All files of the site taken in, its control, code book and settings adopted, its journal written.</summary>
    public static RecordInputs Of(SampleSite site)
    {
        var shots = ShotTable.Empty;
        var reader = new ShotsCsvReader();
        foreach (var file in site.Shots)
        {
            var intake = reader.Read(Encoding.UTF8.GetBytes(file.Text), new(file.Name, file.Crew, default), shots);
            shots = intake.Shots ?? throw new InvalidOperationException(string.Join('\n', intake.Rejected.Select(rejection => rejection.Message(file.Name))));
        }

        var codes = ReferenceEquals(site.Codes, DefaultCodes) ? DefaultBook.Value : Book(site.Codes);
        var settings = site.Settings is { } text ? Adoptions.Settings("settings.txt", Encoding.UTF8.GetBytes(text)) : Settings.Default;
        var delivery = site.Delivery is { } wanted ? Adoptions.Delivery("delivery.csv", Encoding.UTF8.GetBytes(wanted)) : DeliveryTable.Empty;
        return new(shots, site.Journal, codes, Adoptions.Control("control.csv", Encoding.UTF8.GetBytes(site.Control)), settings)
        {
            Delivery = delivery,
            Designs = site.Design is { } design ? [new(new("design.xml", "", null, null, SurfaceKind.Designed, null, null), 0, true, Adoptions.Design(new MemoryStream(Encoding.UTF8.GetBytes(design)), new("design.xml")))] : [],
        };
    }

    private static CodeBook Book(string csv) => Adoptions.Codes("codes.csv", Encoding.UTF8.GetBytes(csv));
}
