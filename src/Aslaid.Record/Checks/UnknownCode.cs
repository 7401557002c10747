using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Codes that the code book does not know, one finding a word and batch.</summary>
internal sealed class UnknownCode : ICheck
{
    private const int ShotsNamed = 50;

    public string Name => "unknown-code";

    public string Title => "Codes that the code book does not know";

    public string Unit => "1";

    public bool DoubtsItsShots => true;

    public void Look(Site site, Findings found)
    {
        var shots = site.Shots;
        var rows = new SortedDictionary<int, (List<int> Rows, int Count)>();
        foreach (var batch in shots.Raw.Batches)
        {
            rows.Clear();
            for (var row = batch.FirstRow; row < batch.FirstRow + batch.Count; row++)
            {
                if (shots.PlaceColumn[row] >= 0 || !shots.UsedColumn[row]) continue;
                var (named, count) = rows.TryGetValue(shots.CodeColumn[row], out var known) ? known : ([], 0);
                if (count < ShotsNamed) named.Add(row);
                rows[shots.CodeColumn[row]] = (named, count + 1);
            }

            foreach (var (word, (named, count)) in rows)
            {
                var first = shots.Raw.Origin(named[0]);
                found.Add(Severity.Stop, [.. named], shots.At(first), shots.HeightOf(first), OneRun(site, named), measured: count, word: shots.Codes[word] ?? "");
            }
        }
    }

    /// <summary>The run that all the rows are members of, else −1.</summary>
    private static int OneRun(Site site, List<int> rows)
    {
        var run = site.Membership.Run[site.Shots.Raw.Origin(rows[0])];
        foreach (var row in rows)
            if (site.Membership.Run[site.Shots.Raw.Origin(row)] != run) return -1;
        return run;
    }

    public string Message(Finding finding) =>
        $"Code {finding.Word} is not in the code book: {CheckText.Count(finding.Measured!.Value, "shot")} ({CheckText.Shots(finding)}).";

    public string Cure(Finding finding) => Nearest(finding) is { } code
        ? $"Recode to {code} if that is meant; else add {finding.Word} to the code book."
        : $"Recode, or add {finding.Word} to the code book.";

    /// <summary>All shots of the word and batch get the nearest code, also those beyond the ones named.</summary>
    public Change? Correction(Finding finding)
    {
        if (Nearest(finding) is not { } code) return null;
        var shots = finding.Table.RunTable.Shots;
        var (batch, word) = (shots.Raw.BatchOf(finding.Shots[0]), shots.Code[finding.Shots[0]]);
        var keys = ImmutableArray.CreateBuilder<ShotKey>();
        for (var row = batch.FirstRow; row < batch.FirstRow + batch.Count; row++)
            if (shots.Code[row] == word && shots.Used[row]) keys.Add(shots.Raw.Key(row));
        return new Recoded(keys.ToImmutable(), code, null);
    }

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;

    /// <summary>The one code of the book that is nearest by edits, where it is near enough to be a slip.</summary>
    private static string? Nearest(Finding finding)
    {
        var word = finding.Word ?? "";
        var (best, least, alone) = ((string?)null, Math.Max(2, word.Length / 4) + 1, true);
        foreach (var entry in finding.Table.RunTable.Shots.Book.Entries)
        {
            var edits = Edits(word, entry.Code);
            if (edits > least) continue;
            (alone, best, least) = (edits < least, entry.Code, edits);
        }

        return alone ? best : null;
    }

    /// <summary>Letters to insert, delete or replace; case does not count.</summary>
    /// <remarks>Levenshtein's distance by one row of its table.</remarks>
    private static int Edits(string a, string b)
    {
        var row = new int[b.Length + 1];
        for (var j = 0; j <= b.Length; j++) row[j] = j;
        for (var i = 1; i <= a.Length; i++)
        {
            var diagonal = row[0];
            row[0] = i;
            for (var j = 1; j <= b.Length; j++)
            {
                var replaced = diagonal + (char.ToUpperInvariant(a[i - 1]) == char.ToUpperInvariant(b[j - 1]) ? 0 : 1);
                diagonal = row[j];
                row[j] = Math.Min(replaced, Math.Min(row[j], row[j - 1]) + 1);
            }
        }

        return row[b.Length];
    }
}
