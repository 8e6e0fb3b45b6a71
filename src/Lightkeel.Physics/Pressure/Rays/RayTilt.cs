using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Pressure.Rays;

/// <summary>A slope by tilt: central differences of three steps, extrapolated twice, with the error that they show.</summary>
/// <param name="Slope">The slope, per rad.</param>
/// <param name="Size">Its force, or its torque over reach, N/rad.</param>
/// <param name="Error">Error in the same measure.</param>
/// <param name="Noise">Part of it that the errors of the forces bring.</param>
internal readonly record struct RayTilt(PressureReading Slope, double Size, double Error, double Noise)
{
    /// <summary>Differentiates a function of a small angle at zero.</summary>
    /// <param name="at">Reading at an angle, with its own vouched error.</param>
    /// <param name="step">Largest step, rad.</param>
    /// <param name="reachMetres">Length by which torques are measured.</param>
    /// <param name="isMirrored">Whether the reading at the opposite angle is the mirror image, of a turn about x at a pose on the axis.</param>
    public static RayTilt Of(Func<double, PressureReading> at, double step, double reachMetres, bool isMirrored = false)
    {
        double noise = 0;
        PressureReading Central(double h)
        {
            PressureReading plus = at(h);
            PressureReading minus = isMirrored ? Mirrored(plus) : at(-h);
            noise = Math.Max(noise, plus.RelativeError * plus.ForceNewtons.Length / h);
            noise = Math.Max(noise, minus.RelativeError * minus.ForceNewtons.Length / h);
            return Combine(0.5 / h, plus, -0.5 / h, minus);
        }
        double Measure(in PressureReading r) =>
            Math.Max(r.ForceNewtons.Length, r.TorqueNewtonMetres.Length / reachMetres);
        PressureReading first = Central(step);
        PressureReading second = Central(step / 2);
        PressureReading third = Central(step / 4);
        PressureReading coarse = Combine(4.0 / 3, second, -1.0 / 3, first);
        PressureReading fine = Combine(4.0 / 3, third, -1.0 / 3, second);
        PressureReading best = Combine(16.0 / 15, fine, -1.0 / 15, coarse);
        // The extrapolated value is better than the last one that it was made from; their difference is its error at most.
        double truncation = Measure(Combine(1, best, -1, fine));
        return new(best, Measure(best), truncation + 1.5 * noise, 1.5 * noise);
    }

    /// <summary>The slope by a turn about y, from that about x, at a pose that a quarter turn about the beam leaves as it is.</summary>
    public RayTilt QuarterTurned() =>
        this with
        {
            Slope = Slope with
            {
                ForceNewtons = Turned(Slope.ForceNewtons),
                TorqueNewtonMetres = Turned(Slope.TorqueNewtonMetres),
            },
        };

    private static Vec3 Turned(Vec3 v) => new(-v.Y, v.X, v.Z);

    // In y: force along x and z stays; torque, an axial vector, keeps what is along y.
    private static PressureReading Mirrored(in PressureReading r) =>
        r with
        {
            ForceNewtons = new(r.ForceNewtons.X, -r.ForceNewtons.Y, r.ForceNewtons.Z),
            TorqueNewtonMetres = new(-r.TorqueNewtonMetres.X, r.TorqueNewtonMetres.Y, -r.TorqueNewtonMetres.Z),
        };

    private static PressureReading Combine(double s, in PressureReading a, double t, in PressureReading b) =>
        new(
            s * a.ForceNewtons + t * b.ForceNewtons,
            s * a.TorqueNewtonMetres + t * b.TorqueNewtonMetres,
            s * a.InterceptedWatts + t * b.InterceptedWatts,
            s * a.AbsorbedWatts + t * b.AbsorbedWatts,
            0
        );
}
