namespace Aslaid.Record;

/// <summary>Which of a run's later shots lie along its earlier part: all of them, or blocks that the crew went back for while it also went on.</summary>
internal static class AgainBlocks
{
    /// <summary>Shots farther off than this lie along no run, metres (DEFAULT).</summary>
    public const double Reach = 3;

    /// <summary>Share of the later shots that must lie along the run before all are taken for it (DEFAULT).</summary>
    public const double Most = 0.75;

    /// <summary>A block among shots that go on has at least so many (DEFAULT).</summary>
    private const int Fewest = 3;

    /// <summary>To begin or end a block the crew walks at least so far, metres (DEFAULT): a run that turns back beside itself makes no jump.</summary>
    private const double Jump = 5;

    /// <summary>First and the one after the last of each block.</summary>
    /// <param name="along">Whether each shot lies along the earlier part.</param>
    /// <param name="legs">Metres from the shot before to each shot, and behind them from the last to what follows; 0 where nothing does.</param>
    /// <param name="spacing">Largest distance between shots, metres.</param>
    public static List<(int First, int End)> Of(ReadOnlySpan<bool> along, ReadOnlySpan<double> legs, double spacing)
    {
        if (along.Length > 1 && along.Count(true) >= Most * along.Length) return [(0, along.Length)];
        var blocks = new List<(int, int)>();
        for (var first = 0; first < along.Length; first++)
        {
            if (!along[first]) continue;
            var end = first;
            while (end < along.Length && along[end]) end++;
            if (end - first >= Fewest && Math.Max(legs[first], legs[end]) > Math.Max(spacing, Jump)) blocks.Add((first, end));
            first = end;
        }

        return blocks;
    }
}
