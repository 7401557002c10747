using Aslaid.Record;

namespace Aslaid.Exchange;

/// <summary>The record as a GeoPackage of its own: layers with true curves, a chorded copy, and what it was derived at.</summary>
public sealed class GeoPackageDeliverable : IDeliverable
{
    private static readonly GeoPackageTable Provenance = new("provenance", "Provenance", "What the layers were derived at, and the cautions that go with them", [
        new("name", GeoPackageType.Text, Required: true), new("value", GeoPackageType.Text)]);

    /// <inheritdoc/>
    public string Name => "geopackage";

    /// <inheritdoc/>
    public string What => "GeoPackage: shots, lines and areas with true arcs, chorded copies, findings";

    /// <inheritdoc/>
    public void Write(Handover handover, IDeliveryFolder folder)
    {
        using var file = GeoPackageFile.Create(folder.PathOf("record.gpkg"), SpatialReference.SiteGrid);
        using var transaction = file.Begin();
        var srs = SpatialReference.SiteGrid.SrsId;
        foreach (var table in RecordLayers.Tables(srs)) file.Add(table, handover.MadeAt);
        file.Add(Provenance, handover.MadeAt);
        RecordLayers.Write(file, handover.Record, srs, handover.MadeAt);
        using (var fill = file.Fill(Provenance))
        {
            var id = 0;
            foreach (var (name, value) in Lines(handover))
            {
                fill.Start(++id);
                fill.Rows.Text(fill.FirstColumn, name);
                fill.Rows.Text(fill.FirstColumn + 1, value);
                fill.Rows.Row();
            }

            fill.Complete(handover.MadeAt);
        }

        transaction.Commit();
    }

    private static IEnumerable<(string Name, string Value)> Lines(Handover handover)
    {
        yield return ("project", handover.Project);
        yield return ("stamp", handover.Stamp);
        yield return ("prepared by", handover.PreparedBy);
        foreach (var caution in Cautions.All) yield return ("caution", caution);
    }
}
