using System.Collections.Immutable;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Sheets;

namespace Aslaid.Workbench;

/// <summary>All formats of the handover, in the order of the manifest.</summary>
public static class DeliverableCatalogue
{
    /// <summary>One line a format.</summary>
    public static ImmutableArray<IDeliverable> All { get; } =
    [
        new GeoPackageDeliverable(),
        new TablesDeliverable(),
        new DxfDeliverable(),
        new LandXmlDeliverable(),
        new GeoJsonDeliverable(),
        new PlanPicture(),
        new VisitDeliverable(),
    ];
}
