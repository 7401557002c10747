namespace Aslaid.Exchange;

/// <summary>Which properties of a feature say what it is and what it is called, whatever their capitals.</summary>
internal static class FeatureWords
{
    /// <summary>What may say the code, in the order asked.</summary>
    public static readonly string[] Codes = ["code", "desc", "description", "layer", "type"];

    /// <summary>What may be its name.</summary>
    public static readonly string[] Names = ["name", "label", "id"];

    /// <summary>Whether a status says that it lies there already.</summary>
    public static bool IsExisting(string? status) => status is not null && (status.Equals("existing", StringComparison.OrdinalIgnoreCase) || status.Equals("abandoned", StringComparison.OrdinalIgnoreCase));
}
