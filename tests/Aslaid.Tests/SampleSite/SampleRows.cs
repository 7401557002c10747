using System.Globalization;
using Aslaid.Workbench;

namespace Aslaid.Tests;

/// <summary>A shot file read by plain splitting: the sample needs no quoting, and these tests no reader.</summary>
internal sealed record SampleRow(string Crew, string File, IReadOnlyDictionary<string, string> Cells)
{
    public string this[string column] => Cells.GetValueOrDefault(column, "");

    public bool Again => this["east"].Length == 0;

    public double Number(string column) => double.Parse(this[column].Replace(',', '.'), CultureInfo.InvariantCulture);

    public static IReadOnlyList<SampleRow> Of(SampleSite site) => [.. site.Shots.SelectMany(Of)];

    public static IEnumerable<SampleRow> Of(SampleFile file)
    {
        var lines = file.Text.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        var separator = lines[0].Contains(';', StringComparison.Ordinal) ? ';' : ',';
        var header = lines[0].Split(separator);
        foreach (var line in lines.Skip(1))
        {
            var cells = line.Split(separator);
            Assert.Equal(header.Length, cells.Length);
            yield return new(file.Crew, file.Name, header.Zip(cells).ToDictionary(c => c.First, c => c.Second));
        }
    }
}
