using System.Globalization;
using System.IO;
using System.Text;

namespace Aslaid.Cli;

/// <summary>What a command talks to: where it writes, whether a person watches, what time it is.</summary>
/// <param name="Out">Results.</param>
/// <param name="Error">Messages.</param>
/// <param name="Interactive">Whether messages go to a terminal.</param>
public sealed record Shell(TextWriter Out, TextWriter Error, bool Interactive, TimeProvider Clock)
{
    /// <summary>The one of this process: UTF-8, line feeds on every system.</summary>
    public static Shell OfProcess()
    {
        Console.OutputEncoding = Encoding.UTF8;
        var output = new StreamWriter(Console.OpenStandardOutput(), new UTF8Encoding(false)) { AutoFlush = true, NewLine = "\n" };
        var error = new StreamWriter(Console.OpenStandardError(), new UTF8Encoding(false)) { AutoFlush = true, NewLine = "\n" };
        return new(output, error, !Console.IsErrorRedirected, TimeProvider.System);
    }

    /// <summary>Writes a result line; numbers do not follow the culture.</summary>
    public void Say(FormattableString line) => Out.WriteLine(line.ToString(CultureInfo.InvariantCulture));

    /// <summary>Writes a message line.</summary>
    public void Tell(FormattableString line) => Error.WriteLine(line.ToString(CultureInfo.InvariantCulture));
}

/// <summary>How a command ends.</summary>
internal static class Exit
{
    /// <summary>Done, and nothing holds.</summary>
    public const int Fine = 0;

    /// <summary>Done, and something holds.</summary>
    public const int Holds = 1;

    /// <summary>It could not run.</summary>
    public const int Failed = 2;
}
