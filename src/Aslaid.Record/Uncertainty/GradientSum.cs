using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Gathers the gradient of a measure shot by shot, as the chain rule brings its parts.</summary>
internal sealed class GradientSum
{
    private readonly List<ShotTerm> terms = [];

    /// <summary>The measure answers to a move of a shot in plan by this step: its unit per metre.</summary>
    public void Add(int shot, Step plan) => terms.Add(new(shot, plan.East, plan.North, 0));

    /// <summary>The measure answers to the height of a shot by this factor.</summary>
    public void AddHeight(int shot, double factor) => terms.Add(new(shot, 0, 0, factor));

    /// <summary>A measure of this value that answers as gathered.</summary>
    public ShotMeasure Of(double value) => ShotMeasure.Of(value, terms);
}
