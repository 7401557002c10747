using System.Collections.Immutable;
using System.Globalization;

namespace Aslaid.Workbench;

/// <summary>Something that differs between two records.</summary>
/// <param name="Kind">run, shot, finding or quantity.</param>
/// <param name="What">Its name.</param>
/// <param name="Text">How it differs, in words.</param>
public readonly record struct Difference(string Kind, string What, string Text);

/// <summary>What differs between two records, run by run, shot by shot, finding by finding.</summary>
public static class Comparison
{
    /// <summary>Tables hold tenths of a millimetre; what differs by less is the same, metres.</summary>
    private const double Same = 0.00015;

    /// <summary>All differences; none where both say the same.</summary>
    public static ImmutableArray<Difference> Of(Snapshot a, Snapshot b)
    {
        var found = ImmutableArray.CreateBuilder<Difference>();
        foreach (var (key, (was, stands)) in Both(a.Runs, b.Runs))
        {
            if (was is null) found.Add(new("run", key, Text($"only in the second, {stands!.Value.PlanLength:0.000} m")));
            else if (stands is null) found.Add(new("run", key, Text($"only in the first, {was.Value.PlanLength:0.000} m")));
            else
            {
                if (Math.Abs(was.Value.PlanLength - stands.Value.PlanLength) > Same) found.Add(new("run", key, Text($"{was.Value.PlanLength:0.000} m, then {stands.Value.PlanLength:0.000} m ({stands.Value.PlanLength - was.Value.PlanLength:+0.000;-0.000} m)")));
                if (was.Value.Status != stands.Value.Status) found.Add(new("run", key, $"{was.Value.Status}, then {stands.Value.Status}"));
                if (was.Value.Said != stands.Value.Said) found.Add(new("run", key, $"{was.Value.Said}; then {stands.Value.Said}"));
                if (Math.Abs(was.Value.Held - stands.Value.Held) > Same) found.Add(new("run", key, Text($"{was.Value.Held:0.000} m held, then {stands.Value.Held:0.000} m")));
            }
        }

        Shots(a, b, found);
        foreach (var (id, (was, stands)) in Texts(a.Findings, b.Findings))
        {
            if (was is null) found.Add(new("finding", id, $"new: {stands}"));
            else if (stands is null) found.Add(new("finding", id, $"gone: {was}"));
        }

        foreach (var (key, (was, stands)) in Both(a.Quantities, b.Quantities))
            if (Math.Abs((was ?? 0) - (stands ?? 0)) > Same) found.Add(new("quantity", key, Text($"{was ?? 0:0.000}, then {stands ?? 0:0.000} ({(stands ?? 0) - (was ?? 0):+0.000;-0.000})")));
        return found.ToImmutable();
    }

    private static void Shots(Snapshot a, Snapshot b, ImmutableArray<Difference>.Builder found)
    {
        foreach (var (key, was) in a.Shots.OrderBy(shot => shot.Key, StringComparer.Ordinal))
        {
            if (!b.Shots.TryGetValue(key, out var stands))
            {
                found.Add(new("shot", key, "only in the first"));
                continue;
            }

            var plan = double.Hypot(was.East - stands.East, was.North - stands.North);
            var height = Math.Abs((was.Height ?? 0) - (stands.Height ?? 0));
            if (plan > Same) found.Add(new("shot", key, Text($"moved by {plan:0.000} m in plan")));
            if (was.Height.HasValue != stands.Height.HasValue) found.Add(new("shot", key, "a height in one of both only"));
            else if (height > Same) found.Add(new("shot", key, Text($"height {was.Height:0.000} m, then {stands.Height:0.000} m")));
            if (was.Code != stands.Code) found.Add(new("shot", key, $"code {was.Code}, then {stands.Code}"));
            if (was.Used != stands.Used) found.Add(new("shot", key, stands.Used ? "counts again" : "set aside"));
        }

        foreach (var key in b.Shots.Keys.Where(key => !a.Shots.ContainsKey(key)).Order(StringComparer.Ordinal)) found.Add(new("shot", key, "only in the second"));
    }

    private static IEnumerable<(string Key, (T? Was, T? Is) Values)> Both<T>(ImmutableSortedDictionary<string, T> a, ImmutableSortedDictionary<string, T> b) where T : struct =>
        a.Keys.Union(b.Keys).Order(StringComparer.Ordinal).Select(key => (key, (a.TryGetValue(key, out var was) ? was : (T?)null, b.TryGetValue(key, out var stands) ? stands : (T?)null)));

    private static IEnumerable<(string Key, (string? Was, string? Is) Values)> Texts(ImmutableSortedDictionary<string, string> a, ImmutableSortedDictionary<string, string> b) =>
        a.Keys.Union(b.Keys).Order(StringComparer.Ordinal).Select(key => (key, (a.GetValueOrDefault(key), b.GetValueOrDefault(key))));

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
