using System.Collections.Immutable;
using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;
using Aslaid.Workbench;

namespace Aslaid.Testing;

/// <summary>The inputs of a record from an invented site, read by the readers of the program.</summary>
public static class SampleInputs
{
    /// <summary>All files of the site taken in, its control and code book adopted.</summary>
    public static RecordInputs Of(SampleSite site)
    {
        var shots = ShotTable.Empty;
        var reader = new ShotsCsvReader();
        foreach (var file in site.Shots)
        {
            var intake = reader.Read(Encoding.UTF8.GetBytes(file.Text), new(file.Name, file.Crew, default), shots);
            shots = intake.Shots ?? throw new InvalidOperationException(string.Join('\n', intake.Rejected.Select(rejection => rejection.Message(file.Name))));
        }

        return new(shots, [], Adoptions.Codes("codes.csv", Encoding.UTF8.GetBytes(site.Codes)), Adoptions.Control("control.csv", Encoding.UTF8.GetBytes(site.Control)), Settings.Default);
    }
}
