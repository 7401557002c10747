using System.Globalization;
using System.Text;
using Aslaid.Record;
using Aslaid.Testing;
using Aslaid.Workbench;

namespace Aslaid.Tests;

/// <summary>Shots with the noise that they state: 12 mm radial in plan, 15 mm in height, unless told otherwise.</summary>
internal sealed class NoisyShots(int seed, int stream, double uPlan = 0.012, double uHeight = 0.015)
{
    private readonly StringBuilder lines = new();
    private int last;

    public SeededNumbers Numbers { get; } = new(seed, stream);

    /// <summary>How many shots so far: the id of the last.</summary>
    public int Last => last;

    public NoisyShots Add(string code, string label, double east, double north, double height, string more = "")
    {
        var axis = uPlan / Math.Sqrt(2);
        lines.Append(CultureInfo.InvariantCulture,
            $"{++last} {east + axis * Numbers.Normal():F4} {north + axis * Numbers.Normal():F4} {height + uHeight * Numbers.Normal():F4} {code} {label} straight u_plan={uPlan} u_height={uHeight} {more}\n");
        return this;
    }

    public RecordInputs Inputs => ShotsOf.Lines(lines.ToString());

    /// <summary>How many of a number of sites have a finding of a check.</summary>
    public static int Sites(int count, string check, Func<int, RecordInputs> site, Func<Finding, bool>? which = null)
    {
        var with = 0;
        for (var seed = 1; seed <= count; seed++)
            if (site(seed).Find(check).Any(which ?? (_ => true))) with++;
        return with;
    }
}
