namespace Aslaid.Record;

/// <summary>On which day a shot was taken.</summary>
internal static class ShotDay
{
    /// <summary>The date as its clock showed it; null where no time was written.</summary>
    public static DateOnly? Of(ShotTable raw, int row) => raw[row].Time is { } time ? DateOnly.FromDateTime(time.DateTime) : null;
}
