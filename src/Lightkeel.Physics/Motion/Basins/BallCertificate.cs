using Lightkeel.Numerics.Scalars;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Motion.Basins;

/// <summary>Proves that starts of a ball stay on the beam, by its energy: a bound, not a sample.</summary>
/// <remarks>
/// A circle about the bottom of the well, inside the limit of loss, is taken from the measured well; the proof does not rest on
/// that measurement. Let U₀ be a rigorous lower bound of the potential on the circle (<see cref="BallPotential"/>; zero far away),
/// s(t) the light on the craft over that at the start. With the lateral celerity u, E = m u²/2 + s U obeys
/// <code>
/// dE/dτ = u·δF + u² (u·F)/(c² (γ + 1)) + (ds/dτ) U
/// </code>
/// The drag u·δF is never positive; U is never negative and s never grows, so the last term is never positive; the middle one
/// is at most 2 E d ln(γ + 1)/dτ. So E((γ₀ + 1)/(γ + 1))² never grows, and a start inside the circle with
/// E ((γ₁ + 1)/(γ₀ + 1))² below s₁ U₀, s₁ and γ₁ bounds at the end of the ride, cannot cross it. Derived here.
/// </remarks>
public sealed class BallCertificate
{
    // Second order of the lateral speed in the light on the craft, and roundings of the bounds below.
    private const double Slack = 1e-9;

    // Relative widths to which the potential on the circle is bounded, and the arcs into which it is cut in a beam that is not round.
    private const double PointTolerance = 3e-3;
    private const double ArcTolerance = 2e-2;
    private const int Arcs = 96;
    private readonly BallPotential _potential;
    private readonly double _mass;

    private BallCertificate(BallPotential potential, double mass) => (_potential, _mass) = (potential, mass);

    /// <summary>Centre of the circle, m.</summary>
    public required (double X, double Y) CenterMetres { get; init; }

    /// <summary>Radius of the circle, m.</summary>
    public required double RadiusMetres { get; init; }

    /// <summary>Bound from below of the potential on the circle, zero far from the beam, light as at the start, J.</summary>
    public required double BarrierJoules { get; init; }

    /// <summary>Share of the barrier that is left for starts after weakening light and relativistic growth.</summary>
    public required double BoostFactor { get; init; }

    /// <summary>What the proof takes for granted.</summary>
    public static IReadOnlyList<string> Assumptions { get; } =
    [
        "Assumed: a rigid ball about its centre of mass, a steady beam of exactly the stated profile and power, no noise, no gravity.",
        "Assumed: the force law to first order in the lateral speed over that of light; the force by rotation of a ball that absorbs or scatters is left out (it is nothing for a mirror).",
        "Assumed: the stated errors of exponential, logarithm, sine and cosine; all else is rounded outwards.",
    ];

    /// <summary>Prepares the proof; null, with the reason, where there is none.</summary>
    /// <param name="setup">What rides on what.</param>
    /// <param name="craft">The craft.</param>
    /// <param name="beam">The beam.</param>
    /// <param name="limits">When the ride ends.</param>
    /// <param name="circle">Circle about the bottom of the well, m.</param>
    /// <param name="speedMetresPerSecond">Axial speed at the start, m/s.</param>
    /// <param name="threads">Threads that may work at once; the result does not depend on it.</param>
    public static (BallCertificate? Certificate, string? Reason) For(
        RideSetup setup,
        SailCraft craft,
        Beam beam,
        RideLimits limits,
        (double X, double Y, double Radius) circle,
        double speedMetresPerSecond,
        int threads = 1
    )
    {
        ArgumentNullException.ThrowIfNull(setup);
        ArgumentNullException.ThrowIfNull(limits);
        ArgumentNullException.ThrowIfNull(beam);
        double doppler = Illumination.SeenFrom(new(0, 0, speedMetresPerSecond)).IrradianceFactor;
        (BallPotential? potential, string? reason) = BallPotential.For(
            craft,
            beam with
            {
                PowerWatts = doppler * beam.PowerWatts,
            }
        );
        if (potential is null)
        {
            return (null, reason);
        }
        if (Obstacle(setup, limits, circle) is { } obstacle)
        {
            return (null, obstacle);
        }
        (double weakest, double growth, double range) = Boost(setup, limits.DurationSeconds, speedMetresPerSecond);
        if (setup.Director is { } director && !(range < director.HoldDistanceMetres))
        {
            return (
                null,
                FormattableString.Invariant(
                    $"The ride may go {range:G4} m far, and the spot begins to grow at {director.HoldDistanceMetres:G4} m: the potential changes its form. Give a shorter --time."
                )
            );
        }
        double barrier = Barrier(potential, beam, circle, threads);
        return barrier > 0
            ? (
                new(potential, setup.Mass.MassKilograms)
                {
                    CenterMetres = (circle.X, circle.Y),
                    RadiusMetres = circle.Radius,
                    BarrierJoules = barrier,
                    BoostFactor = weakest / growth * (1 - Slack),
                },
                null
            )
            : (null, "The bounds of the potential on the circle about the well are too wide for a proof.");
    }

    /// <summary>Energy that is left to a start below what the circle holds, J, at least; above zero the start is proven held.</summary>
    /// <param name="start">A start.</param>
    /// <param name="potential">Upper bound of the potential at its place, J.</param>
    public double MarginJoules(RideStart start, double potential)
    {
        ArgumentNullException.ThrowIfNull(start);
        double celerity = Celerity(start);
        double energy = (0.5 * _mass * celerity * celerity + potential) * (1 + 1e-14);
        return BoostFactor * BarrierJoules - energy;
    }

    /// <summary>Upper bound of the potential where a start lies, J; infinite outside the circle.</summary>
    /// <param name="start">A start.</param>
    /// <param name="tolerance">Relative width of the bound to aim at.</param>
    public double PotentialJoules(RideStart start, double tolerance)
    {
        ArgumentNullException.ThrowIfNull(start);
        double distance = double.Hypot(start.OffsetXMetres - CenterMetres.X, start.OffsetYMetres - CenterMetres.Y);
        return distance < RadiusMetres * (1 - 1e-12)
            ? _potential.At(start.OffsetXMetres, start.OffsetYMetres, tolerance).Upper
            : double.PositiveInfinity;
    }

    private static double Celerity(RideStart start)
    {
        double beta = start.VelocityMetresPerSecond.Length / Illumination.LightSpeed;
        double lateral = double.Hypot(start.VelocityXMetresPerSecond, start.VelocityYMetresPerSecond);
        return lateral / Math.Sqrt((1 - beta) * (1 + beta)) * (1 + 1e-14);
    }

    private static string? Obstacle(RideSetup setup, RideLimits limits, (double X, double Y, double Radius) circle)
    {
        double reach = double.Hypot(circle.X, circle.Y) + circle.Radius;
        return setup.Disturbance is not SteadyBeam || setup.Imbalance is not null
                ? "The beam or the craft is disturbed, and no energy bounds what noise does."
            : setup.GravityMetresPerSecondSquared > 0
                ? "With gravity the craft may fall back, and the light on it grow: the energy bounds nothing."
            : !ReferenceEquals(setup.Schedule, PowerSchedule.Constant)
                ? "The power follows a schedule; the energy bounds starts in constant light alone."
            : limits.TiltLimitRadians is not null ? "A tilt counts as lost, and the energy of a ball bounds no tilt."
            : limits.GroundMetres is not null ? "The craft may meet the ground, which the energy does not bound."
            : limits.LostAtMetres is { } lost && !(reach < lost)
                ? FormattableString.Invariant(
                    $"The rim of the well reaches {reach:G4} m from the axis and {lost:G4} m counts as off the beam."
                )
            : null;
    }

    // Weakest light over that at the start, growth of the energy, and the largest distance. A force of light is at most 2 P′/c,
    // the power P′ in the rest frame at most that at the start: rapidity grows by no more than 2 P t/(m c²).
    private static (double Weakest, double Growth, double Range) Boost(RideSetup setup, double time, double speed)
    {
        double c = Illumination.LightSpeed;
        double first = Math.Atanh(speed / c);
        double power = setup.PowerWatts * Math.Exp(-2 * Math.Min(first, 0));
        double gain = 2 * power * time / (setup.Mass.MassKilograms * c * c) * (1 + 1e-12);
        double last = Math.Max(Math.Abs(first), Math.Abs(first + gain));
        double growth = (Math.Cosh(last) + 1) / (Math.Cosh(first) + 1) * (1 + 1e-9);
        double range = c * Math.Tanh(Math.Max(0, first + gain)) * time;
        return (Math.Exp(-2 * gain), growth * growth, range);
    }

    // Least bound of the potential on the circle; one place in a round beam about its axis, else arc by arc.
    private static double Barrier(
        BallPotential potential,
        Beam beam,
        (double X, double Y, double Radius) circle,
        int threads
    )
    {
        if (beam.Profile.IsAxisymmetric && circle is { X: 0, Y: 0 })
        {
            return potential.At(circle.Radius, 0, PointTolerance).Lower;
        }
        double[] arcs = new double[Arcs];
        Parallel.For(
            0,
            Arcs,
            new ParallelOptions { MaxDegreeOfParallelism = threads },
            i => arcs[i] = OnArc(potential, circle, i)
        );
        return arcs.Min();
    }

    private static double OnArc(BallPotential potential, (double X, double Y, double Radius) circle, int arc)
    {
        double half = circle.Radius * Math.PI / Arcs * (1 + 1e-9);
        (double sin, double cos) = Math.SinCos(2 * Math.PI * arc / Arcs);
        (double x, double y) = (circle.X + circle.Radius * cos, circle.Y + circle.Radius * sin);
        // An arc of half-angle a lies within R sin a along the tangent and R (1 − cos a) across it.
        double across = half * Math.PI / Arcs;
        double reachX = Math.Abs(sin) * half + Math.Abs(cos) * across;
        double reachY = Math.Abs(cos) * half + Math.Abs(sin) * across;
        (double fx, double fy) = potential.LargestForce(Interval.Around(x, reachX), Interval.Around(y, reachY));
        double lower = potential.At(x, y, ArcTolerance).Lower;
        return (lower - (fx * reachX + fy * reachY) * (1 + 1e-12)) * (1 - 1e-12);
    }
}
