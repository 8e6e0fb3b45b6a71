using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Motion;

namespace Lightkeel.Physics.Stability.Spinning;

/// <summary>One rung: the design's start with the spin axis tilted by so much, flown by the full equations and averaged.</summary>
/// <param name="TiltRadians">Tilt of the spin axis at the start, rad.</param>
/// <param name="Ride">How the ride of the full equations ended.</param>
/// <param name="TimeSeconds">When it ended, s.</param>
/// <param name="MaximumOffsetMetres">Largest offset of that ride, m.</param>
/// <param name="Averaged">How the averaged motion from there ended.</param>
public sealed record TiltRung(
    double TiltRadians,
    RideOutcome Ride,
    double TimeSeconds,
    double MaximumOffsetMetres,
    AveragedOutcome Averaged
)
{
    /// <summary>The full ride was on its beam to the end.</summary>
    public bool IsHeld => Ride.Ending == RideEnding.Held;
}

/// <summary>Which tilts of the spin axis at the start are held.</summary>
/// <param name="Own">The rung of the design's own tilt, or of one degree where it has none.</param>
/// <param name="OwnTiltIsGiven">Whether the design gives a tilt.</param>
/// <param name="Rungs">All rungs, by tilt, the untilted one first.</param>
/// <param name="LargestHeldRadians">Largest tilt below which every ride flown was held, rad; null when not even the untilted one is, or when the rides were too short to tell.</param>
/// <param name="SmallestLostRadians">Smallest tilt that was not held, rad; null when all were.</param>
/// <param name="LargestHeldByAverageRadians">The same limit as the averaged motion gives it, rad; null as above.</param>
/// <param name="HorizonSeconds">How long each rung was flown, s.</param>
/// <param name="IsWholeRide">Whether that is the duration of the design's ride.</param>
public sealed record TiltLadderResult(
    TiltRung Own,
    bool OwnTiltIsGiven,
    IReadOnlyList<TiltRung> Rungs,
    double? LargestHeldRadians,
    double? SmallestLostRadians,
    double? LargestHeldByAverageRadians,
    double HorizonSeconds,
    bool IsWholeRide
);

/// <summary>Flies a spinning craft from a ladder of misaligned starts, in calm light.</summary>
public sealed class TiltLadder
{
    /// <summary>Tilt tried where the design states none, rad: one degree.</summary>
    public const double UsualTiltRadians = Math.PI / 180;

    private const int Steps = 6;
    private const int Halvings = 4;
    private const double RideTolerance = 1e-7;

    private readonly RideSetup _setup;
    private readonly RideStart _start;
    private readonly RideLimits _limits;
    private readonly AveragedLight _light;
    private readonly SpinningTop _top;
    private readonly int _threads;
    private readonly CancellationToken _cancellation;

    /// <summary>Prepares the ladder.</summary>
    /// <param name="setup">What rides on what, without disturbances.</param>
    /// <param name="start">The design's start.</param>
    /// <param name="limits">When a ride ends; its duration is the horizon.</param>
    /// <param name="light">The averaged light of the same craft and beam.</param>
    /// <param name="threads">How many rides may be flown at once; results do not depend on it.</param>
    /// <param name="cancellation">Asks to stop.</param>
    public TiltLadder(
        RideSetup setup,
        RideStart start,
        RideLimits limits,
        AveragedLight light,
        int threads,
        CancellationToken cancellation
    )
    {
        ArgumentNullException.ThrowIfNull(setup);
        ArgumentNullException.ThrowIfNull(start);
        (_setup, _start, _limits, _light) = (setup, start, limits, light);
        (_threads, _cancellation) = (threads, cancellation);
        _top = SpinningTop.Of(setup.Mass, start.SpinRadiansPerSecond);
    }

    /// <summary>Whether the averaged motion is flown beside; it means little, and costs much, where nutation is slower than precession.</summary>
    public bool AveragesHold { get; init; } = true;

    /// <summary>Flies the ladder: from untilted to the largest tilt in ratios of two, then halving where held meets lost.</summary>
    /// <param name="largestTiltRadians">Top of the ladder, rad.</param>
    /// <param name="isWholeRide">Whether the limits' duration is that of the design's ride.</param>
    public TiltLadderResult Climb(double largestTiltRadians, bool isWholeRide)
    {
        double given = double.Hypot(_start.TiltXRadians, _start.TiltYRadians);
        double own = given > 0 ? given : Math.Min(UsualTiltRadians, largestTiltRadians);
        double[] tilts =
        [
            0,
            .. Enumerable.Range(0, Steps).Select(k => largestTiltRadians * Math.Pow(0.5, Steps - 1 - k)),
            own,
        ];
        List<TiltRung> rungs = [.. FlyAll([.. tilts.Distinct().Order()])];
        for (int k = 0; k < Halvings; k++)
        {
            int lost = rungs.FindIndex(r => !r.IsHeld);
            if (lost < 1)
            {
                break;
            }
            rungs.Insert(lost, Fly(0.5 * (rungs[lost - 1].TiltRadians + rungs[lost].TiltRadians)));
        }
        int first = rungs.FindIndex(r => !r.IsHeld);
        return new(
            rungs.First(r => r.TiltRadians == own),
            given > 0,
            rungs,
            first == 0 ? null
                : first < 0 ? rungs[^1].TiltRadians
                : rungs[first - 1].TiltRadians,
            first < 0 ? null : rungs[first].TiltRadians,
            Predicted(rungs),
            _limits.DurationSeconds,
            isWholeRide
        );
    }

    // The averaged motion is cheap: the same ladder, with more halvings of its own.
    private double? Predicted(List<TiltRung> rungs)
    {
        int lost = rungs.FindIndex(r => r.Averaged.Ending != RideEnding.Held);
        if (lost <= 0)
        {
            return lost == 0 ? null : rungs[^1].TiltRadians;
        }
        (double low, double high) = (rungs[lost - 1].TiltRadians, rungs[lost].TiltRadians);
        for (int k = 0; k < 2; k++)
        {
            double middle = 0.5 * (low + high);
            bool held = Average(At(middle)).Ending == RideEnding.Held;
            (low, high) = held ? (middle, high) : (low, middle);
        }
        return low;
    }

    private TiltRung[] FlyAll(double[] tilts)
    {
        TiltRung[] rungs = new TiltRung[tilts.Length];
        ParallelOptions options = new() { MaxDegreeOfParallelism = _threads, CancellationToken = _cancellation };
        Parallel.For(0, tilts.Length, options, i => rungs[i] = Fly(tilts[i]));
        return rungs;
    }

    private TiltRung Fly(double tilt)
    {
        RideStart start = At(tilt);
        RideResult ride = Ride.Fly(
            _setup,
            start,
            _limits,
            new RideMethod
            {
                Tolerance = RideTolerance,
                StepLimit = 300_000,
                FindPeaks = false,
                RecordEveryStep = true,
            },
            _cancellation
        );
        _cancellation.ThrowIfCancellationRequested();
        return new(tilt, ride.Outcome, ride.Final.TimeSeconds, ride.MaximumOffsetMetres, Average(start));
    }

    private AveragedOutcome Average(RideStart start) =>
        !AveragesHold
            ? new(RideEnding.CannotContinue, 0, AveragedState.Of(start), 0)
            : AveragedMotion.Follow(_light, _top, AveragedState.Of(start), _limits, RideTolerance, _cancellation);

    /// <summary>The design's start with another tilt, in the direction of its own or about beam y.</summary>
    private RideStart At(double tilt)
    {
        double given = double.Hypot(_start.TiltXRadians, _start.TiltYRadians);
        Vec3 direction = given > 0 ? 1 / given * new Vec3(_start.TiltXRadians, _start.TiltYRadians, 0) : Vec3.UnitY;
        return _start with { TiltXRadians = tilt * direction.X, TiltYRadians = tilt * direction.Y };
    }
}
