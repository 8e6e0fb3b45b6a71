using Lightkeel.Numerics;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Limits.Mission;

/// <summary>A boost straight along the beam axis.</summary>
/// <remarks>
/// In emission time t_s: dφ/dt_s = F(s) p(t_s) e^(−φ)/(m c), dz/dt_s = cβ/(1 − β), dt/dt_s = 1/(1 − β), dτ/dt_s = e^φ, with
/// rapidity φ, F the force on the craft over D² at the beam's nominal power and size s = s(z), p the power schedule: the
/// Doppler square D² = e^(−2φ) of the force and dτ = dt_s e^φ. With even light this is e^φ = 1 + F t_s/(m c), the closed boost (Nature 211,
/// 22 (1966), doi:10.1038/211022a0). Rest mass is constant: absorbed heat is radiated as it comes. Classical Runge-Kutta
/// steps with step doubling, cut where the spot begins to grow, at the kinks of the schedule and at the end.
/// </remarks>
public sealed class AxialBoost
{
    private const double Tolerance = 1e-11;
    private const int MostSteps = 20_000;
    private readonly double _mass;
    private readonly double _power;
    private readonly PowerSchedule _schedule;
    private readonly BeamDirector? _director;
    private readonly Func<double, double, double> _force;
    private readonly Func<double, double, double> _met;

    /// <summary>Prepares a boost.</summary>
    /// <param name="massKilograms">Rest mass, kg.</param>
    /// <param name="powerWatts">Nominal power at the source, W.</param>
    /// <param name="forceNewtons">Axial force at rest against the size of the beam over its designed size, N.</param>
    /// <param name="metFraction">Share of the power that meets the craft, against the same size.</param>
    /// <param name="schedule">Power against source time.</param>
    /// <param name="director">Where the light comes from; null for a beam that keeps its size.</param>
    public AxialBoost(
        double massKilograms,
        double powerWatts,
        Func<double, double> forceNewtons,
        Func<double, double> metFraction,
        PowerSchedule schedule,
        BeamDirector? director
    )
        : this(massKilograms, powerWatts, Anywhere(forceNewtons), Anywhere(metFraction), schedule, director) { }

    /// <summary>Prepares the boost of a craft whose shares of light change with the Doppler shift.</summary>
    /// <param name="massKilograms">Rest mass, kg.</param>
    /// <param name="powerWatts">Nominal power at the source, W.</param>
    /// <param name="forceNewtons">
    /// Axial force over the Doppler square of the irradiance against the size of the beam over its designed size and the rapidity, N.
    /// </param>
    /// <param name="metFraction">Share of the power that meets the craft, against the same two.</param>
    /// <param name="schedule">Power against source time.</param>
    /// <param name="director">Where the light comes from; null for a beam that keeps its size.</param>
    public AxialBoost(
        double massKilograms,
        double powerWatts,
        Func<double, double, double> forceNewtons,
        Func<double, double, double> metFraction,
        PowerSchedule schedule,
        BeamDirector? director
    )
    {
        ArgumentNullException.ThrowIfNull(forceNewtons);
        ArgumentNullException.ThrowIfNull(metFraction);
        ArgumentNullException.ThrowIfNull(schedule);
        _mass = Require.Positive(massKilograms);
        _power = Require.Positive(powerWatts);
        (_force, _met, _schedule, _director) = (forceNewtons, metFraction, schedule, director);
    }

    private static Func<double, double, double> Anywhere(Func<double, double> ofScale)
    {
        ArgumentNullException.ThrowIfNull(ofScale);
        return (scale, _) => ofScale(scale);
    }

    /// <summary>Flies it.</summary>
    /// <param name="startSpeedMetresPerSecond">Axial speed at the start, m/s.</param>
    /// <param name="target">What ends it.</param>
    /// <returns>The instants after each step, the start first, and why it ended.</returns>
    /// <exception cref="ArithmeticException">The steps did not reach the accuracy.</exception>
    public (IReadOnlyList<BoostInstant> Instants, BoostEnd End) Fly(
        double startSpeedMetresPerSecond,
        BoostTarget target
    )
    {
        ArgumentNullException.ThrowIfNull(target);
        Require.Positive(target.LightTimeSeconds);
        double[] y = [Math.Atanh(startSpeedMetresPerSecond / Illumination.LightSpeed), 0, 0, 0, 0, 0];
        List<BoostInstant> instants = [At(0, y)];
        double time = 0;
        double step = 1e-3 * target.LightTimeSeconds;
        for (int taken = 0; taken < MostSteps; taken++)
        {
            int piece = _schedule.PieceAt(time);
            double limit =
                piece < _schedule.BreaksSeconds.Count ? _schedule.BreaksSeconds[piece] : double.PositiveInfinity;
            double h = Math.Min(step, limit - time);
            (double[] next, double error) = Doubled(piece, time, y, h);
            if (!(error <= 1) || Array.Exists(next, v => !double.IsFinite(v)))
            {
                step = h * (double.IsFinite(error) ? Math.Max(0.1, 0.9 * Math.Pow(error, -0.2)) : 0.1);
                continue;
            }
            (double[] reached, double cut, BoostEnd? end) = CutAtEvents(piece, time, y, h, next, target);
            time = cut == h && h == limit - time ? limit : time + cut;
            y = reached;
            instants.Add(At(time, y));
            end ??= _schedule.LightOffSeconds is { } off && time >= off ? BoostEnd.LightOff : null;
            if (end is { } reason)
            {
                return (instants, reason);
            }
            step = h * Math.Min(4, 0.9 * Math.Pow(Math.Max(error, 1e-10), -0.2));
        }
        throw new ArithmeticException("The boost did not end within the step limit.");
    }

    /// <summary>Size of the beam over its designed size at a distance from the start.</summary>
    public double ScaleAt(double distanceMetres) => _director?.ScaleAt(distanceMetres) ?? 1;

    private static BoostInstant At(double sourceSeconds, double[] y) =>
        new(sourceSeconds, y[2], y[3], y[0], y[1], y[4], y[5]);

    // Where the spot begins to grow the equations have a kink: the step ends there. The targets end the boost.
    private (double[] State, double Length, BoostEnd? End) CutAtEvents(
        int piece,
        double time,
        double[] from,
        double length,
        double[] to,
        BoostTarget target
    )
    {
        (double[] State, double Length, BoostEnd? End) best = (to, length, null);
        void Cut(Func<double[], double> over, BoostEnd? end)
        {
            if (over(from) < 0 && over(best.State) >= 0)
            {
                (double low, double high) = (0, best.Length);
                for (int i = 0; i < 60 && high - low > 1e-16 * (time + high); i++)
                {
                    double middle = 0.5 * (low + high);
                    (low, high) = over(Doubled(piece, time, from, middle).State) < 0 ? (middle, high) : (low, middle);
                }
                best = (Doubled(piece, time, from, high).State, high, end);
            }
        }
        if (_director is { } director)
        {
            Cut(y => y[1] - director.HoldDistanceMetres, null);
        }
        Cut(y => y[2] - target.LightTimeSeconds, BoostEnd.Time);
        if (target.Beta is { } beta)
        {
            Cut(y => y[0] - Math.Atanh(beta), BoostEnd.Speed);
        }
        if (target.DistanceMetres is { } distance)
        {
            Cut(y => y[1] - distance, BoostEnd.Distance);
        }
        return best;
    }

    private (double[] State, double Error) Doubled(int piece, double time, double[] y, double h)
    {
        double[] once = Stepped(piece, time, y, h);
        double[] twice = Stepped(piece, time + 0.5 * h, Stepped(piece, time, y, 0.5 * h), 0.5 * h);
        double error = 0;
        for (int i = 0; i < y.Length; i++)
        {
            double difference = (twice[i] - once[i]) / 15;
            double scale = Math.Abs(twice[i]) + (i == 0 ? 1e-6 : 1e-3 * Math.Abs(twice[i] - y[i]));
            error = Math.Max(error, difference == 0 ? 0 : Math.Abs(difference) / (Tolerance * scale));
            twice[i] += difference;
        }
        return (twice, error);
    }

    private double[] Stepped(int piece, double time, double[] y, double h)
    {
        double[] k1 = Rate(piece, time, y);
        double[] k2 = Rate(piece, time + 0.5 * h, Moved(y, k1, 0.5 * h));
        double[] k3 = Rate(piece, time + 0.5 * h, Moved(y, k2, 0.5 * h));
        double[] k4 = Rate(piece, time + h, Moved(y, k3, h));
        double[] next = new double[y.Length];
        for (int i = 0; i < y.Length; i++)
        {
            next[i] = y[i] + h / 6 * (k1[i] + 2 * (k2[i] + k3[i]) + k4[i]);
        }
        return next;
    }

    private static double[] Moved(double[] y, double[] rate, double h)
    {
        double[] moved = new double[y.Length];
        for (int i = 0; i < y.Length; i++)
        {
            moved[i] = y[i] + h * rate[i];
        }
        return moved;
    }

    private double[] Rate(int piece, double time, double[] y)
    {
        double beta = Math.Tanh(y[0]);
        double power = _schedule.FactorOn(piece, time);
        double scale = ScaleAt(y[1]);
        double slow = 1 / (1 - beta);
        return
        [
            _force(scale, y[0]) * power * Math.Exp(-y[0]) / (_mass * Illumination.LightSpeed),
            Illumination.LightSpeed * beta * slow,
            slow,
            Math.Exp(y[0]),
            _power * power,
            _power * power * _met(scale, y[0]),
        ];
    }
}
