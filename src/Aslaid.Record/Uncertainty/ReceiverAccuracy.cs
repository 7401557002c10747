namespace Aslaid.Record;

/// <summary>Whether check shots bear out the accuracy that an instrument states.</summary>
public enum StatedAccuracy : byte
{
    /// <summary>Too few check shots to tell.</summary>
    Unproven,

    /// <summary>Check shots scatter as stated.</summary>
    Proven,

    /// <summary>Read off records: no instrument, and its accuracy counts as it is stated.</summary>
    FromRecords,

    /// <summary>Check shots scatter more than stated, beyond chance.</summary>
    Optimistic,
}

/// <summary>What check shots say of the accuracy that an instrument states on one axis.</summary>
/// <param name="State">Unproven, proven or optimistic.</param>
/// <param name="Factor">On the stated accuracy.</param>
/// <param name="Ratio">Scatter of check shots over what is stated, root mean square; null without freedom.</param>
/// <param name="Freedom">Degrees of freedom.</param>
public readonly record struct LearntFactor(StatedAccuracy State, double Factor, double? Ratio, int Freedom);

/// <summary>An instrument: what one crew measures with by one method. Its stated accuracy is judged over all batches.</summary>
/// <param name="Crew">Null where not named.</param>
/// <param name="Name">Null where not named.</param>
/// <param name="Method">Null where not named.</param>
/// <param name="CheckShots">Check shots with stated accuracy.</param>
public sealed record ReceiverAccuracy(string? Crew, string? Name, string? Method, int CheckShots, LearntFactor Plan, LearntFactor Height);
