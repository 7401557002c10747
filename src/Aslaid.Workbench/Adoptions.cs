using System.Collections.Immutable;
using System.IO;
using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;

namespace Aslaid.Workbench;

/// <summary>Reads what a project adopts: code book, control, settings, delivery table. What cannot be read is refused whole.</summary>
public static class Adoptions
{
    /// <summary>Reads a code book.</summary>
    /// <exception cref="ProjectException">It cannot be read; the message names the rows.</exception>
    public static CodeBook Codes(string name, byte[] bytes) => Read(name, CodeBookCsv.Read(bytes)).Value!;

    /// <summary>Reads control points.</summary>
    /// <exception cref="ProjectException">They cannot be read; the message names the rows.</exception>
    public static ImmutableArray<ControlPoint> Control(string name, byte[] bytes) => Read(name, ControlCsv.Read(bytes)).Value!.Points;

    /// <summary>Reads a delivery table.</summary>
    /// <exception cref="ProjectException">It cannot be read; the message names the rows.</exception>
    public static DeliveryTable Delivery(string name, byte[] bytes) => Read(name, DeliveryCsv.Read(bytes)).Value!;

    /// <summary>Reads sections.</summary>
    /// <exception cref="ProjectException">They cannot be read; the message names the rows.</exception>
    public static SectionTable Sections(string name, byte[] bytes) => Read(name, SectionsCsv.Read(bytes)).Value!;

    /// <summary>Reads a design file.</summary>
    /// <exception cref="ProjectException">It cannot be read; the message says where and why.</exception>
    public static DesignFile Design(Stream file, DesignOptions options)
    {
        var intake = DesignReaders.Read(file, options);
        return intake.Design ?? throw new ProjectException($"{intake.Refused!.Message(options.FileName)}\n{options.FileName} was not adopted. Nothing changed.");
    }

    /// <summary>Reads settings.</summary>
    /// <exception cref="ProjectException">They cannot be read; the message names the lines.</exception>
    public static Settings Settings(string name, byte[] bytes)
    {
        var settings = Read(name, SettingsText.Read(bytes)).Value!;
        if (settings.CoordinateSystem is { } system) Demand(system);
        return settings;
    }

    /// <summary>Reads for what is wrong with it; gives what a person should know although nothing is.</summary>
    /// <exception cref="ProjectException">It cannot be read.</exception>
    public static ImmutableArray<string> Remarks(Adoptable table, string name, byte[] bytes)
    {
        switch (table)
        {
            case Adoptable.CodeBook: return Read(name, CodeBookCsv.Read(bytes)).Remarks;
            case Adoptable.Control: return Read(name, ControlCsv.Read(bytes)).Remarks;
            case Adoptable.Sections: return Read(name, SectionsCsv.Read(bytes)).Remarks;
            case Adoptable.DesignMap: return Read(name, DesignMapCsv.Read(bytes)).Remarks;
            case Adoptable.Separation: return Read(name, SeparationCsv.Read(bytes)).Remarks;
            case Adoptable.Delivery: return Read(name, DeliveryCsv.Read(bytes)).Remarks;
            default: Settings(name, bytes); return [];
        }
    }

    /// <summary>A code book, the points of a control list, a delivery table, or settings.</summary>
    public static object Read(Adoptable table, string name, byte[] bytes) => table switch
    {
        Adoptable.CodeBook => Codes(name, bytes),
        Adoptable.Control => Control(name, bytes),
        Adoptable.Delivery => Delivery(name, bytes),
        Adoptable.Sections => Sections(name, bytes),
        Adoptable.DesignMap => Read(name, DesignMapCsv.Read(bytes)).Value!,
        Adoptable.Separation => Read(name, SeparationCsv.Read(bytes)).Value!,
        _ => Settings(name, bytes),
    };

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
        if (!GridToGeographic.TryFor(system, out _, out var why)) throw new ProjectException($"The coordinate system '{(system.Length > 60 ? system[..60] + "…" : system)}' is not accepted. {why}");
    }

    private static TableIntake<T> Read<T>(string name, TableIntake<T> intake) where T : class => intake.Value is not null
        ? intake
        : throw new ProjectException(
            string.Join('\n', intake.Rejected.Select(rejection => rejection.Message(name)))
            + FormattableString.Invariant($"\n{name} was not adopted: {intake.RejectedCount} to put right. Nothing changed."));
}
