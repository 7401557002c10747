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
        return Finished(site.Frame, site.Files, ShotsForm.Usual(decimals), []);
    }

    /// <summary>The files of the first day alone, everything right.</summary>
    public static SampleSite FirstDay(int seed, int decimals = 3)
    {
        var site = new Interchange(seed);
        site.Shoot(() => { });
        return Finished(site.Frame, [site.NorthFirst, site.SouthFirst], ShotsForm.Usual(decimals), []);
    }

    /// <summary>Names of all checks for which a mistake can be seeded.</summary>
    public static ImmutableArray<string> AllMistakes => SiteMistakes.Names;

    /// <summary>The whole site with every mistake, each in its own place.</summary>
    public static SampleSite WithMistakes(int seed, int decimals = 3) => Spoilt(seed, SiteMistakes.Names, 2, decimals);

    /// <summary>The whole site with one mistake.</summary>
    /// <param name="check">One of <see cref="AllMistakes"/>.</param>
    /// <param name="size">How far it goes: by about this factor beyond the default code book's limit, or from what is good
    /// practice; 1 is at the limit. <c>radius-too-uncertain</c> stays a proven arc up to 3. Where nothing has a size, it does nothing.</param>
#pragma warning disable CA1720 // a single mistake, not a number; beside WithMistakes nobody reads it as one
    public static SampleSite Single(int seed, string check, double size = 2) => Spoilt(seed, [check], size, 3);
#pragma warning restore CA1720

    private static SampleSite Spoilt(int seed, ImmutableArray<string> checks, double size, int decimals)
    {
        var site = new Interchange(seed);
        var mistakes = new SiteMistakes(site, size);
        site.Shoot(() =>
        {
            foreach (var check in checks)
                mistakes.MakeOnSite(check);
        });
        foreach (var check in checks)
            mistakes.MakeAfterwards(check);
        return Finished(site.Frame, site.Files, ShotsForm.Usual(decimals), mistakes.Made);
    }

    /// <summary>A small site that is right, however odd: no check may stop it.</summary>
    /// <remarks>Interleaved codes without run labels, decimal comma, a cumulative file, compensated tilt, a file without any
    /// quality (its crew would declare 5 mm in plan and 3 mm in height), repeats on control, touching cables, a drain shot
    /// upstream, a jointed pipe on a wide curve, an end that continues and one at the limit of works.</remarks>
    public static SampleSite Awkward(int seed)
    {
        var site = new AwkwardSite(seed);
        return Finished(site.Frame, site.Shoot(), [site.North, site.South], []);
    }

    /// <summary>A site with exactly so many measured shots, for speed and growth.</summary>
    /// <param name="shots">At least 100; rows that use a shot again are not counted.</param>
    /// <remarks>Runs of about 20 shots along parallel streets, a third of them with arcs, islands closed by using a shot
    /// again, up to three crews, one mistake to a hundred runs. It does not tell where each shot really was.</remarks>
    public static SampleSite OfSize(int shots, int seed, int decimals = 4)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(shots, 100);
        var site = new SiteOfSize(shots, seed, decimals);
        var files = site.Shoot();
        return new(Name, files, SiteOfSize.ControlCsv(), SampleCodes.Csv, [.. site.Truth], [.. site.Mistakes], []);
    }

    private static SampleSite Finished(SiteFrame frame, ImmutableArray<CrewFile> files, ShotsForm form, ImmutableArray<SeededMistake> mistakes) =>
        Finished(frame, [.. files.Select(f => f.Write(form))], files, mistakes);

    private static SampleSite Finished(SiteFrame frame, ImmutableArray<SampleFile> written, ImmutableArray<CrewFile> files, ImmutableArray<SeededMistake> mistakes) => new(
        Name,
        written,
        frame.ControlCsv(),
        SampleCodes.Csv,
        [.. files.SelectMany(f => f.Truth)],
        mistakes,
        [.. files.SelectMany(f => f.Rows.Where(r => !r.Again).Select(r => new TruePlace(f.Crew.Name, r.Id, r.TrueEast, r.TrueNorth, r.TrueHeight)))]);
}
