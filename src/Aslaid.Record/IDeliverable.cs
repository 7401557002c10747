namespace Aslaid.Record;

/// <summary>What a handover rests on.</summary>
/// <param name="Project">Name of the project.</param>
/// <param name="Position">Journal position that the record was derived at.</param>
/// <param name="HeadHash">Hash of the journal at that position, lower-case hexadecimal.</param>
/// <param name="MadeAt">When it is handed over.</param>
/// <param name="PreparedBy">Who prepared it.</param>
public sealed record Handover(AsBuiltRecord Record, string Project, int Position, string HeadHash, DateTimeOffset MadeAt, string PreparedBy)
{
    /// <summary>One line that every output carries: journal position and head hash.</summary>
    public string Stamp => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"journal {Position}, head {HeadHash}");
}

/// <summary>Where deliverables put their files.</summary>
public interface IDeliveryFolder
{
    /// <summary>The full path for a file of the package; its folder exists. The file counts as part of the package.</summary>
    /// <param name="name">Relative name with forward slashes.</param>
    /// <param name="what">What this file is for, in a few words, for the manifest; where left out, what the deliverable is for.</param>
    string PathOf(string name, string? what = null);
}

/// <summary>One format of the handover. The same handover gives the same bytes (for GeoPackage and PDF: the same content).</summary>
public interface IDeliverable
{
    /// <summary>Stable name in kebab-case.</summary>
    string Name { get; }

    /// <summary>What it is for, in a few words, for the manifest.</summary>
    string What { get; }

    /// <summary>Writes its file or files.</summary>
    void Write(Handover handover, IDeliveryFolder folder);
}

/// <summary>Words that every output for people carries (cautions of the trade; local code and licensed practice prevail).</summary>
public static class Cautions
{
    /// <summary>The cautions, in order.</summary>
    public static IReadOnlyList<string> All { get; } =
    [
        "This record does not replace locating: find and expose services by safe means before any mechanical digging.",
        "Accuracy is as stated, on the survey date; ground, covers and cables move, and depth refers to the surface on that date.",
        "Do not enter an unprotected trench to measure; obtain data without putting people at risk.",
        "Keep survey poles clear of overhead lines.",
        "In live traffic, measure only under approved traffic management.",
        "Not proven is not accepted. Interpolated or reconstructed geometry is marked.",
        "Classes, cover and separation shown are project settings; local code prevails.",
        "Complete speaks of the position record only: it is no permission to enter, backfill, load or energise.",
    ];
}
