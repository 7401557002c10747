using System.Globalization;
using System.Text;

namespace Aslaid.Record;

/// <summary>The limits of a code in words that do not depend on culture: what a release rests on.</summary>
public static class CodeBookText
{
    /// <summary>Name and value of each limit that is set, in a fixed order.</summary>
    public static string Of(CodeEntry entry)
    {
        var text = new StringBuilder();
        Put("kind", entry.Kind.ToString());
        Put("measured_at", entry.MeasuredAt);
        PutNumber("od_m", entry.OutsideDiameter);
        PutNumber("tol_plan_m", entry.TolerancePlan);
        PutNumber("tol_height_m", entry.ToleranceHeight);
        PutNumber("tol_high_m", entry.ToleranceHigh);
        PutNumber("tol_low_m", entry.ToleranceLow);
        PutNumber("plan_95_max_m", entry.Plan95Max);
        PutNumber("height_95_max_m", entry.Height95Max);
        PutNumber("spacing_max_m", entry.SpacingMax);
        PutNumber("sagitta_max_m", entry.SagittaMax);
        PutNumber("radius_min_m", entry.RadiusMin);
        PutNumber("radius_max_m", entry.RadiusMax);
        PutNumber("tangent_break_max_deg", entry.TangentBreakMaxDegrees);
        Put("closes", entry.Closes ? "yes" : null);
        PutNumber("fall_min_pct", entry.FallMinPercent);
        PutNumber("cover_min_m", entry.CoverMin);
        PutNumber("end_reach_m", entry.EndReach);
        Put("ends_on", entry.EndsOn.IsEmpty ? null : string.Join(' ', entry.EndsOn));
        Put("needs_proof", entry.NeedsProof ? "yes" : null);
        PutNumber("photo_every_m", entry.PhotoEvery);
        return text.ToString();

        void PutNumber(string name, double? value) => Put(name, value?.ToString("R", CultureInfo.InvariantCulture));

        void Put(string name, string? value)
        {
            if (value is not null) text.Append(name).Append('=').Append(value).Append('\n');
        }
    }
}
