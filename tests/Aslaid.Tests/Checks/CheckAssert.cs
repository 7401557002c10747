using System.Globalization;
using Aslaid.Record;
using Aslaid.Testing;

namespace Aslaid.Tests;

/// <summary>What is asked of the findings of every check.</summary>
internal static class CheckAssert
{
    /// <summary>The one finding of a check: it names just these shots, in this order, and its words do not follow the culture.</summary>
    public static Finding Single(RecordInputs inputs, string check, Severity severity, params string[] shots)
    {
        var finding = Assert.Single(inputs.Find(check));
        Assert.Equal(shots, finding.ShotIds);
        Assert.Equal(severity, finding.Severity);
        var (message, cure) = (finding.Message, finding.Cure);
        Assert.All([message, cure, finding.Check.Title], text => Assert.NotEmpty(text));
        Assert.DoesNotContain("NaN", message, StringComparison.Ordinal);
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.Equal(message, finding.Message);
            Assert.Equal(cure, finding.Cure);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }

        return finding;
    }

    public static void Silent(RecordInputs inputs, string check) => Assert.Empty(inputs.Find(check).Select(finding => finding.Message));

    /// <summary>The ready correction, written to the journal, leaves nothing for the check to find.</summary>
    public static void CuredByItsCorrection(RecordInputs inputs, string check)
    {
        var finding = Assert.Single(inputs.Find(check));
        Assert.NotNull(finding.Correction);
        Silent(inputs.Then(finding.Correction), check);
    }
}
