namespace Aslaid.Record;

/// <summary>Shots that nobody measured: read off records. No instrument is to be proven there.</summary>
internal readonly struct Records(ShotTable raw)
{
    private readonly int[]? seen = raw.TextColumns.GetValueOrDefault("seen");
    private readonly int records = raw.Texts.Find("records");
    private readonly int boreLog = raw.Texts.Find("bore log");

    public bool Has(int row) => seen is not null && seen[row] != Words.None && (seen[row] == records || seen[row] == boreLog);
}
