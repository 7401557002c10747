using System.Collections.Immutable;
using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>Reads what a project adopts: code book, control, settings. What cannot be read is refused whole.</summary>
public static class Adoptions
{
    /// <summary>Reads a code book.</summary>
    /// <exception cref="ProjectException">It cannot be read; the message names the rows.</exception>
    public static CodeBook Codes(string name, byte[] bytes) => Given(name, CodeBookCsv.Read(bytes));

    /// <summary>Reads control points.</summary>
    /// <exception cref="ProjectException">They cannot be read; the message names the rows.</exception>
    public static ImmutableArray<ControlPoint> Control(string name, byte[] bytes) => Given(name, ControlCsv.Read(bytes)).Points;

    /// <summary>Reads settings.</summary>
    /// <exception cref="ProjectException">They cannot be read; the message names the lines.</exception>
    public static Settings Settings(string name, byte[] bytes)
    {
        var settings = Given(name, SettingsText.Read(bytes));
        if (settings.CoordinateSystem is { } system) Demand(system);
        return settings;
    }

    /// <summary>Reads and throws away, for what is wrong with it.</summary>
    public static void Check(Adoptable table, string name, byte[] bytes)
    {
        switch (table)
        {
            case Adoptable.CodeBook: Codes(name, bytes); break;
            case Adoptable.Control: Control(name, bytes); break;
            default: Settings(name, bytes); break;
        }
    }

    /// <summary>Settings with a coordinate system that was named beside them; null where neither is given.</summary>
    public static (string Name, byte[] Bytes)? WithCoordinateSystem((string Name, byte[] Bytes)? settings, string? system)
    {
        if (system is null) return settings;
        var (name, bytes) = settings ?? ("settings.txt", []);
        if (bytes.Length > 0 && Settings(name, bytes).CoordinateSystem is not null)
            throw new ProjectException($"{name} names a coordinate system already; leave out --crs.");
        return (name, [.. bytes, .. Encoding.UTF8.GetBytes($"{(bytes.Length > 0 ? "\n" : "")}coordinate_system = {system}\n")]);
    }

    private static void Demand(string system)
    {
        try
        {
            GridToGeographic.For(system);
        }
        catch (ArgumentException wrong)
        {
            throw new ProjectException($"The coordinate system cannot be used: {wrong.Message}", wrong);
        }
    }

    private static T Given<T>(string name, TableIntake<T> intake) where T : class =>
        intake.Value ?? throw new ProjectException(
            string.Join('\n', intake.Rejected.Select(rejection => rejection.Message(name)))
            + FormattableString.Invariant($"\n{name} was not adopted: {intake.RejectedCount} to put right. Nothing changed."));
}
