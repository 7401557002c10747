using System.Globalization;
using Microsoft.Data.Sqlite;

namespace Aslaid.Exchange;

/// <summary>A feature table of a GeoPackage that is read as a design.</summary>
/// <param name="GeometryType">In capitals.</param>
/// <param name="SrsId">Its spatial reference; null where none is given.</param>
internal sealed record GeoPackageDesignTable(string Name, string GeometryColumn, string GeometryType, long? SrsId)
{
    private const int LongestWord = 200; // letters

    private string Of => "table " + CellText.Shown(Name);

    /// <summary>Refuses a table whose pages are broken: its rows may be too few, or endless.</summary>
    public static void DemandSound(SqliteConnection connection, string table)
    {
        if (SqliteRaw.Scalar(connection, $"PRAGMA quick_check({GeoPackageNames.Literal(table)})") is { } found && found != "ok")
            throw new DesignRefusedException(0, null, $"table {CellText.Shown(table)} is damaged ({CellText.Shown(found)}); open the file in the program that wrote it and save it anew");
    }

    public void Read(SqliteConnection connection, bool hasReferences, DesignOptions options, DesignGather into)
    {
        DemandSound(connection, Name);
        var frame = Frame(connection, hasReferences, options, into);
        var columns = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);
        string? key = null;
        using (var read = new BulkRead(connection, "SELECT name, pk FROM pragma_table_info(?1)"))
        {
            read.Bind(1, Name);
            while (read.Next())
            {
                columns[read.Text(0)] = read.Text(0);
                if (read.Whole(1) == 1) key = read.Text(0);
            }
        }

        if (!columns.TryGetValue(GeometryColumn, out var geometry))
            throw new DesignRefusedException(0, GeometryColumn, $"is no column of {Of}, though the GeoPackage names it as that of its geometry");
        string?[] texts = [.. DesignFeature.WordNames.Concat(DesignFeature.TitleNames).Select(wanted => columns.GetValueOrDefault(wanted))];
        var sql = $"SELECT {(key is null ? "NULL" : GeoPackageNames.Quote(key))}, typeof({GeoPackageNames.Quote(geometry)}), {GeoPackageNames.Quote(geometry)}, {string.Join(", ", texts.Select(TextOf))} FROM {GeoPackageNames.Quote(Name)}";
        var triangles = new DesignTriangles();
        using var rows = new BulkRead(connection, sql);
        for (var number = 1L; rows.Next(); number++)
        {
            var fid = rows.IsNull(0) ? number.ToString(CultureInfo.InvariantCulture) : CellText.Shown(rows.Text(0));
            try
            {
                Feature(rows, fid, frame, triangles, into);
            }
            catch (FormatException fault)
            {
                throw new DesignRefusedException(0, null, $"{Of}, feature {fid}: {fault.Message.TrimEnd('.')}");
            }
        }

        triangles.Give(Name, into);
    }

    private void Feature(BulkRead row, string fid, DesignFrame frame, DesignTriangles triangles, DesignGather into)
    {
        if (row.IsNull(2))
        {
            into.Skip("feature of " + Of, "it has no geometry");
            return;
        }

        if (row.Text(1) != "blob") throw new FormatException($"its geometry is a {row.Text(1)}; bytes were expected");
        var (count, all) = (DesignFeature.WordNames.Length, DesignFeature.WordNames.Length + DesignFeature.TitleNames.Length);
        var words = new string?[count + 1];
        for (var i = 0; i < count; i++) words[i] = row.IsNull(3 + i) ? null : row.Text(3 + i);
        words[count] = Name;
        string? title = null;
        for (var i = count; i < all && string.IsNullOrWhiteSpace(title); i++) title = row.IsNull(3 + i) ? null : row.Text(3 + i);

        var feature = new DesignFeature(into, frame, Of, string.IsNullOrWhiteSpace(title) ? $"{Name}/{fid}" : title, words);
        var blob = row.Bytes(2);
        var header = GeoPackageBlob.ReadHeader(blob);
        if (header.SrsId != SrsId && header.SrsId is not (0 or -1))
            throw new FormatException(string.Create(CultureInfo.InvariantCulture, $"its geometry names spatial reference {header.SrsId}, its table {SrsId}; one was expected"));
        if (header.IsEmpty) feature.Empty();
        else new DesignWkbReader(blob[header.WkbOffset..], frame, feature, triangles).Read();
    }

    /// <summary>A cell as text; numbers as SQLite prints them, bytes not at all.</summary>
    private static string TextOf(string? column) => column is null ? "NULL"
        : string.Create(CultureInfo.InvariantCulture, $"CASE WHEN typeof({GeoPackageNames.Quote(column)}) IN ('text', 'integer', 'real') THEN substr({GeoPackageNames.Quote(column)}, 1, {LongestWord}) END");

    private DesignFrame Frame(SqliteConnection connection, bool hasReferences, DesignOptions options, DesignGather into)
    {
        if (SrsId is null or 0 or -1) return DesignFrame.Site(options.UnitInMetres ?? 1);
        if (!hasReferences) throw Unknown();
        using var read = new BulkRead(connection, "SELECT organization, organization_coordsys_id, definition FROM gpkg_spatial_ref_sys WHERE srs_id = ?1");
        read.Bind(1, SrsId.Value);
        if (!read.Next()) throw Unknown();
        var (organization, code, definition) = (read.Text(0), read.Whole(1), read.Text(2).Trim());
        if (organization.Equals("EPSG", StringComparison.OrdinalIgnoreCase) && code is > 0 and < int.MaxValue)
            return DesignFrame.OfEpsg((int)code, Of, WktHead.Of(definition).Unit, options, into);
        return definition.Length == 0 || definition.Equals("undefined", StringComparison.OrdinalIgnoreCase)
            ? DesignFrame.Site(options.UnitInMetres ?? 1)
            : DesignFrame.OfWkt(definition, Of, options, into);

        DesignRefusedException Unknown() => new(0, SrsId.Value.ToString(CultureInfo.InvariantCulture),
            $"is the spatial reference of {Of}, and the file does not say what that is; a row of gpkg_spatial_ref_sys was expected");
    }
}
