using System.Text.Json;
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

    private readonly RidePlan _plan;
    private readonly RideInput _input;
    private readonly StudyContext _context;
    private readonly double[] _times;
    private readonly RideMethod _method;
    private readonly CampaignPlan _asked;
    private readonly RowLayout _layout;
    private volatile RideResult? _first;
    private volatile RideNumericsReport? _worth;
    private int _assessing;

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
        AssessBetween();
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

    // The twins of ride 0 take as long as several rides: the thread that is free first flies them while the others go on, so that
    // no thread waits for them at the end.
    private void AssessBetween()
    {
        if (
            _first is null
            || !_context.Campaigns.MakesResult
            || !_input.WithConvergence
            || Interlocked.Exchange(ref _assessing, 1) != 0
        )
        {
            return;
        }
        try
        {
            _worth = Assess();
        }
        catch (OperationCanceledException) when (_context.Cancellation.IsCancellationRequested)
        {
            // It is asked for again when the rides are complete.
        }
    }

    // A start drawn beyond a limit is a ride lost before it began. The design's own start beyond one is refused, as ever.
    private static FlownRide? LostAtOnce(ulong number, RideModel ride)
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
        RideNumericsReport? worth = FirstNumerics(rides);
        return new()
        {
            Rides = rides.Present,
            Asked = _asked.Items,
            Held = count.Held,
            Lost = count.Lost,
            Undecided = count.Undecided,
            HeldFraction = (double)count.Held / rides.Present,
            Interval95 =
            [
                Proportion.ClopperPearson(count.Held, rides.Present).Lower,
                Proportion.ClopperPearson(count.Held + count.Undecided, rides.Present).Upper,
            ],
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
            Numerics = worth ?? RideReading.NoNumerics(_plan.Steps, "The ensemble was stopped before its end."),
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

    // Kept in the archive too: recalling an ensemble flies nothing.
    private RideNumericsReport? FirstNumerics(CampaignResults rides)
    {
        if (!rides.IsComplete)
        {
            return null;
        }
        CampaignPlan asked = RideCampaign.WorthOf(_asked, _input);
        RowLayout layout = asked.Question.Layout;
        try
        {
            CampaignResults worth = _context.Complete(
                new(asked, (_, row) => layout.Put(row, 0, JsonSerializer.Serialize(_worth ?? Assess(), ReportJson)))
            );
            return worth
                .Items((_, row) => JsonSerializer.Deserialize(layout.Text(row, 0), ReportJson))
                .FirstOrDefault();
        }
        catch (OperationCanceledException) when (_context.Cancellation.IsCancellationRequested)
        {
            return null;
        }
    }

    private static System.Text.Json.Serialization.Metadata.JsonTypeInfo<RideNumericsReport> ReportJson =>
        RideJson.Default.RideNumericsReport;

    private RideNumericsReport Assess()
    {
        RideModel ride = _plan.Prepare(0, isScattered: true);
        if (_plan.Scatter.Count > 0 && LostAtOnce(0, ride) is not null)
        {
            return RideReading.NoNumerics(_plan.Steps, "Ride 0 was lost at once: its start was drawn beyond a limit.");
        }
        RideResult first = _first ?? RidePlan.Fly(ride, _method, CancellationToken.None);
        RideMethod method = _method with { RecordEverySeconds = null };
        RideConvergence? finer = _plan.Compare(first, 0, isScattered: true, method);
        EngineTwin? twin = _plan.CompareEngine(first, 0, isScattered: true, method);
        // A comparison that was stopped must not be kept as one that was not asked for.
        _context.Cancellation.ThrowIfCancellationRequested();
        return RideReading.Numerics(_plan.Steps, first, (finer, twin));
    }
}
