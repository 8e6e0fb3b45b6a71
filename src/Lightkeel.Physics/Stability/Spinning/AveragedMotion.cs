using Lightkeel.Numerics;
using Lightkeel.Numerics.Integration;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Stability.Spinning;

/// <summary>State of the averaged motion.</summary>
/// <param name="OffsetXMetres">Offset along beam x, m.</param>
/// <param name="OffsetYMetres">Offset along beam y, m.</param>
/// <param name="VelocityXMetresPerSecond">Lateral velocity along x, m/s.</param>
/// <param name="VelocityYMetresPerSecond">Lateral velocity along y, m/s.</param>
/// <param name="AxisX">Direction of the angular momentum, beam x.</param>
/// <param name="AxisY">Direction of the angular momentum, beam y.</param>
public readonly record struct AveragedState(
    double OffsetXMetres,
    double OffsetYMetres,
    double VelocityXMetresPerSecond,
    double VelocityYMetresPerSecond,
    double AxisX,
    double AxisY
)
{
    /// <summary>Angle between angular momentum and beam, rad.</summary>
    public double TiltRadians => Math.Asin(Math.Min(1, double.Hypot(AxisX, AxisY)));

    /// <summary>The state of a start, its body axis taken as the direction of its angular momentum.</summary>
    public static AveragedState Of(RideStart start)
    {
        ArgumentNullException.ThrowIfNull(start);
        Vec3 axis = start.Attitude.ToMatrix().Column2;
        return new(
            start.OffsetXMetres,
            start.OffsetYMetres,
            start.VelocityXMetresPerSecond,
            start.VelocityYMetresPerSecond,
            axis.X,
            axis.Y
        );
    }
}

/// <summary>How an averaged motion ended.</summary>
/// <param name="Ending">Held, lost, or what stopped it.</param>
/// <param name="TimeSeconds">When, s.</param>
/// <param name="Final">The last state.</param>
/// <param name="MaximumOffsetMetres">Largest offset among the ends of steps, m.</param>
public sealed record AveragedOutcome(
    RideEnding Ending,
    double TimeSeconds,
    AveragedState Final,
    double MaximumOffsetMetres
);

/// <summary>
/// Slow motion of a fast-spinning craft: the centre of mass under the averaged force, and the angular momentum, along which
/// the body axis stays, turned by the averaged torque:
/// <code>m r'' = F(r, n)        H n' = T − (T·n) n        H = I₃W</code>
/// at constant axial speed and spin. Nutation is averaged away; what is left out is of the order of precession over nutation.
/// </summary>
/// <remarks>It serves as the prediction that rides of the full equations are held against. Pure.</remarks>
public static class AveragedMotion
{
    /// <summary>Follows the motion.</summary>
    /// <param name="light">The averaged light.</param>
    /// <param name="top">The craft.</param>
    /// <param name="start">Where it begins.</param>
    /// <param name="limits">Duration, offset and tilt that count as lost; the others are not read.</param>
    /// <param name="tolerance">Relative tolerance of a step.</param>
    /// <param name="cancellation">Looked at before every step.</param>
    public static AveragedOutcome Follow(
        AveragedLight light,
        SpinningTop top,
        AveragedState start,
        RideLimits limits,
        double tolerance = 1e-9,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(light);
        ArgumentNullException.ThrowIfNull(top);
        ArgumentNullException.ThrowIfNull(limits);
        Require.Between(tolerance, 1e-14, 1e-3);
        double lost = limits.LostAtMetres ?? double.MaxValue;
        double size = Math.Min(lost, 1e3 * top.GyrationRadiusMetres);
        double force = Math.Max(Thrust(light), double.MinValue);
        double time = Math.Min(Math.Sqrt(size * top.MassKilograms / force), limits.DurationSeconds);
        double[] absolute = [1e-3 * size, 1e-3 * size, 1e-3 * size / time, 1e-3 * size / time, 1e-3, 1e-3];
        double[] state =
        [
            start.OffsetXMetres,
            start.OffsetYMetres,
            start.VelocityXMetresPerSecond,
            start.VelocityYMetresPerSecond,
            start.AxisX,
            start.AxisY,
        ];
        double tilt = Math.Sin(Math.Min(limits.TiltLimitRadians ?? Math.PI / 2, Math.PI / 2 - 1e-3));
        Farthest farthest = new(double.Hypot(state[0], state[1]));
        RunPlan plan = new()
        {
            StartTime = 0,
            EndTime = limits.DurationSeconds,
            Tolerance = new([.. Enumerable.Repeat(tolerance, 6)], [.. absolute.Select(a => tolerance * a)]),
            StepLimit = 200_000,
            Events =
            [
                new("off beam", new Beyond(0, lost), EventDirection.Rising, EventAction.Stop),
                new("tilt limit", new Beyond(4, tilt), EventDirection.Rising, EventAction.Stop),
            ],
            Recording = Recording.EveryStep,
        };
        RunSummary summary = Integrator.Drive(
            new Equations(light, top),
            new EmbeddedRungeKutta(ButcherTableau.DormandPrince8, 6),
            plan,
            state,
            farthest,
            cancellation: cancellation
        );
        RideEnding ending = summary.Ending switch
        {
            RunEnding.ReachedEndTime => RideEnding.Held,
            RunEnding.StoppedByEvent => RideEnding.Lost,
            RunEnding.StepLimitReached => RideEnding.StepLimit,
            RunEnding.Cancelled => RideEnding.Interrupted,
            _ => RideEnding.CannotContinue,
        };
        AveragedState final = new(state[0], state[1], state[2], state[3], state[4], state[5]);
        return new(ending, summary.EndTime, final, farthest.OffsetMetres);
    }

    private static double Thrust(AveragedLight light)
    {
        try
        {
            return Math.Abs(light.At(0, 0, 0, 0).ForceNewtons.Z);
        }
        catch (PressureUnavailableException)
        {
            return 0;
        }
    }

    private readonly struct Equations(AveragedLight light, SpinningTop top) : IRightHandSide
    {
        public void Evaluate(double time, ReadOnlySpan<double> state, Span<double> rate)
        {
            double sine = double.Hypot(state[4], state[5]);
            // A trial step may leave the sphere of directions, or number itself; the driver then takes a shorter one.
            if (!(sine < 1) || !double.IsFinite(state[0] + state[1] + state[2] + state[3]))
            {
                rate.Fill(double.NaN);
                return;
            }
            double cosine = Math.Sqrt(Math.Max(0, 1 - sine * sine));
            double perSine = sine > 0 ? Math.Atan2(sine, cosine) / sine : 1;
            try
            {
                AveragedReading r = light.At(state[0], state[1], -state[5] * perSine, state[4] * perSine);
                Vec3 axis = new(state[4], state[5], cosine);
                Vec3 across = r.TorqueNewtonMetres - Vec3.Dot(r.TorqueNewtonMetres, axis) * axis;
                (rate[0], rate[1]) = (state[2], state[3]);
                rate[2] = r.ForceNewtons.X / top.MassKilograms;
                rate[3] = r.ForceNewtons.Y / top.MassKilograms;
                rate[4] = across.X / top.AngularMomentum;
                rate[5] = across.Y / top.AngularMomentum;
            }
            catch (PressureUnavailableException)
            {
                rate.Fill(double.NaN);
            }
        }
    }

    private sealed class Beyond(int first, double limit) : IEventFunction
    {
        public double Value(double time, ReadOnlySpan<double> state) =>
            double.Hypot(state[first], state[first + 1]) - limit;
    }

    private sealed class Farthest(double first) : IRunSink
    {
        public double OffsetMetres { get; private set; } = first;

        public void Record(double time, ReadOnlySpan<double> state) =>
            OffsetMetres = Math.Max(OffsetMetres, double.Hypot(state[0], state[1]));

        public void RecordEvent(in EventOccurrence occurrence, ReadOnlySpan<double> state) => Record(0, state);
    }
}
