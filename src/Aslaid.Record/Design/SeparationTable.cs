using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>How clear two services must lie of each other.</summary>
/// <param name="Service">One service, as the code book names it.</param>
/// <param name="Other">The other; may be the same.</param>
/// <param name="Alongside">Least clear distance where they run side by side, metres; null where nothing is asked.</param>
/// <param name="Crossing">Least clear distance where they cross, metres.</param>
/// <param name="PlanOnly">Whether alongside is measured in plan; else in space.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record SeparationRule(string Service, string Other, double? Alongside, double? Crossing, bool PlanOnly, string Source);

/// <summary>Clear distances by pairs of services.</summary>
public sealed class SeparationTable
{
    private readonly Dictionary<(string, string), SeparationRule> rules = [];
    private readonly HashSet<string> services = [];

    /// <summary>A table of these rules, each pair once.</summary>
    public SeparationTable(ImmutableArray<SeparationRule> rules)
    {
        Rules = rules;
        foreach (var rule in rules)
        {
            this.rules.TryAdd((rule.Service, rule.Other), rule);
            this.rules.TryAdd((rule.Other, rule.Service), rule);
            services.Add(rule.Service);
            services.Add(rule.Other);
            Most = Math.Max(Most, Math.Max(rule.Alongside ?? 0, rule.Crossing ?? 0));
        }
    }

    /// <summary>
    /// What holds where a project states nothing: 300 mm, after the 12 inches between lines of a joint trench (damage-prevention
    /// practice 2.12), and 300 mm between water and drains where they cross (22 CCR 64572 asks 1 ft). Local code prevails.
    /// </summary>
    public static SeparationTable Default { get; } = new(
    [
        .. ((string[])["power", "telecom", "water", "gas", "storm"]).SelectMany((one, place) => ((string[])["power", "telecom", "water", "gas", "storm"]).Skip(place + 1).Select(other =>
            new SeparationRule(one, other, 0.3, 0.3, false, (one, other) == ("water", "storm") ? "default: 22 CCR 64572 asks 1 ft where water crosses a drain, more alongside" : "default: 12 in of a joint trench, damage-prevention practice 2.12"))),
    ]);

    /// <summary>The rules, in the table's order.</summary>
    public ImmutableArray<SeparationRule> Rules { get; }

    /// <summary>The largest distance that any rule asks, metres.</summary>
    public double Most { get; }

    /// <summary>Whether any rule speaks of a service.</summary>
    public bool Knows(string? service) => service is not null && services.Contains(service);

    /// <summary>The rule of two services, or null.</summary>
    public SeparationRule? Find(string? service, string? other) => service is null || other is null ? null : rules.GetValueOrDefault((service, other));
}
