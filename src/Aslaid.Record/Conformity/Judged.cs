using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>A requirement, what it was asked of, and what came of it.</summary>
/// <param name="Requirement">What was asked.</param>
/// <param name="Code">Code of the run or shot.</param>
/// <param name="Run">The run concerned; null for a point.</param>
/// <param name="Shot">Row of the shot that decides.</param>
/// <param name="From">Chainage at which it begins, metres; null for a point.</param>
/// <param name="To">Chainage at which it ends, metres.</param>
/// <param name="Judgement">Value, uncertainty, limits, verdict.</param>
public sealed record Judged(IRequirement Requirement, string Code, Run? Run, int Shot, double? From, double? To, Judgement Judgement);

/// <summary>How many things a requirement was asked of, by verdict.</summary>
public readonly record struct VerdictCount(IRequirement Requirement, int Conform, int DoNotConform, int NotProven, int MethodUnfit);

/// <summary>All judgements of a record: made when somebody asks, never while it is derived.</summary>
public static class Judgements
{
    /// <summary>In order of the catalogue, then of runs, then of points.</summary>
    public static ImmutableArray<Judged> Of(AsBuiltRecord record)
    {
        var judged = ImmutableArray.CreateBuilder<Judged>();
        foreach (var requirement in RequirementCatalogue.All) requirement.Judge(record.Site, judged);
        return judged.ToImmutable();
    }

    /// <summary>How many by requirement and verdict, in order of the catalogue; a requirement that was asked of nothing is left out.</summary>
    public static ImmutableArray<VerdictCount> Count(ImmutableArray<Judged> judged) =>
    [
        .. from one in judged
           group one.Judgement.Verdict by one.Requirement into verdicts
           let count = verdicts.CountBy(verdict => verdict).ToDictionary()
           select new VerdictCount(verdicts.Key, count.GetValueOrDefault(Verdict.Conforms), count.GetValueOrDefault(Verdict.DoesNotConform),
               count.GetValueOrDefault(Verdict.NotProven), count.GetValueOrDefault(Verdict.MethodUnfit)),
    ];
}
