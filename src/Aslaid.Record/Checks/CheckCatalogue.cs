using System.Collections.Immutable;

namespace Aslaid.Record;

/// <summary>All checks, in the order in which they look and report.</summary>
public static class CheckCatalogue
{
    /// <summary>One line a check.</summary>
    public static ImmutableArray<ICheck> All { get; } =
    [
        new UnknownCode(),
        new IdTwice(),
        new ValuesChanged(),
        new LoneShotFarOff(),
        new AccuracyOverLimit(),
        new MethodUnfit(),
        new SolutionNotFixed(),
        new TwoShotsOnePlace(),
        new ShotOnNoPath(),
        new ShotsOutOfOrder(),
        new LabelComesAgain(),
        new LabelOfTwoCrews(),
        new NeighboursExchanged(),
        new SingleShotRun(),
        new RunNotClosed(),
        new NearlyClosed(),
        new HoleOffered(),
        new EndShort(),
        new ConnectionMissing(),
        new InvertOutOfOrder(),
        new InvertDiffers(),
        new ConnectionDirection(),
        new ArcShotNearEnd(),
        new ArcNotProven(),
        new ArcNotMade(),
        new RadiusOutOfRange(),
        new RadiusTooUncertain(),
        new CurveByChords(),
        new BendNotShot(),
        new LevelJump(),
        new PoleHeightWrong(),
        new TangentBreak(),
        new FallWrong(),
        new ShotsTooFarApart(),
        new CodeNotChanged(),
        new NoCheckShot(),
        new ControlGap(),
        new HeightDatumOff(),
        new ScaleOff(),
        new SetupRotated(),
        new SessionShifted(),
        new ControlDrift(),
        new ControlMissed(),
        new AxesSwapped(),
        new FeetForMetres(),
        new AnotherSite(),
        new HeightMissing(),
        new CoordinatesRounded(),
        new SatellitesWeak(),
        new PoleTilted(),
        new PhotoMissing(),
        new ShotAfterCovering(),
        new AttributeMissing(),
        new AttributeNotAllowed(),
        new UpstandDiffers(),
        new LengthDiffers(),
        new AccuracyOptimistic(),
        new MeasuredTwice(),
        new TooFewRepeats(),
    ];

    /// <summary>The check of a name, or null.</summary>
    public static ICheck? Find(string name) => All.FirstOrDefault(check => check.Name == name);
}
