using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Sampling.Statistics;
using Lightkeel.Physics.Motion;
using Lightkeel.Studies.Archive;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Ride;

/// <summary>
/// Flies many rides as a campaign and keeps of each a line and its offset on a grid of times: memory grows neither with their
/// length nor, where there is an archive, with their number.
/// </summary>
internal sealed class RideEnsemble
{
    /// <summary>Most rides of an ensemble.</summary>
    public const long MostRides = 1_000_000;

    private const string NoTwins = "Not asked for, not finished, or the rides had no ends to compare.";

    private readonly RidePlan _plan;
    private readonly RideInput _input;
    private readonly StudyContext _context;
    private readonly double[] _times;
    private readonly RideMethod _method;
    private readonly CampaignPlan _asked;
    private readonly RowLayout _layout;
    private RideResult? _first;

    private RideEnsemble(RidePlan plan, RideInput input, long rides, StudyContext context)
    {
        (_plan, _input, _context) = (plan, input, context);
        int points = PointsOf(rides);
        double duration = plan.Model.Limits.DurationSeconds;
        _times = [.. Enumerable.Range(0, points).Select(i => duration * i / (points - 1))];
        _method = plan.Steps.Method with { RecordEverySeconds = duration / (points - 1) };
        _asked = RideCampaign.PlanOf(input, context, rides, points);
        _layout = _asked.Question.Layout;
    }

    /// <summary>Flies the rides 0 to N − 1, as far as they are not in the archive.</summary>
    public static RideEnsembleResult Fly(RidePlan plan, RideInput input, long rides, StudyContext context)
    {
        RideEnsemble ensemble = new(plan, input, rides, context);
        RowLayout layout = ensemble._layout;
        Campaign campaign = new(ensemble._asked, ensemble.FlyOne)
        {
            Failure = row => RideCampaign.FailureOf(layout, row),
        };
        return ensemble.Summarise(context.Complete(campaign));
    }

    // The grid is coarser for many rides, in few steps: an ensemble can be made larger without beginning again.
    private static int PointsOf(long rides) =>
        rides <= 100_000 ? 201
        : rides <= 300_000 ? 61
        : 21;

    // A ride that was begun is flown to its end: what is asked to stop keeps it.
    private void FlyOne(long number, Span<byte> row)
    {
        RideModel ride = _plan.Prepare((ulong)number, isScattered: true);
        if (_plan.Scatter.Count > 0 && LostAtOnce((ulong)number, ride) is { } lost)
        {
            float[] beyond = new float[_times.Length];
            Array.Fill(beyond, float.PositiveInfinity);
            RideCampaign.Write(_layout, row, lost, beyond);
            return;
        }
        RideResult flown = RidePlan.Fly(ride, _method, CancellationToken.None);
        RideCampaign.Write(_layout, row, FlownRide.Of((ulong)number, flown), OnGrid(flown));
        if (number == 0)
        {
            _first = flown;
        }
    }

    // A start drawn beyond a limit is a ride lost before it began. The design's own start beyond one is refused, as ever.
    internal static FlownRide? LostAtOnce(ulong number, RideModel ride)
    {
        RideStart s = ride.Start;
        double offset = double.Hypot(s.OffsetXMetres, s.OffsetYMetres);
        double tilt = double.Hypot(s.TiltXRadians, s.TiltYRadians);
        RideEndReason? reason =
            offset >= ride.Limits.LostAtMetres ? RideEndReason.OffBeam
            : tilt >= ride.Limits.TiltLimitRadians ? RideEndReason.TiltLimit
            : null;
        Vec3 v = s.VelocityMetresPerSecond;
        return reason is { } known
            ? new(number, RideEnding.Lost, known, 0, offset, v.Length, Math.Atan2(double.Hypot(v.X, v.Y), v.Z))
            : null;
    }

    // Largest offset within the last swing, or since the time before where that is longer, from the records and from the exact
    // largest offsets between them; infinite from a loss on, not a number where a ride that ended otherwise has none.
    private float[] OnGrid(RideResult flown)
    {
        float after = flown.Outcome.Ending == RideEnding.Lost ? float.PositiveInfinity : float.NaN;
        double end = flown.Final.TimeSeconds;
        double step = _times[1];
        float[] offsets = new float[_times.Length];
        for (int i = 0; i < offsets.Length; i++)
        {
            offsets[i] = _times[i] > end + 1e-6 * step ? after : 0;
        }
        foreach (RideRecord record in flown.Records.Concat(flown.Peaks))
        {
            int i = (int)Math.Ceiling(record.TimeSeconds / step - 1e-6);
            if (i < offsets.Length)
            {
                offsets[i] = Math.Max(offsets[i], (float)record.State.OffsetMetres);
            }
        }
        return OverLastSwing(offsets, step);
    }

    // Intervals shorter than a swing would show its phase in place of its amplitude.
    private float[] OverLastSwing(float[] offsets, double step)
    {
        int intervals = (int)Math.Clamp(Math.Ceiling(1 / (_plan.Steps.SlowestHertz * step)), 1, offsets.Length);
        float[] largest = new float[offsets.Length];
        for (int i = 0; i < offsets.Length; i++)
        {
            largest[i] = offsets[i];
            for (int k = Math.Max(0, i - intervals + 1); k < i && float.IsFinite(offsets[i]); k++)
            {
                largest[i] = Math.Max(largest[i], offsets[k]);
            }
        }
        return largest;
    }

    private RideEnsembleResult Summarise(CampaignResults rides)
    {
        if (rides.Present == 0)
        {
            throw new OperationCanceledException("No ride was finished.", _context.Cancellation);
        }
        IReadOnlyList<FlownRide> flown = rides.List((number, row) => RideCampaign.Read(_layout, number, row));
        RideCount count = RideCount.Of(flown);
        ConfidenceInterval interval = count.Interval95(rides.Present);
        EnsembleWorth? worth = rides.IsComplete
            ? new EnsembleTwins(_plan, _input, _context, _asked, _method, flown, count, _first).Fly()
            : null;
        return new()
        {
            Rides = rides.Present,
            Asked = _asked.Items,
            Held = count.Held,
            Lost = count.Lost,
            Undecided = count.Undecided,
            HeldFraction = (double)count.Held / rides.Present,
            Interval95 = [interval.Lower, interval.Upper],
            LossTimesSeconds = count.LossTimesSeconds,
            Bands = RideBandReading.Of(rides, _times, _plan.LostAtMetres),
            MaximumOffset = OffsetSpread(flown, rides.Present),
            DirectionError = count.Held == 0 ? null : DirectionSpread(flown, count.Held),
            DirectionErrorReason = count.Held == 0 ? "No ride was held." : null,
            Scatter = _plan.Scatter.Sentences,
            Flown = flown,
            LostAtMetres = _plan.LostAtMetres,
            Disturbances = RideReading.Disturbances(_plan),
            Engine = _plan.Engine.Name,
            StepTwins = worth?.Steps,
            StepTwinsReason = worth?.Steps is null ? NoTwins : null,
            ForceTwins = worth?.Forces,
            ForceTwinsReason = worth?.Forces is null ? NoTwins : null,
            Numerics =
                worth?.Numerics ?? RideReading.NoNumerics(_plan.Steps, "The ensemble was stopped before its end."),
            IsStopped = worth is null,
            AtlasNotes = _plan.AtlasNotes,
        };
    }

    private static RideOffsetSpread OffsetSpread(IEnumerable<FlownRide> flown, long rides)
    {
        double[] sorted = Sorted(flown.Select(f => f.MaximumOffsetMetres), rides);
        return new(SampleQuantile.Estimate(sorted, 0.5), SampleQuantile.Estimate(sorted, 0.95), sorted[^1]);
    }

    private static RideDirectionSpread DirectionSpread(IEnumerable<FlownRide> flown, long held)
    {
        double[] sorted = Sorted(
            flown.Where(f => f.Ending == RideEnding.Held).Select(f => f.DirectionErrorRadians),
            held
        );
        return new(SampleQuantile.Estimate(sorted, 0.5), SampleQuantile.Estimate(sorted, 0.95), sorted[^1]);
    }

    private static double[] Sorted(IEnumerable<double> values, long count)
    {
        double[] sorted = new double[count];
        int i = 0;
        foreach (double value in values)
        {
            sorted[i++] = value;
        }
        Array.Sort(sorted);
        return sorted;
    }
}
