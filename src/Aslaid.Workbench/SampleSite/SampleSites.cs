using System.Collections.Immutable;

namespace Aslaid.Workbench;

/// <summary>Makes sample sites: pure, from a seed; the same seed gives the same bytes.</summary>
/// <remarks>Coordinates carry three decimals unless told otherwise. Rounding to a millimetre adds 0.3 mm of standard
/// uncertainty that no row states; where statistics are drawn from very accurate shots, ask for four.</remarks>
public static class SampleSites
{
    private const string Name = "Marlhithe Interchange";

    /// <summary>The whole site, everything right: no check may stop it.</summary>
    public static SampleSite Clean(int seed, int decimals = 3)
    {
        var site = new Interchange(seed);
        site.Shoot(() => { });
        return Finished(site.Frame, site.Files, ShotsForm.Usual(decimals));
    }

    /// <summary>The files of the first day alone, everything right.</summary>
    public static SampleSite FirstDay(int seed, int decimals = 3)
    {
        var site = new Interchange(seed);
        site.Shoot(() => { });
        return Finished(site.Frame, [site.NorthFirst, site.SouthFirst], ShotsForm.Usual(decimals));
    }

    /// <summary>Names of all checks for which a mistake can be seeded.</summary>
    public static ImmutableArray<string> AllMistakes => MistakeCatalogue.Names;

    /// <summary>Names of those that <see cref="WithMistakes"/> has.</summary>
    public static ImmutableArray<string> MistakesTogether { get; } = [.. MistakeCatalogue.All.Where(mistake => mistake.Together).Select(mistake => mistake.Check)];

    /// <summary>What the size of a mistake means; null where it is there or not.</summary>
    /// <param name="check">One of <see cref="AllMistakes"/>.</param>
    public static MistakeScale? ScaleOf(string check) => MistakeCatalogue.Find(check).Scale;

    /// <summary>The whole site with every mistake that leaves the others alone, each in its own place.</summary>
    public static SampleSite WithMistakes(int seed, int decimals = 3) => Spoilt(seed, MistakesTogether, 2, decimals);

    /// <summary>The whole site with one mistake.</summary>
    /// <param name="check">One of <see cref="AllMistakes"/>.</param>
    /// <param name="size">How far it goes: 1 is at the default limit of its check, 2 is twice that. <c>radius-too-uncertain</c> stays
    /// a proven arc up to 3. Where nothing has a size, it does nothing.</param>
#pragma warning disable CA1720 // a single mistake, not a number; beside WithMistakes nobody reads it as one
    public static SampleSite Single(int seed, string check, double size = 2) => Spoilt(seed, [check], size, 3);
#pragma warning restore CA1720

    private static SampleSite Spoilt(int seed, ImmutableArray<string> checks, double size, int decimals)
    {
        const int plots = 20; // 46 by 15 m each, five to a row, in the yard north of the street
        var site = new Interchange(seed);
        var mistakes = checks.Select(MistakeCatalogue.Find).ToArray();
        var made = mistakes.Select(mistake => MistakeCatalogue.All.IndexOf(mistake) % plots).Select(place => new Plot(seed, size)
        {
            Frame = site.Frame,
            File = site.NorthSecond,
            Files = site.Files,
            GoingHome = site.SouthSecond,
            Lamps = site.Lamps,
            Struck = site.Frame.Marks[4],
            BesideMain = new(12, -16),
            Corner = new(6 + (46 * (place % 5)), 62 + (15 * (place / 5))),
        }).ToArray();
        site.Shoot(() =>
        {
            for (var i = 0; i < mistakes.Length; i++)
                mistakes[i].OnSite(made[i]);
        });
        for (var i = 0; i < mistakes.Length; i++)
            mistakes[i].Afterwards(made[i]);
        return Finished(site.Frame, site.Files, ShotsForm.Usual(decimals), made) is var spoilt && (checks.Length > 1 || mistakes[0].AgainstDesign) ? spoilt : spoilt with { Design = null };
    }

    /// <summary>A small site of some eighty shots, everything right or with one mistake: made by the thousand to learn what checks find.</summary>
    /// <param name="check">One of <see cref="AllMistakes"/>; null makes none.</param>
    /// <param name="size">As <see cref="Single"/> has it.</param>
    public static SampleSite Lot(int seed, string? check = null, double size = 2)
    {
        var site = new LotSite(seed);
        var mistake = check is null ? null : MistakeCatalogue.Find(check);
        var plot = new Plot(seed, size)
        {
            Frame = site.Frame,
            File = site.Afternoon,
            Files = site.Files,
            GoingHome = site.Afternoon,
            Lamps = site.Lamps,
            Struck = site.Frame.Marks[2],
            BesideMain = new(12, -16),
            Corner = new(8, 64),
        };
        site.Shoot(() => mistake?.OnSite(plot));
        mistake?.Afterwards(plot);
        return Finished(site.Frame, site.Files, ShotsForm.Usual(3), plot) is var lot && mistake is null or { AgainstDesign: true } ? lot : lot with { Design = null };
    }

    /// <summary>A small site that is right, however odd: no check may stop it.</summary>
    /// <remarks>Interleaved codes without run labels, decimal comma, a cumulative file, compensated tilt, a file without any
    /// quality (its crew would declare 5 mm in plan and 3 mm in height), repeats on control, touching cables, a drain shot
    /// upstream, a jointed pipe on a wide curve, an end that continues and one at the limit of works; and a third crew with what
    /// <see cref="OddDay"/> tells.</remarks>
    public static SampleSite Awkward(int seed)
    {
        var site = new AwkwardSite(seed);
        var day = new OddDay(seed, site.Frame);
        return Finished(site.Frame, [.. site.Shoot(), day.Shoot()], [site.North, site.South, day.File]);
    }

    /// <summary>A site with exactly so many measured shots, for speed and growth.</summary>
    /// <param name="shots">At least 100; rows that use a shot again are not counted.</param>
    /// <param name="runsToAMistake">One run among so many has a mistake; 5 makes about 1 000 mistakes in 100 000 shots.</param>
    /// <remarks>Runs of about 20 shots along parallel streets, a third of them with arcs, islands closed by using a shot
    /// again, up to three crews, one mistake to a hundred runs. It does not tell where each shot really was.</remarks>
    public static SampleSite OfSize(int shots, int seed, int decimals = 4, int runsToAMistake = 100)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(shots, 100);
        var site = new SiteOfSize(shots, seed, decimals, runsToAMistake);
        var files = site.Shoot();
        return new(Name, files, SiteOfSize.ControlCsv(), SampleCodes.Csv, [.. site.Truth], [.. site.Mistakes], []);
    }

    private static SampleSite Finished(SiteFrame frame, ImmutableArray<CrewFile> files, ShotsForm form, params ReadOnlySpan<Plot> plots)
    {
        var site = Finished(frame, [.. files.Select(f => f.Write(form))], files);
        foreach (var plot in plots)
            site = site with
            {
                Codes = plot.Codes,
                Mistakes = [.. site.Mistakes, .. plot.Made],
                Journal = [.. plot.Journal],
                Settings = plot.Settings.Count == 0 ? null : string.Join('\n', plot.Settings) + "\n",
                Delivery = plot.Delivery.Count == 0 ? null : $"code,attribute,required,allowed\n{string.Join('\n', plot.Delivery)}\n",
            };
        return site;
    }

    private static SampleSite Finished(SiteFrame frame, ImmutableArray<SampleFile> written, ImmutableArray<CrewFile> files) => new(
        Name,
        written,
        frame.ControlCsv(),
        SampleCodes.Csv,
        [.. files.SelectMany(f => f.Truth)],
        [],
        [.. files.SelectMany(f => f.Rows.Where(r => !r.Again).Select(r => new TruePlace(f.Crew.Name, r.Id, r.TrueEast, r.TrueNorth, r.TrueHeight)))])
    {
        Design = SampleDesign.Write(frame, files.SelectMany(f => f.Designed), files.SelectMany(f => f.DesignedSpots)),
    };
}
