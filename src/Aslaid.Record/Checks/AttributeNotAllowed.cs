using System.Globalization;

namespace Aslaid.Record;

/// <summary>Attributes whose value the client does not take, and sizes below nothing.</summary>
internal sealed class AttributeNotAllowed : ICheck
{
    /// <summary>A value this near to a bound equals it.</summary>
    private const double Same = 1e-9;

    /// <summary>Attributes that are never below 0, whatever a delivery table says.</summary>
    private static readonly string[] Sizes = ["od_m", "wall_m", "width_m", "depth_m", "length_m", "diameter_m", "diameter_mm"];

    public string Name => "attribute-not-allowed";

    public string Title => "Attributes that are not allowed";

    public string Unit => "";

    public void Look(Site site, Findings found)
    {
        foreach (var item in site.Delivery.Items)
            if (!item.Words.IsEmpty || item.Least is not null || item.Most is not null)
                LookFor(site, found, item);
        foreach (var size in Sizes)
        {
            if (!new AttributeValues(site, size).HasColumn && !site.Runs.HasAttribute(size)) continue;
            foreach (var entry in site.Shots.Book.Entries)
                if (!site.Delivery.Items.Any(item => item.Code == entry.Code && item.Attribute == size && item.Least is not null))
                    LookFor(site, found, new(entry.Code, size, false) { Least = 0 });
        }

        foreach (var name in RunFacts.Closed)
        {
            if (!site.Runs.HasAttribute(name) && !MeansIt(site, name)) continue;
            foreach (var entry in site.Shots.Book.Entries)
                if (!site.Delivery.Items.Any(item => item.Code == entry.Code && item.Attribute == name && !item.Words.IsEmpty))
                    LookFor(site, found, new(entry.Code, name, false) { Words = RunFacts.WordsOf(name) });
        }
    }

    /// <summary>Whether a column of this name holds any of its words: a column called <c>status</c> may tell of the receiver instead.</summary>
    private static bool MeansIt(Site site, string name)
    {
        var values = new AttributeValues(site, name);
        if (!values.HasColumn) return false;
        foreach (var row in site.ShotRows)
            if (values.Of(row) is { } word && RunFacts.WordsOf(name).Contains(word)) return true;
        return false;
    }

    private static void LookFor(Site site, Findings found, DeliveryItem item)
    {
        if (site.Shots.Book.Find(item.Code) is not (>= 0 and var place)) return;
        var (attribute, runs, points, values, first) = (new AttributeValues(site, item.Attribute), new List<int>(), new List<int>(), new List<string>(), (string?)null);
        foreach (var run in site.CodeMembers.RunsOf(place))
        {
            values.Clear();
            attribute.AddOf(site.Runs[run], values);
            if (values.Find(value => !IsAllowed(item, value)) is not { } wrong) continue;
            runs.Add(run);
            first ??= wrong;
        }

        foreach (var row in site.CodeMembers.PointsOf(place))
        {
            if (attribute.Of(row) is not { } value || IsAllowed(item, value)) continue;
            points.Add(row);
            first ??= value;
        }

        AttributeFinding.Add(found, site, runs, points, item.Code, item.Attribute, $"{first}; {Wanted(item)}");
    }

    private static bool IsAllowed(DeliveryItem item, string value)
    {
        if (!item.Words.IsEmpty) return item.Words.Contains(value);
        return double.TryParse(value, NumberStyles.Float, CultureInfo.InvariantCulture, out var number)
            ? !(number < item.Least - Same) && !(number > item.Most + Same) && double.IsFinite(number)
            : item.Most is null; // words in a column of sizes are nobody's mistake until a range is asked for
    }

    private static string Wanted(DeliveryItem item) => !item.Words.IsEmpty ? $"allowed are {string.Join(", ", item.Words)}"
        : item.Most is { } most ? $"allowed is {CheckText.Number(item.Least, "0.###")} to {CheckText.Number(most, "0.###")}"
        : "a size is never below 0";

    public string Message(Finding finding) =>
        $"{AttributeFinding.Attribute(finding)} of {AttributeFinding.Code(finding)} is {AttributeFinding.Value(finding)} ({AttributeFinding.Where(finding)}).";

    public string Cure(Finding finding) => "Set the attribute right, or have the delivery table changed by who gave it.";

    public Reshoot ReshootFor(Finding finding) => Reshoot.None;
}
