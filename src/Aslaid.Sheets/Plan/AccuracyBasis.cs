using System.Globalization;
using Aslaid.Record;

namespace Aslaid.Sheets;

/// <summary>How good the shots are, in one sentence that begins with the worst of them.</summary>
internal static class AccuracyBasis
{
    /// <summary>Metres: a value this near to a limit equals it.</summary>
    private const double Same = 1e-6;

    /// <summary>The largest 95 % uncertainties, how many shots are over their code's limit, and how many state none.</summary>
    public static string Of(AsBuiltRecord record)
    {
        var shots = record.Shots;
        var (plan, height) = (double.NaN, double.NaN);
        int over = 0, limited = 0, silent = 0;
        var rows = record.Site.ShotRows;
        var count = rows.Length;
        foreach (var row in rows)
        {
            var (p, h) = (Normal.Circle95 * shots.PlaceSigma(row), Normal.Within95 * shots.LevelSigma(row));
            (plan, height) = (double.MaxNumber(plan, p), double.MaxNumber(height, h));
            if (double.IsNaN(p)) silent++;
            var entry = shots.Entry(row);
            if (entry is null || entry.Plan95Max is null && entry.Height95Max is null) continue;
            limited++;
            if (p > entry.Plan95Max + Same || h > entry.Height95Max + Same) over++; // false where either is missing
        }

        var culture = CultureInfo.InvariantCulture;
        var none = $"{Naming.Figure(silent)} {(silent == 1 ? "states" : "state")} none.";
        if (silent == count) return "No shot states its accuracy in plan.";
        return string.Create(culture, $"Largest 95 % uncertainty {plan:0.000} m in plan")
            + (double.IsNaN(height) ? "; " : string.Create(culture, $", {height:0.000} m in height; "))
            + Limits() + none;

        string Limits() => limited == 0 ? "no code here sets a limit; "
            : limited < count ? $"{Naming.Figure(over)} of {Naming.Count(limited, "shot", "shots")} whose code sets a limit exceed it; "
            : $"{Naming.Figure(over)} of {Naming.Count(limited, "shot is", "shots are")} over their code's limit; ";
    }
}
