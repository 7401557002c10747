using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>As many workers as there are processors. Results are the same for any number.</summary>
public sealed class ParallelWorkers : IWorkers
{
    /// <summary>The machine's.</summary>
    public static ParallelWorkers Instance { get; } = new();

    /// <inheritdoc/>
    public void Do(int parts, Action<int> part)
    {
        if (parts == 1) part(0);
        else if (parts > 1) Parallel.For(0, parts, part);
    }
}
