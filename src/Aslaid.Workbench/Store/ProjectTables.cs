using System.Collections.Immutable;
using Aslaid.Exchange;

namespace Aslaid.Workbench;

/// <summary>The attribute tables of a project file. What they hold is either raw and never changed, or a copy for other readers.</summary>
internal static class ProjectTables
{
    /// <summary>Version of the project format that this program writes.</summary>
    public const int Format = 1;

    /// <summary>Name–value pairs: format, and what the derived layers were made at.</summary>
    public static GeoPackageTable Project { get; } = new("project", "Project", "Format, and the journal position of the derived layers", [
        new("name", GeoPackageType.Text, Required: true), new("value", GeoPackageType.Text)]);

    /// <summary>The journal: entries as the bytes that were hashed, and the chain's hash after each.</summary>
    public static GeoPackageTable Journal { get; } = new("journal", "Journal", "Only ever appended to; hash is SHA-256 of the hash before and the entry", [
        new("entry", GeoPackageType.Text, Required: true), new("hash", GeoPackageType.Blob, Required: true)]);

    /// <summary>Files as they were taken in or adopted, byte for byte.</summary>
    public static GeoPackageTable Files { get; } = new("files", "Files", "Files as they were taken in or adopted, byte for byte", [
        new("sha256", GeoPackageType.Text, Required: true), new("name", GeoPackageType.Text), new("bytes", GeoPackageType.Blob, Required: true)]);

    /// <summary>The intakes, as the journal tells them too.</summary>
    public static GeoPackageTable Batches { get; } = new("batches", "Batches", "Intakes: one file each", [
        new("file_name", GeoPackageType.Text), new("file_sha256", GeoPackageType.Text), new("rows_sha256", GeoPackageType.Text),
        new("rows", GeoPackageType.Whole), new("crew", GeoPackageType.Text), new("declared_u_plan_m", GeoPackageType.Real),
        new("declared_u_height_m", GeoPackageType.Real), new("columns", GeoPackageType.Text)]);

    /// <summary>Text columns of raw shots that a file may lack.</summary>
    public static ImmutableArray<string> TextColumns { get; } =
        ["method", "instrument", "crew", "setup", "fix", "tilt_compensated", "seen", "photo", "note"];

    /// <summary>Numeric columns of raw shots that a file may lack.</summary>
    public static ImmutableArray<string> NumberColumns { get; } = ["pdop", "sats", "pole", "tilt", "epochs"];

    /// <summary>Raw shots, never changed.</summary>
    public static GeoPackageTable RawShots { get; } = new("raw_shots", "Raw shots", "Shots as taken in, never changed", [
        new("batch", GeoPackageType.Whole, Required: true), new("line", GeoPackageType.Whole, Required: true),
        new("shot", GeoPackageType.Text, Required: true), new("east", GeoPackageType.Real), new("north", GeoPackageType.Real),
        new("height", GeoPackageType.Real), new("code", GeoPackageType.Text), new("run", GeoPackageType.Text),
        new("leg", GeoPackageType.Whole), new("again", GeoPackageType.Whole), new("time_ticks", GeoPackageType.Whole),
        new("zone_minutes", GeoPackageType.Whole), new("u_plan", GeoPackageType.Real), new("u_height", GeoPackageType.Real),
        .. NumberColumns.Select(name => new GeoPackageColumn(name, GeoPackageType.Real)),
        .. TextColumns.Select(name => new GeoPackageColumn(name, GeoPackageType.Text)),
        new("more", GeoPackageType.Text)]);

    /// <summary>The code book in force, for other readers.</summary>
    public static GeoPackageTable CodeBook { get; } = new("code_book", "Code book", "The code book in force; limits and their source", [
        new("code", GeoPackageType.Text, Required: true), new("name", GeoPackageType.Text), new("kind", GeoPackageType.Text),
        new("service", GeoPackageType.Text), new("measured_at", GeoPackageType.Text), new("limits", GeoPackageType.Text), new("source", GeoPackageType.Text)]);

    /// <summary>Settings in force, for other readers.</summary>
    public static GeoPackageTable Settings { get; } = new("settings", "Settings", "Settings in force", [
        new("name", GeoPackageType.Text, Required: true), new("value", GeoPackageType.Text)]);

    /// <summary>Control in force, for other readers.</summary>
    public static GeoPackageTable Control { get; } = new("control", "Control", "Known points in force; metres, 1 sigma, plan radial", [
        new("point", GeoPackageType.Text, Required: true), new("east_m", GeoPackageType.Real), new("north_m", GeoPackageType.Real),
        new("height_m", GeoPackageType.Real), new("u_plan_m", GeoPackageType.Real), new("u_height_m", GeoPackageType.Real)]);

    /// <summary>Quantities as derived.</summary>
    public static GeoPackageTable Quantities { get; } = new("quantities", "Quantities", "Quantities by code with standard uncertainty and rule", [
        new("code", GeoPackageType.Text), new("pay_item", GeoPackageType.Text), new("kind", GeoPackageType.Text), new("value", GeoPackageType.Real),
        new("unit", GeoPackageType.Text), new("u", GeoPackageType.Real), new("of_which_held", GeoPackageType.Real), new("runs", GeoPackageType.Whole), new("left_out", GeoPackageType.Whole),
        new("rule", GeoPackageType.Text)]);

    /// <summary>Lengths and how they stand, as derived.</summary>
    public static GeoPackageTable Holds { get; } = new("holds", "Holds", "Each length of each run: open, held, complete or covered", [
        new("run", GeoPackageType.Text), new("from_m", GeoPackageType.Real), new("to_m", GeoPackageType.Real), new("state", GeoPackageType.Text),
        new("held_by", GeoPackageType.Text), new("journal", GeoPackageType.Whole)]);

    /// <summary>Sessions as derived.</summary>
    public static GeoPackageTable Sessions { get; } = new("sessions", "Sessions", "What the shots of each session have in common, and what check shots say of it; metres, 1 sigma, plan radial", [
        new("batch", GeoPackageType.Whole), new("crew", GeoPackageType.Text), new("instrument", GeoPackageType.Text), new("setup", GeoPackageType.Text),
        new("shots", GeoPackageType.Whole), new("check_shots", GeoPackageType.Whole), new("u_common_plan_m", GeoPackageType.Real), new("u_common_height_m", GeoPackageType.Real),
        new("misfit_east_m", GeoPackageType.Real), new("misfit_north_m", GeoPackageType.Real), new("misfit_height_m", GeoPackageType.Real)]);

    /// <summary>Instruments as derived.</summary>
    public static GeoPackageTable Instruments { get; } = new("instruments", "Instruments", "Factor on the accuracy that each instrument states, learnt from check shots", [
        new("crew", GeoPackageType.Text), new("instrument", GeoPackageType.Text), new("method", GeoPackageType.Text), new("check_shots", GeoPackageType.Whole),
        new("plan_state", GeoPackageType.Text), new("plan_factor", GeoPackageType.Real), new("plan_ratio", GeoPackageType.Real),
        new("height_state", GeoPackageType.Text), new("height_factor", GeoPackageType.Real), new("height_ratio", GeoPackageType.Real)]);

    /// <summary>Attribute tables that are derived anew.</summary>
    public static ImmutableArray<GeoPackageTable> Derived { get; } = [CodeBook, Settings, Control, Quantities, Holds, Sessions, Instruments];

    /// <summary>All attribute tables.</summary>
    public static ImmutableArray<GeoPackageTable> All { get; } = [Project, Journal, Files, Batches, RawShots, .. Derived];
}
