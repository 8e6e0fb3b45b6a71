using Lightkeel.Numerics.Integration;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Motion;

/// <summary>Natural sizes of the state variables of one ride, and the tolerance made of them.</summary>
internal sealed class RideTolerance
{
    // Amplitudes below this share of the beam's size, or of a radian, are drowned by rounding in the forces of a boost.
    private const double SmallestAmplitude = 1e-6;

    private readonly double[] _sizes = new double[RideState.Dimension];

    public RideTolerance(RideSetup setup, RideStart start, RideField field, double durationSeconds)
    {
        double mass = setup.Mass.MassKilograms;
        double push = Math.Max(
            2 * setup.PowerWatts / Illumination.LightSpeed,
            mass * setup.GravityMetresPerSecondSquared
        );
        // Time in which the thrust moves the craft by the size of the beam: what its oscillations take, to a factor.
        double time = Math.Min(Math.Sqrt(setup.FeatureLengthMetres * mass / push), durationSeconds);
        double lateralSpeed = double.Hypot(start.VelocityXMetresPerSecond, start.VelocityYMetresPerSecond);
        double feature = setup.FeatureLengthMetres;
        double amplitude = double.Hypot(start.OffsetXMetres, start.OffsetYMetres) + lateralSpeed * time;
        double tiltRate = double.Hypot(start.TiltRateXRadiansPerSecond, start.TiltRateYRadiansPerSecond);
        double swing = double.Hypot(start.TiltXRadians, start.TiltYRadians) + tiltRate * time;
        // A start on the axis has no amplitude of its own: what it will get from disturbances is measured by the beam.
        bool centred = amplitude == 0 && swing == 0;
        double length = centred ? feature : Math.Max(Math.Max(amplitude, swing * feature), SmallestAmplitude * feature);
        double angle = Math.Clamp(length / feature, SmallestAmplitude, 1);
        Vec3 inertia = field.Body.Principal.Values;
        double rate = Math.Max(angle / time, Math.Abs(start.SpinRadiansPerSecond));
        double energy = setup.PowerWatts * time;
        double[] sizes =
        [
            length,
            length,
            setup.FeatureLengthMetres,
            length / time,
            length / time,
            setup.FeatureLengthMetres / time,
            angle,
            angle,
            angle,
            angle,
            inertia.Z * rate,
            inertia.Z * rate,
            inertia.Z * rate,
            time,
            energy,
            energy,
            energy,
            energy,
            mass * length * length / time + inertia.Z * rate,
        ];
        sizes.CopyTo(_sizes, 0);
    }

    /// <summary>Names of the state variables, for reports.</summary>
    public static IReadOnlyList<string> Names { get; } =
    [
        "x",
        "y",
        "z",
        "u_x",
        "u_y",
        "u_z",
        "q_w",
        "q_x",
        "q_y",
        "q_z",
        "L_1",
        "L_2",
        "L_3",
        "proper time",
        "source energy",
        "intercepted energy",
        "work",
        "heat",
        "angular impulse",
    ];

    /// <summary>The tolerance: relative to each variable itself plus its natural size.</summary>
    public Tolerance Of(double relative)
    {
        double[] r = new double[RideState.Dimension];
        double[] a = new double[RideState.Dimension];
        for (int i = 0; i < r.Length; i++)
        {
            r[i] = relative;
            a[i] = relative * _sizes[i];
        }
        return new(r, a);
    }
}
