using System.Runtime.ExceptionServices;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Sampling.Statistics;
using Lightkeel.Physics.Motion;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Ride;

/// <summary>Flies many rides and keeps of each a line and its offset on a grid of times: memory does not grow with their length.</summary>
internal sealed class RideEnsemble
{
    /// <summary>Most rides of an ensemble.</summary>
    public const long MostRides = 1_000_000;

    // Numbers kept for the bands, all rides together: the grid of times is as fine as this allows.
    private const long MostOffsets = 21_000_000;
    private const int FinestGrid = 201;

    private static readonly double[] Probabilities = [0.05, 0.25, 0.5, 0.75, 0.95];

    private readonly RidePlan _plan;
    private readonly StudyContext _context;
    private readonly FlownRide?[] _flown;
    private readonly double[] _times;
    private readonly float[][] _offsets;
    private readonly RideMethod _method;
    private RideResult? _first;
    private long _done;

    private RideEnsemble(RidePlan plan, int rides, StudyContext context)
    {
        (_plan, _context) = (plan, context);
        _flown = new FlownRide?[rides];
        _offsets = new float[rides][];
        int points = (int)Math.Clamp(MostOffsets / rides, 21, FinestGrid);
        double duration = plan.Model.Limits.DurationSeconds;
        _times = [.. Enumerable.Range(0, points).Select(i => duration * i / (points - 1))];
        _method = plan.Steps.Method with { RecordEverySeconds = duration / (points - 1) };
    }

    /// <summary>Flies the rides 0 to N − 1.</summary>
    public static RideEnsembleResult Fly(RidePlan plan, int rides, StudyContext context)
    {
        RideEnsemble ensemble = new(plan, rides, context);
        ParallelOptions options = new() { MaxDegreeOfParallelism = context.Threads };
        context.Progress.Report("rides", 0, rides);
        try
        {
            Parallel.For(0, rides, options, ensemble.FlyOne);
        }
        catch (AggregateException e)
        {
            // What is wrong with a ride is told as it is, not as a failure of threads.
            ExceptionDispatchInfo.Throw(e.InnerExceptions[0]);
        }
        return ensemble.Summarise();
    }

    private void FlyOne(int number)
    {
        if (_context.Cancellation.IsCancellationRequested)
        {
            return;
        }
        RideModel ride = _plan.Prepare((ulong)number, isScattered: true);
        if (_plan.Scatter.Count > 0 && LostAtOnce((ulong)number, ride) is { } lost)
        {
            _offsets[number] = new float[_times.Length];
            Array.Fill(_offsets[number], float.PositiveInfinity);
            _flown[number] = lost;
            _context.Progress.Report("rides", Interlocked.Increment(ref _done), _flown.Length);
            return;
        }
        RideResult flown = RidePlan.Fly(ride, _method, _context.Cancellation);
        if (flown.Outcome.Ending == RideEnding.Interrupted)
        {
            return;
        }
        _offsets[number] = OnGrid(flown);
        _flown[number] = FlownRide.Of((ulong)number, flown);
        if (number == 0)
        {
            _first = flown;
        }
        _context.Progress.Report("rides", Interlocked.Increment(ref _done), _flown.Length);
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

    private RideEnsembleResult Summarise()
    {
        FlownRide[] flown = [.. _flown.OfType<FlownRide>()];
        if (flown.Length == 0)
        {
            throw new OperationCanceledException("No ride was finished.", _context.Cancellation);
        }
        long held = flown.LongCount(f => f.Ending == RideEnding.Held);
        long lost = flown.LongCount(f => f.Ending == RideEnding.Lost);
        long undecided = flown.Length - held - lost;
        double[] directions =
        [
            .. flown.Where(f => f.Ending == RideEnding.Held).Select(f => f.DirectionErrorRadians).Order(),
        ];
        double[] largest = [.. flown.Select(f => f.MaximumOffsetMetres).Order()];
        return new()
        {
            Rides = flown.Length,
            Asked = _flown.Length,
            Held = held,
            Lost = lost,
            Undecided = undecided,
            HeldFraction = (double)held / flown.Length,
            Interval95 =
            [
                Proportion.ClopperPearson(held, flown.Length).Lower,
                Proportion.ClopperPearson(held + undecided, flown.Length).Upper,
            ],
            LossTimesSeconds = [.. flown.Where(f => f.Ending == RideEnding.Lost).Select(f => f.TimeSeconds)],
            Bands = Bands(),
            MaximumOffset = new(
                SampleQuantile.Estimate(largest, 0.5),
                SampleQuantile.Estimate(largest, 0.95),
                largest[^1]
            ),
            DirectionError =
                directions.Length == 0
                    ? null
                    : new(
                        SampleQuantile.Estimate(directions, 0.5),
                        SampleQuantile.Estimate(directions, 0.95),
                        directions[^1]
                    ),
            DirectionErrorReason = directions.Length == 0 ? "No ride was held." : null,
            Scatter = _plan.Scatter.Sentences,
            Flown = flown,
            LostAtMetres = _plan.LostAtMetres,
            Disturbances = RideReading.Disturbances(_plan),
            Engine = _plan.Engine.Name,
            Numerics = FirstNumerics(),
            AtlasNotes = _plan.AtlasNotes,
        };
    }

    private RideNumericsReport FirstNumerics()
    {
        // Ride 0 is missing from an ensemble that was stopped at once, and when its start was drawn beyond a limit.
        RideResult? first = _first;
        return first is null
            ? RideReading.NoNumerics(_plan.Steps, "Ride 0 was not flown to its end.")
            : RideReading.Numerics(_plan.Steps, first, Twins(first));
    }

    private (RideConvergence?, EngineTwin?) Twins(RideResult first)
    {
        RideMethod method = _method with { RecordEverySeconds = null };
        return (_plan.Compare(first, 0, isScattered: true, method), _plan.CompareEngine(first, 0, true, method));
    }

    private RideBands Bands()
    {
        float[][] rows = [.. _offsets.Where(o => o is not null)];
        List<double> times = [];
        List<double>[] bands = [.. Probabilities.Select(_ => new List<double>())];
        double[] sorted = new double[rows.Length];
        for (int i = 0; i < _times.Length; i++)
        {
            int count = 0;
            foreach (float[] row in rows)
            {
                if (!float.IsNaN(row[i]))
                {
                    sorted[count++] = Math.Min(row[i], _plan.LostAtMetres);
                }
            }
            if (count == 0)
            {
                break;
            }
            Span<double> present = sorted.AsSpan(0, count);
            present.Sort();
            times.Add(_times[i]);
            for (int p = 0; p < Probabilities.Length; p++)
            {
                bands[p].Add(SampleQuantile.Estimate(present, Probabilities[p]));
            }
        }
        return new([.. times], Probabilities, [.. bands.Select(b => b.ToArray())]);
    }
}
