namespace Aslaid.Record;

/// <summary>What lengths leave out where a run goes into or through a node, such as a chamber, whose code states its size.</summary>
internal static class NodeSizes
{
    /// <summary>Metres by member: what is left out of the leg that ends there. Zeros where lengths are counted through nodes.</summary>
    public static double[] LeftOut(Site site, Run run)
    {
        var left = new double[run.MemberCount];
        if (site.Settings.NodeLeftOutShare == 0) return left;
        for (var member = 0; member < run.MemberCount; member++)
        {
            if (site.Shots.Entry(run.Members[member]) is not { Kind: CodeKind.Point } node || (node.Width ?? node.OutsideDiameter) is not { } size) continue;
            var half = site.Settings.NodeLeftOutShare * size / 2;
            if (member > 0) left[member] += half;
            if (member + 1 < run.MemberCount) left[member + 1] += half;
        }

        for (var member = 1; member < run.MemberCount; member++) left[member] = Math.Min(left[member], run.Chainages[member] - run.Chainages[member - 1]);
        return left;
    }
}
