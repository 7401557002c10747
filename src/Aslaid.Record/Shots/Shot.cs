using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>One measured position as it was taken in: a handle on a row of the shot table.</summary>
public readonly record struct Shot(ShotTable Table, int Row)
{
    /// <summary>The crew's name for it; may repeat.</summary>
    public string Id => Table.Id(Row);

    /// <summary>What names it for good.</summary>
    public ShotKey Key => Table.Key(Row);

    /// <summary>Plan position as measured, metres, site grid.</summary>
    public Point2 At => new(Table.East[Row], Table.North[Row]);

    /// <summary>Height as measured, metres; null where missing.</summary>
    public double? Height => double.IsNaN(Table.Height[Row]) ? null : Table.Height[Row];

    /// <summary>Code as measured.</summary>
    public string? Code => Table.Codes[Table.Code[Row]];

    /// <summary>Label of its run as the crew gave it.</summary>
    public string? RunLabel => Table.Labels[Table.Label[Row]];

    /// <summary>How its run reaches it.</summary>
    public Leg Leg => Table.Leg[Row];

    /// <summary>When it was measured; null where missing. Without a written zone the time is taken as it stands, ahead of UTC by nothing.</summary>
    public DateTimeOffset? Time
    {
        get
        {
            if (Table.Time[Row] == long.MinValue) return null;
            var zone = Table.Zone[Row] == short.MinValue ? TimeSpan.Zero : TimeSpan.FromMinutes(Table.Zone[Row]);
            return new DateTimeOffset(Table.Time[Row], TimeSpan.Zero).ToOffset(zone);
        }
    }

    /// <summary>The crew that measured it.</summary>
    public string? Crew => Table.Crew(Row);
}
