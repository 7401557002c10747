using System.Collections.Immutable;

namespace Aslaid.Exchange;

/// <summary>What a column holds. The names in SQL are those of OGC 12-128r17, table 1.</summary>
public enum GeoPackageType
{
    /// <summary>Whole number to 64 bits.</summary>
    Whole,

    /// <summary>Double.</summary>
    Real,

    /// <summary>UTF-8 text.</summary>
    Text,

    /// <summary>Bytes.</summary>
    Blob,

    /// <summary>0 or 1.</summary>
    Boolean,

    /// <summary>Text as 2031-05-04T07:30:00.000Z.</summary>
    Time,

    /// <summary>Text as 2031-05-04.</summary>
    Date,
}

/// <summary>A column besides the key and the geometry.</summary>
/// <param name="Name">Small letters, digits and underscores; with its unit where it has one, as <c>height_m</c>.</param>
/// <param name="Required">Null is refused.</param>
public sealed record GeoPackageColumn(string Name, GeoPackageType Type, bool Required = false);

/// <summary>The geometry column of a feature table, always named <c>geom</c>.</summary>
/// <param name="Kind">Declared for the layer; every geometry in it is of this kind. Lines with or without arcs go into a
/// <see cref="CurveKind.CompoundCurve"/> layer, areas likewise into <see cref="CurveKind.CurvePolygon"/>.</param>
/// <param name="Dimensions">What every geometry carries.</param>
/// <param name="SrsId">A spatial reference that the file holds.</param>
public sealed record GeoPackageGeometry(CurveKind Kind, CurveDimensions Dimensions, int SrsId)
{
    /// <summary>The name of the geometry column.</summary>
    public const string Column = "geom";
}

/// <summary>A table: attributes without a geometry, features with one. The key is <c>id INTEGER PRIMARY KEY</c>.</summary>
/// <param name="Name">Small letters, digits and underscores.</param>
/// <param name="Title">For people, unique in the file; the standard calls it the identifier.</param>
/// <param name="Description">For people.</param>
/// <param name="Geometry">Null for an attribute table.</param>
public sealed record GeoPackageTable(string Name, string Title, string Description, ImmutableArray<GeoPackageColumn> Columns, GeoPackageGeometry? Geometry = null)
{
    /// <summary>The name of the key column.</summary>
    public const string Key = "id";
}

/// <summary>A table as a GeoPackage lists it, whoever wrote the file.</summary>
/// <param name="Name">The table or view; may need quoting.</param>
/// <param name="DataType"><c>features</c>, <c>attributes</c> or a word of an extension.</param>
/// <param name="Title">For people; null where not given.</param>
/// <param name="LastChange">As written in the file.</param>
/// <param name="GeometryColumn">Null for a table without geometry.</param>
/// <param name="GeometryType">In capitals, as <c>COMPOUNDCURVE</c>; null for a table without geometry.</param>
/// <param name="SrsId">Null where not given.</param>
/// <param name="HasIndex">A spatial index is registered for it.</param>
public sealed record GeoPackageListing(string Name, string DataType, string? Title, string LastChange, string? GeometryColumn, string? GeometryType, int? SrsId, bool HasIndex);
