using Spectre.Console;

namespace Aslaid.Cli;

/// <summary>A progress bar on a terminal for work that takes over a second; nothing otherwise.</summary>
internal static class Progress
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1);

    public static T Run<T>(Shell shell, string what, Func<IProgress<long>?, T> work)
    {
        if (!shell.Interactive) return work(null);
        var share = new Share();
        var task = Task.Run(() => work(share));
        if (Task.WaitAny([task], Patience) >= 0) return task.GetAwaiter().GetResult();
        var console = AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(shell.Error) });
        console.Progress().AutoClear(true).Start(context =>
        {
            var bar = context.AddTask(Markup.Escape(what), maxValue: 100);
            while (!task.Wait(100))
            {
                bar.IsIndeterminate = share.Percent is null;
                bar.Value = share.Percent ?? 0;
            }
        });
        return task.GetAwaiter().GetResult();
    }

    /// <summary>Percent as last reported.</summary>
    private sealed class Share : IProgress<long>
    {
        private long percent = -1;

        public long? Percent => Interlocked.Read(ref percent) is >= 0 and var known ? known : null;

        public void Report(long value) => Interlocked.Exchange(ref percent, value);
    }
}
