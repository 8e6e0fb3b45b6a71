using System.Collections.Concurrent;
using System.Numerics;
using System.Runtime.CompilerServices;
using Lightkeel.Numerics;
using Lightkeel.Numerics.Sampling.Splitting;
using Lightkeel.Numerics.Sampling.Synthesis;

namespace Lightkeel.Physics.Chance.Escape;

/// <summary>State of a reduced ride between two hops of its noise.</summary>
/// <param name="X">Place across the beam, m.</param>
/// <param name="Y">Place across the beam, m.</param>
/// <param name="VelocityX">Velocity, m/s.</param>
/// <param name="VelocityY">Velocity, m/s.</param>
/// <param name="Lineage">Branches of the noise's numbers so far; null at the start.</param>
/// <param name="PassedSeconds">When it last passed the edge outward, s; not a number while it is inside.</param>
/// <param name="LossSeconds">When it was lost, s; not a number while it is held.</param>
public readonly record struct PlanarRideState(
    double X,
    double Y,
    double VelocityX,
    double VelocityY,
    NoiseLineage? Lineage,
    double PassedSeconds,
    double LossSeconds
)
{
    /// <summary>Whether it is lost.</summary>
    public bool IsLost => !double.IsNaN(LossSeconds);
}

/// <summary>Rides of a ball in its well across the beam, with noise drawn from the spectra: fast, for many rides and rare losses.</summary>
/// <remarks>
/// The plane motion m r″ = −(1 + n) ∇U(r − ξ; width) in the full, not linearised well, kick-drift-kick with 64 steps to the
/// period at the bottom (frequency off by 4e-4). A ride is lost when it passes the edge for good: at the rim a beam that moves after the
/// craft may fetch it back, so it is flown on to <see cref="PlanarWell.OuterMetres"/>, or for three swings beyond the end of the
/// boost, and its loss is dated from where it last passed the edge. Distances are from the nominal axis. The noise is filtered up to half the rate of the steps, 32 times the frequency at the bottom, its edges a tenth of that frequency
/// wide: what lies above is met by no harmonic
/// that matters, and is left out. Ride and branch address the random numbers. Safe to share between threads.
/// </remarks>
public sealed class PlanarRides : IBranchingProcess<PlanarRideState>
{
    private const int StepsPerSwing = 64;
    private const int BranchingHop = 256;
    private const double Detail = 0.1;
    private const int TableLength = 2048;
    private const int SwingsAfter = 3;
    private readonly PlanarWell _well;
    private readonly WellNoise[] _noises;
    private readonly ShapingFilter[] _filters;
    private readonly WellStart _start;
    private readonly ulong _seed;
    private readonly double[] _pull;
    private readonly double[] _widthPull;
    private readonly double _step;
    private readonly double _duration;
    private readonly long _lastStep;
    private readonly int _hop;
    private readonly ConcurrentBag<Courses> _free = [];

    /// <summary>Prepares rides.</summary>
    /// <param name="well">The well.</param>
    /// <param name="noises">The noises.</param>
    /// <param name="start">Where the craft starts.</param>
    /// <param name="durationSeconds">Length of a ride, s.</param>
    /// <param name="seed">Seed.</param>
    /// <param name="branches">True for a splitting: the noise then comes in short hops.</param>
    public PlanarRides(
        PlanarWell well,
        IReadOnlyList<WellNoise> noises,
        WellStart start,
        double durationSeconds,
        ulong seed,
        bool branches = false
    )
    {
        ArgumentNullException.ThrowIfNull(well);
        ArgumentNullException.ThrowIfNull(noises);
        Require.Positive(durationSeconds);
        (_well, _noises, _start, _seed) = (well, [.. noises], start, seed);
        _step = 1 / (StepsPerSwing * well.FrequencyHertz);
        _duration = durationSeconds;
        _lastStep = (long)Math.Ceiling(durationSeconds / _step);
        _lastStep += well.OuterMetres > well.EdgeMetres ? SwingsAfter * StepsPerSwing : 0;
        _filters = [.. noises.Select(n => ShapingFilter.Of(n.Spectrum, _step, FinestOf(n, well.FrequencyHertz)))];
        int longest = _filters.Length == 0 ? 1 : _filters.Max(f => f.Taps.Length);
        // A hop may be as long as the filters reach back, where that saves work; a splitting wants short ones.
        _hop = branches
            ? BranchingHop
            : (int)BitOperations.RoundUpToPowerOf2((uint)Math.Max(2 * BranchingHop, longest));
        StepCount = (int)((_lastStep + _hop - 1) / _hop);
        double end = well.OuterMetres * well.OuterMetres;
        double[] Table(Func<double, double> slope) =>
            [
                .. Enumerable
                    .Range(0, TableLength + 2)
                    .Select(i => 2 * slope(Math.Min(end, end * i / TableLength)) / well.MassKilograms),
            ];
        _pull = Table(well.Slope);
        _widthPull = Table(well.WidthSlope);
    }

    /// <inheritdoc/>
    public int StepCount { get; }

    /// <summary>Time between steps, s.</summary>
    public double StepSeconds => _step;

    /// <summary>Flies one ride.</summary>
    /// <param name="ride">Its number.</param>
    /// <returns>When it was lost, s; null when it was held.</returns>
    public double? Fly(ulong ride)
    {
        // Far from the branches of a splitting.
        ulong branch = (1UL << 63) | ride;
        PlanarRideState state = Start(branch);
        for (int k = 0; k < StepCount && !state.IsLost && !IsOver(state, k); k++)
        {
            state = Next(state, k, branch);
        }
        return state.IsLost ? state.LossSeconds : null;
    }

    /// <inheritdoc/>
    public PlanarRideState Start(ulong branch) =>
        new(
            _start.DistanceMetres,
            0,
            _start.RadialMetresPerSecond,
            _start.TurnMetresPerSecond,
            null,
            double.NaN,
            double.NaN
        );

    /// <summary>What tells a splitting how near a ride is to its loss; null for the energy alone.</summary>
    public LossOutlook? Outlook { get; init; }

    /// <inheritdoc/>
    public double Score(in PlanarRideState state, int step)
    {
        if (state.IsLost)
        {
            return double.PositiveInfinity;
        }
        double distance = double.Hypot(state.X, state.Y);
        double radial = (state.X * state.VelocityX + state.Y * state.VelocityY) / Math.Max(distance, 1e-300);
        double turn = (state.X * state.VelocityY - state.Y * state.VelocityX) / Math.Max(distance, 1e-300);
        double speed = radial * radial + turn * turn;
        if (Outlook is { } outlook)
        {
            double left = Math.Max(0, _duration - step * _hop * _step);
            return outlook.Score(distance, radial, Math.Abs(turn), left);
        }
        double edge = _well.EdgeMetres * _well.EdgeMetres;
        double potential = _well.Potential(Math.Min(distance * distance, edge));
        return (potential + 0.5 * _well.MassKilograms * speed) / _well.DepthJoules;
    }

    /// <inheritdoc/>
    public PlanarRideState Next(in PlanarRideState state, int step, ulong branch)
    {
        if (state.IsLost || IsOver(state, step))
        {
            return state;
        }
        // What a free one holds is a cache: the answer does not depend on it.
        Courses courses = _free.TryTake(out Courses? free) ? free : new(_noises, _filters, _hop);
        NoiseLineage lineage = new(branch, state.Lineage);
        courses.Prepare(_seed, step, lineage, _step * _hop * step, _step);
        long first = (long)step * _hop;
        int count = (int)Math.Min(_hop, _lastStep - first);
        PlanarRideState next = Advance(state, courses, first, count) with { Lineage = lineage };
        _free.Add(courses);
        // Still beyond the edge at the very end.
        return first + count >= _lastStep && next.PassedSeconds <= _duration && !next.IsLost
            ? next with
            {
                LossSeconds = next.PassedSeconds,
            }
            : next;
    }

    // After the boost only a ride beyond the edge is still open.
    private bool IsOver(in PlanarRideState state, int step) =>
        (long)step * _hop * _step > _duration && !(state.PassedSeconds <= _duration);

    // Details finer than a tenth of the frequency at the bottom are shown where the spectrum says that it has them.
    private static double FinestOf(WellNoise noise, double bottomHertz)
    {
        double detail = noise.Spectrum.FinestDetailHertz;
        double usual = Detail * bottomHertz;
        return detail > 0 ? Math.Min(usual, detail) : 0.1 * usual;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private PlanarRideState Advance(PlanarRideState s, Courses courses, long first, int count)
    {
        double perCell = TableLength / (_well.OuterMetres * _well.OuterMetres);
        double edge = _well.EdgeMetres * _well.EdgeMetres;
        double outer = _well.OuterMetres * _well.OuterMetres;
        double passed = s.PassedSeconds;
        (double x, double y, double vx, double vy) = (s.X, s.Y, s.VelocityX, s.VelocityY);
        double[] shakeX = courses.ShakeX;
        double[] shakeY = courses.ShakeY;
        double[] depth = courses.Depth;
        double[] width = courses.Width;
        double half = 0.5 * _step;
        for (int j = 0; j < count; j++)
        {
            // Half drift, kick by the noise of this sample, half drift.
            x += half * vx;
            y += half * vy;
            double dx = x - shakeX[j];
            double dy = y - shakeY[j];
            double square = x * x + y * y;
            if (square < edge)
            {
                passed = double.NaN;
            }
            else
            {
                passed = double.IsNaN(passed) ? (first + j + 0.5) * _step : passed;
                if (!(square < outer))
                {
                    return passed <= _duration
                        ? s with
                        {
                            PassedSeconds = passed,
                            LossSeconds = passed,
                        }
                        : s with
                        {
                            PassedSeconds = passed,
                        };
                }
            }
            // Seen from a beam that jumped aside the craft may be beyond what is known: the pull per distance there holds on.
            double place = Math.Min((dx * dx + dy * dy) * perCell, TableLength);
            int cell = (int)place;
            double t = place - cell;
            double pull = _pull[cell] + t * (_pull[cell + 1] - _pull[cell]);
            double wider = _widthPull[cell] + t * (_widthPull[cell + 1] - _widthPull[cell]);
            double kick = -_step * ((1 + depth[j]) * pull + width[j] * wider);
            vx += kick * dx;
            vy += kick * dy;
            x += half * vx;
            y += half * vy;
        }
        return new(x, y, vx, vy, s.Lineage, passed, double.NaN);
    }

    // The noises of one hop, summed by what they do. One per thread.
    private sealed class Courses
    {
        private readonly WellNoise[] _noises;
        private readonly FilteredCourse[] _x;
        private readonly FilteredCourse?[] _y;

        public Courses(WellNoise[] noises, ShapingFilter[] filters, int hop)
        {
            _noises = noises;
            _x = [.. noises.Select((n, i) => new FilteredCourse(filters[i], hop, $"well.{n.Name}.x"))];
            _y =
            [
                .. noises.Select(
                    (n, i) =>
                        n.Action == WellAction.Shake ? new FilteredCourse(filters[i], hop, $"well.{n.Name}.y") : null
                ),
            ];
            (ShakeX, ShakeY, Depth, Width) = (new double[hop], new double[hop], new double[hop], new double[hop]);
        }

        public double[] ShakeX { get; }

        public double[] ShakeY { get; }

        public double[] Depth { get; }

        public double[] Width { get; }

        public void Prepare(ulong seed, int hop, NoiseLineage lineage, double fromSeconds, double step)
        {
            foreach (double[] sum in (ReadOnlySpan<double[]>)[ShakeX, ShakeY, Depth, Width])
            {
                Array.Clear(sum);
            }
            for (int i = 0; i < _noises.Length; i++)
            {
                _x[i].Prepare(seed, hop, lineage);
                _y[i]?.Prepare(seed, hop, lineage);
                double factor = Math.Sqrt(_noises[i].Factor);
                if (_y[i] is { } y)
                {
                    double turn = 2 * Math.PI * _noises[i].ShiftHertz;
                    for (int j = 0; j < ShakeX.Length; j++)
                    {
                        (double sin, double cos) = turn == 0 ? (0, 1) : Math.SinCos(turn * (fromSeconds + j * step));
                        ShakeX[j] += factor * (cos * _x[i].Samples[j] - sin * y.Samples[j]);
                        ShakeY[j] += factor * (sin * _x[i].Samples[j] + cos * y.Samples[j]);
                    }
                    continue;
                }
                double[] into = _noises[i].Action == WellAction.Depth ? Depth : Width;
                for (int j = 0; j < into.Length; j++)
                {
                    into[j] += factor * _x[i].Samples[j];
                }
            }
        }
    }
}
