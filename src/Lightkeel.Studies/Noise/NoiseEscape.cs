using Lightkeel.Numerics.Sampling.Splitting;
using Lightkeel.Numerics.Sampling.Statistics;
using Lightkeel.Physics.Chance;
using Lightkeel.Physics.Chance.Escape;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Stability;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Noise;

/// <summary>The escape from the well, three ways.</summary>
/// <param name="Averaged">Stochastic averaging; null where it has no answer.</param>
/// <param name="Reason">Why there is none.</param>
/// <param name="LossTimes">Loss time of each reduced ride, s; null entries were held; empty without rides.</param>
/// <param name="Splitting">The rare loss by splitting; null where not asked for.</param>
/// <param name="FullRides">Rides of the full equations; empty without.</param>
internal sealed record NoiseEscape(
    EscapeEstimate? Averaged,
    string? Reason,
    IReadOnlyList<double?> LossTimes,
    AdaptiveSplitting? Splitting,
    IReadOnlyList<FullRide> FullRides
)
{
    private const int Cells = 128;
    private const int MostCells = 512;
    private const double Accuracy = 0.02;

    public static NoiseEscape Of(NoiseScene scene, NoiseInput input, StudyContext context)
    {
        IReadOnlyList<FullRide> full = Full(scene, input, context);
        if (scene.Well.Well is not { } well)
        {
            return new(null, scene.Well.Reason, [], null, full);
        }
        if (scene.Sources.Count == 0)
        {
            return new(null, "The design has no noise.", [], null, full);
        }
        EscapeEstimate? averaged = EscapeEstimate.Of(well, scene.WellNoises, scene.Start, Cells, context.Threads);
        for (
            int cells = 2 * Cells;
            cells <= MostCells
                && averaged is { MeanSeconds: { } mean, MeanErrorSeconds: { } error }
                && error > Accuracy * mean;
            cells *= 2
        )
        {
            averaged = EscapeEstimate.Of(well, scene.WellNoises, scene.Start, cells, context.Threads);
        }
        string? reason =
            averaged is null ? "The start lies outside the well."
            : averaged.MeanSeconds is null
                ? "The orbits do not listen to this noise all the way to the rim: in the average over orbits there is no way out."
            : null;
        IReadOnlyList<double?> times = averaged is null ? [] : Reduced(scene, well, input, context);
        AdaptiveSplitting? splitting = averaged is null ? null : Split(scene, well, averaged, input, context);
        return new(averaged, reason, times, splitting, full);
    }

    private static double?[] Reduced(NoiseScene scene, PlanarWell well, NoiseInput input, StudyContext context)
    {
        double?[] times = new double?[input.Rides];
        bool[] flown = new bool[input.Rides];
        if (input.Rides == 0)
        {
            return times;
        }
        PlanarRides rides = new(well, scene.WellNoises, scene.Start, scene.DurationSeconds, context.Seed);
        int done = 0;
        Parallel.For(
            0,
            input.Rides,
            new ParallelOptions { MaxDegreeOfParallelism = context.Threads },
            i =>
            {
                if (!context.Cancellation.IsCancellationRequested)
                {
                    times[i] = rides.Fly((ulong)i);
                    flown[i] = true;
                    context.Progress.Report("rides across the beam", Interlocked.Increment(ref done), input.Rides);
                }
            }
        );
        return [.. times.Where((_, i) => flown[i])];
    }

    private static AdaptiveSplitting? Split(
        NoiseScene scene,
        PlanarWell well,
        EscapeEstimate averaged,
        NoiseInput input,
        StudyContext context
    )
    {
        if (input.Particles == 0)
        {
            return null;
        }
        LossOutlook? outlook = averaged.MeanSeconds is null
            ? null
            : LossOutlook.Of(averaged.Fine, scene.DurationSeconds, context.Threads);
        PlanarRides rides = new(
            well,
            scene.WellNoises,
            scene.Start,
            scene.DurationSeconds,
            context.Seed,
            branches: true
        )
        {
            Outlook = outlook,
        };
        try
        {
            return AdaptiveSplitting.Estimate(
                rides,
                context.Seed,
                new(input.Particles, input.Repetitions, context.Threads),
                done => context.Progress.Report("splitting", done, input.Repetitions),
                context.Cancellation
            );
        }
        catch (OperationCanceledException)
        {
            return null;
        }
    }

    // As an ensemble of the ride study would fly them, at steps that the noise and the fastest mode ask for.
    private static FullRide[] Full(NoiseScene scene, NoiseInput input, StudyContext context)
    {
        if (input.FullRides == 0)
        {
            return [];
        }
        NoisePlan plan = NoiseModel.PlanOf(scene.Model);
        double fastest = scene.Track.SelectMany(t => t.FrequenciesHertz).DefaultIfEmpty(1).Max();
        RideMethod method = new()
        {
            FixedStepSeconds = Math.Min(
                1 / (50 * fastest),
                plan.HighestHertz > 0 ? 0.25 / plan.HighestHertz : double.PositiveInfinity
            ),
            FindPeaks = false,
        };
        FullRide?[] found = new FullRide?[input.FullRides];
        int done = 0;
        Parallel.For(
            0,
            input.FullRides,
            new ParallelOptions { MaxDegreeOfParallelism = context.Threads },
            i =>
            {
                if (context.Cancellation.IsCancellationRequested)
                {
                    return;
                }
                RideSetup setup = scene.Ride.Setup with
                {
                    Disturbance = plan.BeamOf(context.Seed, (ulong)i),
                    Imbalance = plan.ImbalanceOf(context.Seed, (ulong)i),
                };
                found[i] = DesignModel.Guarded(
                    "ride",
                    () =>
                    {
                        RideResult ride = Physics.Motion.Ride.Fly(
                            setup,
                            scene.Ride.Start,
                            scene.Ride.Limits,
                            method,
                            context.Cancellation
                        );
                        return new FullRide(ride.Outcome, ride.Final.TimeSeconds);
                    }
                );
                context.Progress.Report("full rides", Interlocked.Increment(ref done), input.FullRides);
            }
        );
        return [.. found.OfType<FullRide>().Where(r => r.Outcome.Ending != RideEnding.Interrupted)];
    }
}

/// <summary>How a ride of the full equations ended.</summary>
/// <param name="Outcome">How.</param>
/// <param name="Seconds">When, s.</param>
internal sealed record FullRide(RideOutcome Outcome, double Seconds);
