namespace Aslaid.Record;

/// <summary>Runs and points without an attribute that the client requires.</summary>
internal sealed class AttributeMissing : ICheck
{
    public string Name => "attribute-missing";

    public string Title => "Required attributes missing";

    public string Unit => "";

    public void Look(Site site, Findings found)
    {
        if (!site.Delivery.Items.Any(item => item.Required)) return;
        var (of, values) = (site.CodeMembers, new List<string>());
        foreach (var item in site.Delivery.Items)
        {
            if (!item.Required || site.Shots.Book.Find(item.Code) is not (>= 0 and var place)) continue;
            var (attribute, runs, points) = (new AttributeValues(site, item.Attribute), new List<int>(), new List<int>());
            foreach (var run in of.RunsOf(place))
            {
                values.Clear();
                attribute.AddOf(site.Runs[run], values);
                if (values.Count == 0) runs.Add(run);
            }

            foreach (var row in of.PointsOf(place))
                if (attribute.Of(row) is null) points.Add(row);
            AttributeFinding.Add(found, site, runs, points, item.Code, item.Attribute);
        }
    }

    public string Message(Finding finding) =>
        $"The delivery table requires {AttributeFinding.Attribute(finding)} of {AttributeFinding.Code(finding)}; "
        + $"{AttributeFinding.Where(finding)} {(finding.Shots.Length == 1 ? "has" : "have")} none.";

    public string Cure(Finding finding) => "Set the attribute of the run, or take the file again with a column of that name.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
