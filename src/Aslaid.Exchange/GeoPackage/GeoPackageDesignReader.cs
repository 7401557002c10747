using System.Globalization;
using System.IO;
using Aslaid.Geometry;
using Microsoft.Data.Sqlite;

namespace Aslaid.Exchange;

/// <summary>
/// A design as GeoPackage: every feature table, true curves as they are. A feature's code is sought in its properties code, desc, description, layer, type, then in the table's name. Chorded copies
/// that this program writes beside true curves are passed over.
/// </summary>
internal sealed class GeoPackageDesignReader : IDesignReader
{
    public string Name => "GeoPackage";

    public bool Recognises(ReadOnlySpan<byte> head, string fileName) => head.StartsWith("SQLite format 3\0"u8);

    public void Read(Stream file, DesignOptions options, DesignGather into)
    {
        if (file is FileStream { Name: var known } && File.Exists(known))
        {
            Read(known, options, into);
            return;
        }

        var copy = System.IO.Path.GetTempFileName(); // SQLite reads files only
        try
        {
            using (var target = File.Create(copy)) file.CopyTo(target);
            Read(copy, options, into);
        }
        finally
        {
            File.Delete(copy);
        }
    }

    private static void Read(string path, DesignOptions options, DesignGather into)
    {
        try
        {
            using var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = path, Mode = SqliteOpenMode.ReadOnly, Pooling = false }.ToString());
            connection.Open();
            foreach (var table in Tables(connection))
            {
                if (table.Name.EndsWith("_chorded", StringComparison.Ordinal)) into.Skip($"table {table.Name}", "it is a chorded copy of true curves beside it");
                else new FeatureTable(connection, table, GridOf(table, options, into), into).Read();
            }
        }
        catch (SqliteException wrong)
        {
            throw new DesignRefusedException(0, null, $"the file is no GeoPackage that can be read, or is damaged: {wrong.Message.TrimEnd('.')}");
        }
        catch (Exception wrong) when (wrong is InvalidCastException or FormatException or OverflowException)
        {
            throw new DesignRefusedException(0, null, "its tables do not hold what a GeoPackage says they hold");
        }
    }

    internal sealed record Listing(string Name, string Column, int SrsId, string Organization, int OrganizationId);

    private static List<Listing> Tables(SqliteConnection connection)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT g.table_name, g.column_name, g.srs_id, s.organization, s.organization_coordsys_id FROM gpkg_geometry_columns g JOIN gpkg_contents c ON c.table_name = g.table_name LEFT JOIN gpkg_spatial_ref_sys s ON s.srs_id = g.srs_id ORDER BY g.table_name";
        using var rows = command.ExecuteReader();
        var tables = new List<Listing>();
        while (rows.Read()) tables.Add(new(rows.GetString(0), rows.GetString(1), rows.GetInt32(2), rows.IsDBNull(3) ? "" : rows.GetString(3), rows.IsDBNull(4) ? 0 : rows.GetInt32(4)));
        return tables.Count > 0 ? tables : throw new DesignRefusedException(0, null, "the file is a GeoPackage without a table of features");
    }

    /// <summary>How coordinates of a table come to the site grid; null where they are on it.</summary>
    private static Func<Point2, Point2>? GridOf(Listing table, DesignOptions options, DesignGather into)
    {
        if (!table.Organization.Equals("EPSG", StringComparison.OrdinalIgnoreCase)) return null;
        var code = string.Create(CultureInfo.InvariantCulture, $"EPSG:{table.OrganizationId}");
        if (table.OrganizationId == 4326)
        {
            if (options.CoordinateSystem is { } system && GridToGeographic.TryFor(system, out var grid, out _)) return place => grid.Back(new(place.East, place.North));
            throw new DesignRefusedException(0, code, $"(table {table.Name}) is longitude and latitude, and the project names no coordinate system; name one in its settings, or export the design in the site grid");
        }

        if (options.CoordinateSystem is null) into.Remark($"Table {table.Name} is in {code}, and the project names no coordinate system: it was taken as the site grid.");
        else if (!options.CoordinateSystem.Trim().Equals(code, StringComparison.OrdinalIgnoreCase))
        {
            if (options.CoordinateSystem.Trim().StartsWith("EPSG:", StringComparison.OrdinalIgnoreCase)) throw new DesignRefusedException(0, code, $"(table {table.Name}) is another coordinate system than the site's, {options.CoordinateSystem}; export the design in the site grid");
            into.Remark($"Table {table.Name} is in {code}; the project's coordinate system is given as text and was not compared with it.");
        }

        return null;
    }

    private sealed class FeatureTable(SqliteConnection connection, Listing table, Func<Point2, Point2>? toGrid, DesignGather into)
    {
        public void Read()
        {
            var columns = Columns();
            string[] asked = [.. FeatureWords.Codes.Concat(FeatureWords.Names).Append("status")];
            var found = asked.Select(word => columns.FirstOrDefault(column => column.Equals(word, StringComparison.OrdinalIgnoreCase))).ToArray();
            using var command = connection.CreateCommand();
            command.CommandText = $"SELECT {Quoted(table.Column)}{string.Concat(found.Select(column => column is null ? ", NULL" : ", CAST(" + Quoted(column) + " AS TEXT)"))} FROM {Quoted(table.Name)}";
            using var rows = command.ExecuteReader();
            var (number, faces) = (0, new DxfFaces());
            var anyFace = false;
            while (rows.Read())
            {
                number++;
                string? Text(int place) => rows.IsDBNull(place + 1) ? null : rows.GetString(place + 1);
                if (rows.IsDBNull(0) || rows.GetValue(0) is not byte[] blob)
                {
                    into.Skip($"feature of {table.Name}", "it has no geometry");
                    continue;
                }

                var wkb = Body(blob);
                if (wkb.IsEmpty)
                {
                    into.Skip($"feature of {table.Name}", "its geometry is empty");
                    continue;
                }

                string?[] words = [.. Enumerable.Range(0, FeatureWords.Codes.Length).Select(Text), table.Name];
                var name = Enumerable.Range(FeatureWords.Codes.Length, FeatureWords.Names.Length).Select(Text).FirstOrDefault(text => !string.IsNullOrWhiteSpace(text)) ?? string.Create(CultureInfo.InvariantCulture, $"{table.Name} {number}");
                var existing = FeatureWords.IsExisting(Text(asked.Length - 1));
                var geometry = new WkbDesign(wkb.Span, toGrid);
                geometry.Read();
                foreach (var path in geometry.Lines) into.Line(name, words, path, existing: existing);
                foreach (var (at, height) in geometry.Points) into.Point(name, words, at, height);
                foreach (var why in geometry.PassedOver) into.Skip($"{why} of {table.Name}", "it has no length");
                for (var i = 0; i + 2 < geometry.Triangles.Count; i += 3)
                {
                    if (geometry.Triangles[i].Height is not { } a || geometry.Triangles[i + 1].Height is not { } b || geometry.Triangles[i + 2].Height is not { } c) into.Skip($"triangle of {table.Name}", "it has no heights");
                    else
                    {
                        faces.Add((geometry.Triangles[i].At, a), (geometry.Triangles[i + 1].At, b), (geometry.Triangles[i + 2].At, c));
                        anyFace = true;
                    }
                }
            }

            if (anyFace) faces.Give(table.Name, into);
        }

        private List<string> Columns()
        {
            using var command = connection.CreateCommand();
            command.CommandText = "SELECT name FROM pragma_table_info($table)";
            command.Parameters.AddWithValue("$table", table.Name);
            using var rows = command.ExecuteReader();
            var columns = new List<string>();
            while (rows.Read()) columns.Add(rows.GetString(0));
            return columns;
        }

        /// <summary>The WKB of a blob (GeoPackage 1.3, 2.1.3), empty for an empty geometry.</summary>
        private ReadOnlyMemory<byte> Body(byte[] blob)
        {
            if (blob.Length < 8 || blob[0] != 'G' || blob[1] != 'P') throw new DesignRefusedException(0, null, $"a geometry of table {table.Name} does not begin as a GeoPackage's does");
            var envelope = ((blob[3] >> 1) & 7) switch { 0 => 0, 1 => 32, 2 or 3 => 48, 4 => 64, _ => throw new DesignRefusedException(0, null, $"a geometry of table {table.Name} states an envelope that no standard knows") };
            if (blob.Length < 8 + envelope) throw new DesignRefusedException(0, null, $"a geometry of table {table.Name} is cut off");
            return (blob[3] & 0x10) != 0 ? default : blob.AsMemory(8 + envelope);
        }

        private static string Quoted(string name) => "\"" + name.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"";
    }
}
