using System.Collections.Immutable;
using System.IO;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Aslaid.Workbench;

/// <summary>A file of a package.</summary>
/// <param name="Name">Relative, forward slashes.</param>
/// <param name="What">What it is for.</param>
public sealed record ManifestFile(string Name, string What, long Bytes, string Sha256);

/// <summary>What a package holds and what it was made from. It names every file but itself.</summary>
/// <param name="Journal">Journal position.</param>
/// <param name="Head">Hash of the journal there.</param>
/// <param name="Rules">Revision of the rules.</param>
public sealed record Manifest(
    string Project, int Journal, string Head, DateTimeOffset MadeAt, string PreparedBy, int Rules, string Program,
    ImmutableArray<ManifestFile> Files, ImmutableArray<string> Cautions)
{
    /// <summary>Name of the manifest's file.</summary>
    public const string FileName = "manifest.json";

    private static readonly JsonSerializerOptions Options = new()
    {
        WriteIndented = true,
        NewLine = "\n",
        PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Skip,
        AllowDuplicateProperties = false, // two readers might take two values for one
    };

    /// <summary>As UTF-8.</summary>
    public byte[] Write() => JsonSerializer.SerializeToUtf8Bytes(this, Options);

    /// <summary>From UTF-8.</summary>
    /// <exception cref="ProjectException">It is no manifest.</exception>
    public static Manifest Read(byte[] bytes)
    {
        try
        {
            var manifest = JsonSerializer.Deserialize<Manifest>(bytes, Options);
            if (Lacking(manifest) is { } lacking) throw new ProjectException($"manifest.json lacks what a manifest holds: {lacking}. Fetch the package again.");
            return manifest!;
        }
        catch (JsonException wrong)
        {
            throw new ProjectException($"manifest.json is not the JSON of a manifest{(wrong.LineNumber is { } line ? $": line {line + 1} is not as expected" : "")}. Fetch the package again.", wrong);
        }
    }

    /// <summary>The first thing that JSON left out, or gave as null.</summary>
    private static string? Lacking(Manifest? manifest) => manifest switch
    {
        null => "everything",
        { Project: null } => "project",
        { Head: null } => "head",
        { PreparedBy: null } => "prepared_by",
        { Program: null } => "program",
        { Files.IsDefault: true } => "files",
        { Cautions.IsDefault: true } => "cautions",
        _ when manifest.Files.Any(file => file is null) => "a file in its list of files",
        _ when manifest.Files.Any(file => file.Name is null) => "the name of a file",
        _ when manifest.Files.FirstOrDefault(file => file.Sha256 is null) is { } file => $"the hash of {file.Name}",
        _ => null,
    };

    /// <summary>Whether a file may bear a name: relative, inside the package, without tricks.</summary>
    public static bool IsConfined(string name) =>
        name.Length is > 0 and < 200 && !System.IO.Path.IsPathRooted(name) && !name.Contains('\\', StringComparison.Ordinal) && !name.Contains(':', StringComparison.Ordinal)
        && name.Split('/').All(part => part.Length > 0 && part is not ("." or ".."));
}
