using System.Text.Json.Serialization.Metadata;
using Lightkeel.Physics.Motion;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Ride;

/// <summary>Flies the boost: six degrees of freedom, relativistic, disturbed; once, or as an ensemble.</summary>
public sealed class RideStudy : Study<RideInput, RideStudyResult>
{
    /// <inheritdoc/>
    public override StudyInfo Info { get; } =
        new("ride", "The boost, flown", "fly the boost, once or as an ensemble, with its disturbances")
        {
            Help =
                "Flies the craft from the first light to the end of the ride or to its loss, in six degrees of freedom: light pressure at the actual offset, attitude and velocity, exact relativistic motion, light-travel time, Doppler shift, spread of the beam with range, spin, gravity where the design has it. Coordinate time (the laser's frame), proper time and emission time are told apart.\n\n"
                + "The [[noise]] and [[dropout]] sections of the design disturb the ride. Noise is drawn from its spectrum with random numbers that depend on the seed, the number of the ride and the name of the noise alone: any ride can be flown again by itself, to the same bits, with --ride.\n\n"
                + "With --rides N the rides 0 to N - 1 are flown; numbers with a [[scatter]] section or --scatter differ from ride to ride. The held fraction comes with an exact (Clopper-Pearson) interval of 95 %. Pointing noise is per axis, width noise multiplies the width by the exponential of its value, imbalance is in largest radii of the craft.\n\n"
                + "A craft that is lost is a result. A ride that cannot be computed to its end, or whose ending changes with finer steps or with forces off by less than their error, ends with exit code 4; an ensemble does when its held fraction so changes out of its interval. The rest mass stays constant: absorbed heat is radiated as it comes.",
            Examples =
            [
                new("ride tern.toml", "one ride, with the design's noise"),
                new("ride tern.toml --calm --out figures", "without disturbances, with figures and tables"),
                new(
                    "ride tern.toml --rides 1000 --scatter \"start.offset.x~normal(2 cm)\" --require 'held_fraction > 0.99'",
                    "an ensemble that must be held, else exit code 3"
                ),
                new("ride tern.toml --ride 17", "ride 17 of that ensemble alone"),
            ],
            CitationKeys = ["annalen-322-891", "solar-sailing-1999"],
        };

    /// <inheritdoc/>
    public override IReadOnlyList<StudyOption> Options => RideOptions.All;

    /// <inheritdoc/>
    protected override JsonTypeInfo<RideStudyResult> ResultJson => RideJson.Default.RideStudyResult;

    /// <inheritdoc/>
    public override JsonTypeInfo ResultShapeOf(StudyRequest request) =>
        RideOptions.AsksForMany(request) ? RideJson.Default.RideEnsembleResult : RideJson.Default.SingleRideResult;

    /// <inheritdoc/>
    protected override RideInput ReadInput(StudyRequest request) => RideOptions.Read(request);

    /// <inheritdoc/>
    public override RideStudyResult Run(RideInput input, StudyContext context)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(context);
        RidePlan plan = new(input, context);
        return input.Rides is { } rides
            ? RideEnsemble.Fly(plan, input, (long)Numerics.Require.Between(rides, 1, RideEnsemble.MostRides), context)
            : FlySingle(plan, input, context);
    }

    /// <inheritdoc/>
    protected override StudyPresentation Present(RideInput input, RideStudyResult result) =>
        result switch
        {
            SingleRideResult single => SingleRidePages.Of(input, single),
            RideEnsembleResult ensemble => EnsemblePages.Of(input, ensemble),
            _ => throw new ArgumentException($"{result.GetType().Name} is no result of this study."),
        };

    private static SingleRideResult FlySingle(RidePlan plan, RideInput input, StudyContext context)
    {
        RideModel ride = plan.Prepare(input.RideNumber, input.IsScattered);
        RideMethod method = plan.Steps.Method;
        RideMethod unrecorded = method with { RecordEverySeconds = null };
        context.Progress.Report("ride", 0, 3);
        RideResult flown = RidePlan.Fly(ride, method, context.Cancellation);
        context.Progress.Report("ride", 1, 3);
        RideConvergence? convergence = plan.Compare(flown, input.RideNumber, input.IsScattered, unrecorded);
        context.Progress.Report("ride", 2, 3);
        EngineTwin? twin = plan.CompareEngine(flown, input.RideNumber, input.IsScattered, unrecorded);
        context.Progress.Report("ride", 3, 3);
        return RideReading.Single(
            plan,
            ride,
            input.RideNumber,
            flown,
            (convergence, twin),
            ResonanceTrack.Of(input.Design.Model, flown, context.Accuracy)
        );
    }
}
