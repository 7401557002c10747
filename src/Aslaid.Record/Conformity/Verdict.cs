namespace Aslaid.Record;

/// <summary>What a measured value with its uncertainty says about a limit (after JCGM 106).</summary>
public enum Verdict : byte
{
    /// <summary>Inside the limits by at least the guard band.</summary>
    Conforms,

    /// <summary>Beyond a limit by more than the guard band.</summary>
    DoesNotConform,

    /// <summary>The uncertainty straddles a limit, or is not known.</summary>
    NotProven,

    /// <summary>So uncertain that no value at all could be proven inside.</summary>
    MethodUnfit,
}
