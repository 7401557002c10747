namespace Aslaid.Geometry;

/// <summary>A place with its height, metres; height null where unknown.</summary>
public readonly record struct Place3(Point2 At, double? Height)
{
    /// <summary>Place and height, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"{At} H {Height:0.0000}");
}

/// <summary>How a constructed place answers to a move of one place it rests on: metres per metre.</summary>
/// <param name="ByEast">Its move in plan when that place moves a metre east.</param>
/// <param name="ByNorth">The same for a metre north.</param>
/// <param name="HeightByEast">How it rises then.</param>
/// <param name="HeightByNorth">The same for a metre north.</param>
/// <param name="HeightByHeight">How it rises when that place rises a metre.</param>
public readonly record struct PlaceAnswer(Step ByEast, Step ByNorth, double HeightByEast, double HeightByNorth, double HeightByHeight)
{
    /// <summary>All of it, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"east {ByEast} {HeightByEast:0.0000}, north {ByNorth} {HeightByNorth:0.0000}, height {HeightByHeight:0.0000}");

    /// <summary>It moves as that place does.</summary>
    public static PlaceAnswer Same { get; } = new(new(1, 0), new(0, 1), 0, 0, 1);
}

/// <summary>How a constructed place answers to one reading: metres per metre, or per radian.</summary>
/// <param name="Plan">Its move in plan.</param>
/// <param name="Height">How it rises.</param>
public readonly record struct ReadingAnswer(Step Plan, double Height)
{
    /// <summary>Both, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"{Plan} {Height:0.0000}");
}

/// <summary>A constructed place, and how it answers to the places and readings that it was made from, in their order.</summary>
public sealed record ConstructedPlace(Point2 At, double? Height, PlaceAnswer[] ByPlace, ReadingAnswer[] ByReading)
{
    /// <summary>Place and height, whatever the culture.</summary>
    public override string ToString() => FormattableString.Invariant($"{At} H {Height:0.0000}");
}

/// <summary>Why a place cannot be constructed.</summary>
public enum ConstructionFault
{
    /// <summary>It can.</summary>
    None,

    /// <summary>Two of the places are one.</summary>
    OnePlace,

    /// <summary>The two distances do not reach each other, or one lies within the other.</summary>
    NoMeeting,

    /// <summary>Both lines, or both distances, run so nearly the same way that nothing tells where they meet.</summary>
    NearlyInLine,
}
