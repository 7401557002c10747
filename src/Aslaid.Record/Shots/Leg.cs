namespace Aslaid.Record;

/// <summary>How a run reaches a shot. <c>default</c> is a straight.</summary>
public enum Leg : byte
{
    /// <summary>By a straight from the shot before.</summary>
    Straight,

    /// <summary>The shot lies on an arc between the shots about it.</summary>
    Through,

    /// <summary>A new run begins here, whatever was open.</summary>
    First,

    /// <summary>By a straight, and the run ends here.</summary>
    Last,

    /// <summary>By a straight, and from here a straight leads back to the first shot.</summary>
    Home,

    /// <summary>A point by itself, in no run.</summary>
    Alone,
}
