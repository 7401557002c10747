using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Tests;

/// <summary>A sample site as inputs of a record, taken in as a crew's files would be.</summary>
internal static class SampleInputs
{
    public static RecordInputs Of(SampleSite site)
    {
        var shots = ShotTable.Empty;
        foreach (var file in site.Shots)
        {
            var intake = new ShotsCsvReader().Read(Encoding.UTF8.GetBytes(file.Text), new(file.Name, file.Crew, default), shots);
            Assert.Empty(intake.Rejected);
            shots = intake.Shots!;
        }

        var codes = CodeBookCsv.Read(Encoding.UTF8.GetBytes(site.Codes)).Value!;
        var control = ControlCsv.Read(Encoding.UTF8.GetBytes(site.Control)).Value!;
        return new(shots, [], codes, control.Points, Settings.Default);
    }
}
