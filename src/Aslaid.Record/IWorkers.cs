namespace Aslaid.Record;

/// <summary>
/// Hands parts of a computation to whoever works. The core starts no threads; a host may. Each part writes only its own
/// results, so that the number of workers never changes a bit of the outcome.
/// </summary>
public interface IWorkers
{
    /// <summary>Does parts 0 to <paramref name="parts"/> − 1, in any order; returns when all are done.</summary>
    void Do(int parts, Action<int> part);
}

/// <summary>One worker: parts one after the other.</summary>
public sealed class OneWorker : IWorkers
{
    /// <summary>The one.</summary>
    public static OneWorker Instance { get; } = new();

    /// <inheritdoc/>
    public void Do(int parts, Action<int> part)
    {
        for (var i = 0; i < parts; i++) part(i);
    }
}
