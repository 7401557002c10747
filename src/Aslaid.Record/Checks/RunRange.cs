namespace Aslaid.Record;

/// <summary>Which length of a run rests on some of its members: from the member before to the member after.</summary>
internal static class RunRange
{
    public static (double From, double To) About(Run run, int firstMember, int lastMember) =>
        (run.Chainages[Math.Max(0, firstMember - 1)], run.Chainages[Math.Min(run.MemberCount - 1, lastMember + 1)]);
}
