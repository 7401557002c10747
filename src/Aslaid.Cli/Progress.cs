using Spectre.Console;

namespace Aslaid.Cli;

/// <summary>A progress bar on a terminal for work that takes over a second; nothing otherwise.</summary>
internal static class Progress
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1);

    /// <param name="whole">What the work reports when it is done; 0 where that is not known.</param>
    public static T Run<T>(Shell shell, string what, Func<IProgress<long>?, T> work, long whole = 0)
    {
        if (!shell.Interactive) return work(null);
        var share = new Share();
        var task = Task.Run(() => work(share));
        if (Task.WaitAny([task], Patience) >= 0) return task.GetAwaiter().GetResult();
        var console = AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(shell.Error) });
        console.Progress().AutoClear(true).Start(context =>
        {
            var bar = context.AddTask(Markup.Escape(what), maxValue: 100);
            while (Task.WaitAny([task], 100) < 0)
            {
                bar.IsIndeterminate = whole == 0 || share.Done == 0;
                bar.Value = whole == 0 ? 0 : 100.0 * share.Done / whole;
            }
        });
        return task.GetAwaiter().GetResult();
    }

    /// <summary>What was last reported.</summary>
    private sealed class Share : IProgress<long>
    {
        private long done;

        public long Done => Interlocked.Read(ref done);

        public void Report(long value) => Interlocked.Exchange(ref done, value);
    }
}
