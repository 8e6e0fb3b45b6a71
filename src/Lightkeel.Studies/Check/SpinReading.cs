using Lightkeel.Physics.Limits;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Stability;
using Lightkeel.Physics.Stability.Spinning;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs.Sections;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Check;

/// <summary>Asks for the truth about a spinning craft and writes it down.</summary>
internal static class SpinReading
{
    // Rides tell outcomes; more accuracy than this changes none.
    private const double CoarsestAccuracy = 1e-6;

    // Curves and circular motions are read to a few digits.
    private const double AverageAccuracy = 1e-7;

    /// <summary>The section, or why there is none.</summary>
    public static (CheckedSpin? Spin, string? Reason) Of(
        CheckInput input,
        RidingAssessment assessment,
        StudyContext context
    )
    {
        DesignModel model = input.Design.Model;
        if (model.Design.Start.SpinRadiansPerSecond == 0)
        {
            return (null, "The craft does not spin.");
        }
        if (!input.WithSpin)
        {
            return (null, "Not asked for.");
        }
        if (assessment.Engine.Name == "rays")
        {
            return (
                null,
                "Rides and averages over the spin take thousands of forces, and rays are too slow for them; light bounces more than once here."
            );
        }
        try
        {
            IPressureEngine engine = EngineChoice.Build(
                input.Engine,
                model,
                Math.Max(context.Accuracy, CoarsestAccuracy)
            );
            RideModel ride = RideModel.Of(model, engine);
            if (WhyNoRide(ride) is { } none)
            {
                return (null, "No ride can back the verdict: " + none);
            }
            SpinQuestion question = new(
                model.Craft,
                model.Beam,
                EngineChoice.Build(input.Engine, model, Math.Max(context.Accuracy, AverageAccuracy)),
                ride.Setup,
                ride.Start,
                ride.Limits,
                assessment.Report.Verdict
            )
            {
                Threads = context.Threads,
                WholeRides = input.WholeRides,
            };
            context.Progress.Report("spin", 0, 1);
            SpinTruth truth = SpinTruthAnalysis.Answer(question, context.Cancellation);
            context.Progress.Report("spin", 1, 1);
            return (Written(model, assessment.Report, truth), null);
        }
        catch (PressureUnavailableException e)
        {
            return (null, "The averaged light could not be computed: " + e.Message);
        }
    }

    // A start beyond the design's own limits makes no ride; one step is enough to be told.
    private static string? WhyNoRide(RideModel ride)
    {
        try
        {
            _ = Physics.Motion.Ride.Fly(ride.Setup, ride.Start, ride.Limits, new RideMethod { StepLimit = 1 });
            return null;
        }
        catch (ArgumentException e)
        {
            int tail = e.Message.IndexOf(" (Parameter", StringComparison.Ordinal);
            return tail < 0 ? e.Message : e.Message[..tail];
        }
    }

    private static CheckedSpin Written(DesignModel model, StabilityReport report, SpinTruth truth)
    {
        TiltLadderResult ladder = truth.Ladder;
        const string TooShort = "The rides were cut before the craft could swing once across the beam.";
        bool isShort = ladder.LargestHeldRadians is null && ladder.Rungs[0].IsHeld;
        string? notEvenStraight =
            ladder.LargestHeldRadians is not null ? null
            : isShort ? TooShort
            : "Not even the untilted start is held.";
        double tilt = ladder.Own.TiltRadians;
        CircularTrim? own = truth.DisplacedAt(tilt);
        CircularFamily? slow = truth.Displaced;
        string none =
            truth.FamiliesReason
            ?? "The precession of the spin axis is no motion of its own here: it has met the lateral swing.";
        (IReadOnlyList<CheckedMultiplier> multipliers, string floquet) = Floquet(report);
        return new()
        {
            Finding = Word(truth.Finding),
            Sentence = truth.Sentence,
            IsCaptured = truth.Finding == SpinFinding.Captured,
            StartTiltRadians = tilt,
            LargestHeldTiltRadians = ladder.LargestHeldRadians,
            LargestHeldTiltReason = notEvenStraight,
            SmallestLostTiltRadians = ladder.SmallestLostRadians,
            SmallestLostTiltReason = ladder.SmallestLostRadians is null ? "Every tilt flown was held." : null,
            PredictedHeldTiltRadians = ladder.LargestHeldByAverageRadians,
            PredictedHeldTiltReason =
                ladder.LargestHeldByAverageRadians is not null ? null
                : isShort ? TooShort
                : "The averaged motion loses even the untilted start.",
            HorizonSeconds = ladder.HorizonSeconds,
            IsWholeRide = ladder.IsWholeRide,
            Rungs = [.. ladder.Rungs.Select(Rung)],
            SpinPeriodSeconds = truth.Times.SpinPeriodSeconds,
            NutationPeriodSeconds = truth.Times.NutationPeriodSeconds,
            PrecessionPeriodSeconds = truth.Times.PrecessionPeriodSeconds,
            PrecessionPeriodReason = truth.Times.PrecessionPeriodSeconds is null ? "A tilt makes no torque." : null,
            LateralPeriodSeconds = truth.Times.LateralPeriodSeconds,
            LateralPeriodReason = truth.Times.LateralPeriodSeconds is null ? "An offset makes no lateral force." : null,
            RegimeText = truth.Times.Sentence,
            SidewaysSlopeNewtonsPerRadian = truth.SidewaysNewtonsPerRadian,
            AveragedForce =
            [
                .. truth.Force.Select(f => new CheckedAverage(
                    f.TiltRadians,
                    f.SidewaysNewtons,
                    f.AcrossNewtons,
                    f.ThrustNewtons,
                    f.PrecessionRadiansPerSecond
                )),
            ],
            AveragedForceText = truth.ForceEnding,
            DisplacedTrim = [.. (slow?.Trims ?? []).Select(Circle)],
            DisplacedTrimText = slow?.Ending ?? none,
            DisplacedTrimOffsetMetres = own?.OffsetMetres,
            DisplacedTrimOffsetReason =
                own is not null ? null
                : slow is null ? none
                : "At the start tilt there is no displaced trim, or it was not followed so far.",
            DisplacedTrimFoldRadians = slow?.FoldTiltRadians,
            DisplacedTrimFoldReason =
                slow?.FoldTiltRadians is not null ? null
                : slow is null ? none
                : "It does not turn back. " + slow.Ending,
            Whirls = [.. truth.Families.Select(Whirl)],
            FloquetMultipliers = multipliers,
            FloquetText = floquet,
            Film = [.. model.Design.Sails.Select((sail, i) => Film(model, sail, i))],
        };
    }

    private static string Word(SpinFinding finding) =>
        finding switch
        {
            SpinFinding.Captured => "captured",
            SpinFinding.LinearOnly => "linear-only",
            SpinFinding.LinearLeaves => "linear-leaves",
            _ => "undecided",
        };

    private static string Word(RideEnding ending) =>
        ending switch
        {
            RideEnding.Held => "held",
            RideEnding.Lost => "lost",
            _ => "not-computable",
        };

    private static CheckedRung Rung(TiltRung rung) =>
        new(
            rung.TiltRadians,
            Word(rung.Ride.Ending),
            rung.TimeSeconds,
            rung.MaximumOffsetMetres,
            Word(rung.Averaged.Ending),
            rung.Averaged.TimeSeconds,
            rung.Ride.Sentence
        );

    private static CheckedCircle Circle(CircularTrim t) =>
        new(t.TiltRadians, t.OffsetMetres, t.RateRadiansPerSecond, t.GrowthPerSecond, t.IsStable);

    private static CheckedWhirl Whirl(CircularFamily family) =>
        new(
            family.WhirlRadiansPerSecond,
            family.FoldTiltRadians,
            family.FoldTiltRadians is null ? "It does not turn back. " + family.Ending : null,
            family.StableToRadians,
            family.Ending
        );

    // In a periodic frame growth and frequency are the exponent: the multiplier is its exponential over one turn.
    private static (IReadOnlyList<CheckedMultiplier>, string) Floquet(StabilityReport report)
    {
        if (report.Frame != Physics.Stability.ModeFrame.Periodic)
        {
            return (
                [],
                "Craft or beam is the same all round, so the linear motion has constant coefficients in some axes and needs no Floquet multipliers."
            );
        }
        double period = 2 * Math.PI / Math.Abs(report.Model.SpinRadiansPerSecond);
        CheckedMultiplier[] multipliers =
        [
            .. report.Modes.Select(m => new CheckedMultiplier(
                Math.Exp(m.GrowthPerSecond * period),
                2 * Math.PI * Math.IEEERemainder(m.FrequencyHertz * period, 1),
                m.Multiplicity
            )),
        ];
        double largest = multipliers.Max(m => m.ModulusFactor);
        string grows =
            largest > 1
                ? FormattableString.Invariant(
                    $"the largest has modulus {largest:G6}, so a motion grows by that factor in every turn"
                )
                : "none is larger than one, so no motion grows from turn to turn";
        return (
            multipliers,
            $"Neither the craft nor the beam is the same all round: the linear motion is periodic over one turn, and of its Floquet multipliers {grows}."
        );
    }

    private static CheckedFilm Film(DesignModel model, SailDesign sail, int index)
    {
        SpunSail spun = SpunFilm.Of(
            model.Craft.Surfaces[index],
            model.Craft.Mass,
            sail.ArealDensityKilogramsPerSquareMetre,
            model.Design.Start.SpinRadiansPerSecond
        );
        double? tension = spun.Tension?.LargestNewtonsPerMetre;
        double? stress = tension / sail.ThicknessMetres;
        return new(
            sail.Name,
            tension,
            tension is null ? spun.Sentence : null,
            stress,
            stress is not null ? null
                : tension is null ? spun.Sentence
                : "The design gives a mass per area and no thickness; tension over thickness is the stress.",
            spun.Sentence
        );
    }
}
