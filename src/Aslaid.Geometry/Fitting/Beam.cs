namespace Aslaid.Geometry;

/// <summary>A place seen from a circle's centre, in the frame of a unit step u towards the arc's middle and v to its left.
/// The distance answers to the centre's moves by −n; <c>Side</c> and <c>Fall</c> are that, sideways and outward with the middle held.</summary>
internal readonly record struct Beam(double Reach, Step Unit, double Side, double Fall, double TangentU, double TangentV)
{
    internal static Beam Of(Step outward, Step u, Step v)
    {
        var reach = outward.Size;
        var n = 1 / reach * outward;
        var side = n.Dot(v);
        var fore = n.Dot(u);
        var fall = fore > 0 ? side * side / (1 + fore) : 1 - fore; // 1 − cos, without loss where cos is near 1
        return new(reach, n, -side, fall, n.Left.Dot(u), n.Left.Dot(v));
    }
}
