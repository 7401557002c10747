using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>Who has which role, as the journal gave them.</summary>
public static class Roles
{
    /// <summary>Roles by person; empty where none was ever given: then anybody releases.</summary>
    public static ImmutableDictionary<string, ImmutableSortedSet<string>> Of(ImmutableArray<JournalEntry> journal)
    {
        var roles = new Dictionary<string, ImmutableSortedSet<string>>(StringComparer.OrdinalIgnoreCase);
        var none = ImmutableSortedSet.Create<string>(StringComparer.OrdinalIgnoreCase);
        foreach (var entry in Replay.InForce(journal))
        {
            if (entry.What is not RoleGiven given) continue;
            var person = given.Person.Trim();
            roles[person] = given.Role.Trim().Length == 0 ? none : roles.GetValueOrDefault(person, none).Add(given.Role.Trim());
        }

        return roles.ToImmutableDictionary(StringComparer.OrdinalIgnoreCase);
    }

    /// <summary>Whether a person may release lengths of a code: where the project gives roles and the code names one, he must have it.</summary>
    public static bool MayRelease(ImmutableArray<JournalEntry> journal, CodeEntry? code, string person)
    {
        var roles = Of(journal);
        return roles.IsEmpty || code?.Releases is not { } role || roles.TryGetValue(person.Trim(), out var has) && has.Contains(role);
    }
}
