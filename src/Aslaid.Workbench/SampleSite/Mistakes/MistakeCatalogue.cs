using System.Collections.Immutable;

namespace Aslaid.Workbench;

/// <summary>All mistakes that can be made. Those of the site with every mistake come first, for each has its plot by its place.</summary>
internal static class MistakeCatalogue
{
    /// <summary>One line a mistake.</summary>
    public static ImmutableArray<IMistake> All { get; } =
    [
        new UnknownCodeMistake(),
        new IdTwiceMistake(),
        new TwoShotsOnePlaceMistake(),
        new LoneShotFarOffMistake(),
        new AccuracyOverLimitMistake(),
        new SolutionNotFixedMistake(),
        new SingleShotRunMistake(),
        new RunNotClosedMistake(),
        new NearlyClosedMistake(),
        new EndShortMistake(),
        new ArcShotNearEndMistake(),
        new RadiusOutOfRangeMistake(),
        new RadiusTooUncertainMistake(),
        new ArcNotProvenMistake(),
        new ShotsTooFarApartMistake(),
        new CodeNotChangedMistake(),
        new NoCheckShotMistake(),
        new ControlMissedMistake(),
        new ShotOnNoPathMistake(),
        new ShotsOutOfOrderMistake(),
        new NeighboursExchangedMistake(),
        new ArcNotMadeMistake(),
        new HeightMissingMistake(),
        new CoordinatesRoundedMistake(),
        new AxesSwappedMistake(),
        new FeetForMetresMistake(),
        new AnotherSiteMistake(),
        new SatellitesWeakMistake(),
        new PoleTiltedMistake(),
        new PhotoMissingMistake(),
        new ShotAfterCoveringMistake(),
        new TangentBreakMistake(),
        new CurveByChordsMistake(),
        new BendNotShotMistake(),
        new LevelJumpMistake(),
        new FallWrongMistake(),
        new PoleHeightWrongMistake(),
        new SessionShiftedMistake(),
        new HeightDatumOffMistake(),
        new ScaleOffMistake(),
        new SetupRotatedMistake(),
        new ControlDriftMistake(),
        new ControlGapMistake(),
        new AccuracyOptimisticMistake(),
        new MeasuredTwiceMistake(),
        new TooFewRepeatsMistake(),
        new MethodUnfitMistake(),
        new AttributeNotAllowedMistake(),
        new AttributeMissingMistake(),
        new LengthDiffersMistake(),
        new DesignBendMissedMistake(),
        new DesignCurveCutMistake(),
        new OffDesignMistake(),
        new PoleHeightByDesignMistake(),
        new OnOtherDesignMistake(),
        new FaceForBackMistake(),
        new ReferenceUnclearMistake(),
        new CoverTooSmallMistake(),
        new TooCloseMistake(),
        new CrossingNotMeasuredMistake(),
        new DesignNotMeasuredMistake(),
        new BuiltWithoutDesignMistake(),
        new CoverNotKnownMistake(),
    ];

    /// <summary>Names of the checks that should find them, in the same order.</summary>
    public static ImmutableArray<string> Names { get; } = [.. All.Select(mistake => mistake.Check)];

    public static IMistake Find(string check) => All.FirstOrDefault(mistake => mistake.Check == check)
        ?? throw new ArgumentException($"No mistake is called {check}.", nameof(check));
}
