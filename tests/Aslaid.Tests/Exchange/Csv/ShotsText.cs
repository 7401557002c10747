using System.Globalization;
using System.Text;
using Aslaid.Exchange;
using Aslaid.Record;

namespace Aslaid.Tests;

/// <summary>Shot files as tests write them, and the two ways of reading one.</summary>
internal static class ShotsText
{
    public const string FileName = "shots.csv";

    public const string Header = "id,east,north,height,code";

    public static ShotIntake Read(string text, ShotTable? before = null, string? crew = "North") => Read(Encoding.UTF8.GetBytes(text), before, crew);

    public static ShotIntake Read(byte[] file, ShotTable? before = null, string? crew = "North") =>
        new ShotsCsvReader().Read(file, new(FileName, crew, default), before ?? ShotTable.Empty);

    public static ShotTable Taken(string text, ShotTable? before = null, string? crew = "North")
    {
        var intake = Read(text, before, crew);
        Assert.Empty(intake.Rejected.Select(r => r.Message(FileName)));
        Assert.Equal(0, intake.RejectedCount);
        return Assert.IsType<ShotTable>(intake.Shots);
    }

    public static Rejection Refused(string text, ShotTable? before = null) => Refused(Encoding.UTF8.GetBytes(text), before);

    public static Rejection Refused(byte[] file, ShotTable? before = null)
    {
        var intake = Read(file, before);
        Assert.Null(intake.Shots);
        Assert.Equal(1, intake.RejectedCount);
        return Assert.Single(intake.Rejected);
    }

    /// <summary>Runs under a culture that writes decimals with a comma, groups with a point, and has its own case rules.</summary>
    public static void UnderCulture(string name, Action work)
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(name);
            work();
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    /// <summary>Everything that a table holds, for comparison bit by bit.</summary>
    public static string Told(ShotTable shots)
    {
        var told = new StringBuilder();
        for (var row = 0; row < shots.Count; row++)
        {
            told.Append(CultureInfo.InvariantCulture, $"{shots.Key(row)} {shots.Id(row)} {shots.Again[row]} {shots.Codes[shots.Code[row]]} {shots.Labels[shots.Label[row]]} {shots.Leg[row]} {shots.Time[row]} {shots.Zone[row]}");
            foreach (var number in new[] { shots.East[row], shots.North[row], shots.Height[row], shots.UPlan[row], shots.UHeight[row] }) Put(number);
            foreach (var (name, column) in shots.NumberColumns)
            {
                told.Append(' ').Append(name);
                Put(column[row]);
            }

            foreach (var name in shots.TextColumns.Keys) told.Append(' ').Append(name).Append('=').Append(shots.Text(name, row) ?? "(none)");
            told.Append('\n');
        }

        return told.ToString();

        void Put(double number) => told.Append(' ').Append(BitConverter.DoubleToInt64Bits(number).ToString("x", CultureInfo.InvariantCulture));
    }
}
