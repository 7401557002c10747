namespace Aslaid.Record;

/// <summary>One intake: the shots of one file.</summary>
/// <param name="Number">From 1, in order of intake; 0 is that of constructed points.</param>
/// <param name="FileName">Name of the file, without its folder.</param>
/// <param name="FileSha256">Hash of the file's bytes, lower-case hexadecimal.</param>
/// <param name="FirstRow">Row of the shot table at which the batch begins.</param>
/// <param name="Count">Rows, those that use a shot again included.</param>
/// <param name="Crew">Crew of the shots that name none themselves.</param>
/// <param name="Declared">Accuracy of the shots that carry none.</param>
public sealed record Batch(
    int Number, string FileName, string FileSha256, int FirstRow, int Count, string? Crew, DeclaredAccuracy Declared)
{
    /// <summary>That of constructed points, which no file brought.</summary>
    internal static Batch Constructed { get; } = new(0, "constructed", "", 0, 0, null, default);
}

/// <summary>Accuracy that a person declares for the shots of a batch that carry none; it is marked so wherever it counts.</summary>
/// <param name="UPlan">Metres, 1 sigma, radial; null declares nothing.</param>
/// <param name="UHeight">Metres, 1 sigma; null declares nothing.</param>
public readonly record struct DeclaredAccuracy(double? UPlan, double? UHeight);
