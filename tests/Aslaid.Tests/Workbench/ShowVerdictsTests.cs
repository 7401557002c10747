using System.Globalization;
using System.Text.Json;

namespace Aslaid.Tests;

public sealed class ShowVerdictsTests
{
    [Fact]
    public void Show_Verdicts_ListsWhatDoesNotConformAndCountsTheRest()
    {
        using var folder = new TempFolder();
        TrenchSampleTests.Take(folder["trench.gpkg"]);
        var lines = CommandLine.Fine("show", folder["trench.gpkg"], "verdicts").Out.Split('\n');
        Assert.StartsWith("requirement", lines[0], StringComparison.Ordinal);
        Assert.Contains(lines, line => line.StartsWith("plan-accuracy", StringComparison.Ordinal) && line.Contains(" PD-1 ", StringComparison.Ordinal) && line.Contains("at most 0.050", StringComparison.Ordinal));
        Assert.Contains(lines, line => line.StartsWith("radius: 2 conform, 0 do not, 0 not proven, 0 method unfit.", StringComparison.Ordinal));
        Assert.Contains(lines, line => line.StartsWith("Check shots of trench.csv, North, from ", StringComparison.Ordinal) && line.Contains("NSSDA 95 % plan", StringComparison.Ordinal));
    }

    [Fact]
    public void Show_VerdictsAsJson_HasAllWhateverTheCulture()
    {
        using var folder = new TempFolder();
        TrenchSampleTests.Take(folder["trench.gpkg"]);
        var text = CommandLine.Fine("show", folder["trench.gpkg"], "verdicts").Out;
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.Equal(text, CommandLine.Fine("show", folder["trench.gpkg"], "verdicts").Out);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }

        using var json = JsonDocument.Parse(CommandLine.Fine("show", folder["trench.gpkg"], "verdicts", "--json").Out);
        var radius = json.RootElement.EnumerateArray().First(each => each.GetProperty("requirement").GetString() == "radius");
        Assert.Equal(Aslaid.Record.Normal.Within95 * radius.GetProperty("u").GetDouble(), radius.GetProperty("u95").GetDouble(), 1e-12);
        Assert.True(radius.GetProperty("within").GetBoolean());
        Assert.InRange(radius.GetProperty("p_conforms").GetDouble(), 0.999, 1);
    }
}
