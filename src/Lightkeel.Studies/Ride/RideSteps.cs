using Lightkeel.Numerics.Integration;
using Lightkeel.Physics.Chance;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Stability;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Ride;

/// <summary>The steps of a ride and the reason for them.</summary>
/// <param name="Method">The method.</param>
/// <param name="Text">The reason in words.</param>
/// <param name="SlowestHertz">Slowest linear mode that swings, Hz; where there is no trim, an estimate.</param>
internal sealed record RideSteps(RideMethod Method, string Text, double SlowestHertz)
{
    // Fourth order at a hundred steps per period leaves about 1e-7 of an amplitude per period; the convergence twin measures it.
    private const int StepsPerSwing = 100;

    // For ensembles: second order at so many steps per period costs a fifth and keeps the statistics; the twin measures its error.
    private const int StepsForSecondOrder = 200;
    private const int StepsPerNoisePeriod = 4;

    // A swing's largest offset is then met by a record to 1 %.
    private const int RecordsPerSwing = 24;
    private const int FewestRecords = 2000;
    private const int MostRecords = 200_000;

    /// <summary>Chooses the steps.</summary>
    public static RideSteps Choose(RideInput input, DesignModel model, RideModel ride, NoisePlan noise)
    {
        (double slowest, double swing) = Swings(model, ride);
        double duration = ride.Limits.DurationSeconds;
        double count = Math.Clamp(RecordsPerSwing * swing * duration, FewestRecords, MostRecords);
        RideMethod method = new()
        {
            Tolerance = input.Tolerance,
            StepLimit = input.StepLimit,
            RecordEverySeconds = input.RecordEverySeconds ?? duration / Math.Floor(count),
        };
        bool isFixed =
            input.Stepping == RideStepping.Fixed
            || (input.Stepping == RideStepping.Automatic && (noise.HighestHertz > 0 || input.StepSeconds is not null));
        return isFixed
            ? Fixed(input, method, swing, noise.HighestHertz, slowest)
            : new(
                method,
                FormattableString.Invariant(
                    $"Adaptive steps, local error at most {input.Tolerance:G3} of each variable."
                ),
                slowest
            );
    }

    private static RideSteps Fixed(RideInput input, RideMethod method, double swing, double noise, double slowest)
    {
        double forSwing = 1 / (StepsPerSwing * swing);
        double forNoise = noise > 0 ? 1 / (StepsPerNoisePeriod * noise) : double.PositiveInfinity;
        double step = input.StepSeconds ?? Math.Min(forSwing, forNoise);
        // Beyond two over the rate a composition swings itself up; half of that still tells a swing.
        if (input.StepSeconds is not null && 2 * Math.PI * swing * step > 1)
        {
            throw new InputRefusedException(
                RideOptions.Step.Written,
                FormattableString.Invariant(
                    $"steps of {step:G4} s are too long: the light can swing the craft at {swing:G4} Hz within the limits of the ride"
                ),
                FormattableString.Invariant($"give at most {1 / (2 * Math.PI * swing):G2} s, or leave the step out")
            );
        }
        string reason =
            input.StepSeconds is not null ? "as asked for"
            : forNoise < forSwing
                ? FormattableString.Invariant(
                    $"{StepsPerNoisePeriod} to the period of the fastest noise, {noise:G4} Hz"
                )
            : FormattableString.Invariant(
                $"{StepsPerSwing} to the period of the fastest swing that the light can give within the limits of the ride, {swing:G4} Hz"
            );
        bool isCheap = input.Rides is not null && noise > 0 && step * swing * StepsForSecondOrder <= 1;
        int order = input.Order ?? (isCheap ? 2 : 4);
        return new(
            method with
            {
                FixedStepSeconds = step,
                Composition = order == 2 ? CompositionScheme.Order2 : CompositionScheme.Order4,
            },
            FormattableString.Invariant($"Fixed steps of {step:G4} s, order {order}: {reason}."),
            slowest
        );
    }

    /// <summary>
    /// Slowest linear mode that swings, Hz, and the fastest rate at which the light can swing the craft or drive it off anywhere
    /// within its limits, Hz, spin of a craft that is not round added. Where no pose can be computed, both from thrust and beam size.
    /// </summary>
    private static (double Slowest, double Fastest) Swings(DesignModel model, RideModel ride)
    {
        RideSetup setup = ride.Setup;
        double spin = Math.Abs(ride.Start.SpinRadiansPerSecond) / (2 * Math.PI);
        double rough = RoughHertz(setup);
        double fastest =
            Math.Sqrt(setup.Schedule.LargestFactor)
                * LocalRates.HighestHertz(
                    setup.Mass,
                    setup.Engine,
                    ride.Limits.LostAtMetres ?? model.Beam.Profile.ExtentMetres,
                    ride.Limits.TiltLimitRadians ?? double.PositiveInfinity,
                    ride.Start.SpinRadiansPerSecond,
                    model.Craft.IsAxisymmetric && model.Beam.Profile.IsAxisymmetric
                )
            ?? rough;
        fastest += model.Craft.IsAxisymmetric ? 0 : spin;
        // No light to speak of anywhere: what moves then moves straight on.
        fastest = Math.Max(fastest, 1 / ride.Limits.DurationSeconds);
        double slowest = SlowestMode(model, ride) ?? Math.Min(rough, fastest);
        return (slowest, Math.Max(slowest, fastest));
    }

    private static double RoughHertz(RideSetup setup)
    {
        double push = Math.Max(
            2 * setup.PowerWatts / Illumination.LightSpeed,
            setup.Mass.MassKilograms * setup.GravityMetresPerSecondSquared
        );
        return Math.Sqrt(push / (setup.FeatureLengthMetres * setup.Mass.MassKilograms)) / (2 * Math.PI);
    }

    private static double? SlowestMode(DesignModel model, RideModel ride)
    {
        try
        {
            RidingAssessment assessment = RidingAssessment.Of(
                model.Craft,
                model.Beam,
                ride.Setup.Engine,
                ride.Start.SpinRadiansPerSecond,
                ride.Start.SpeedMetresPerSecond
            );
            double[] swinging = [.. assessment.Report.Modes.Select(m => m.FrequencyHertz).Where(f => f > 0)];
            return swinging.Length == 0 ? null : swinging.Min();
        }
        catch (PressureUnavailableException)
        {
            return null;
        }
    }
}
