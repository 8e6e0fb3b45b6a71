using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Stability.Spinning;

/// <summary>A steady circular motion: the craft leans by a constant tilt, off the axis by a constant offset, and both go round the beam together.</summary>
/// <param name="TiltRadians">Lean of the body axis towards the side of positive offset, rad, positive.</param>
/// <param name="OffsetMetres">Offset in the plane of the lean, m; negative on the other side of the axis.</param>
/// <param name="RateRadiansPerSecond">Rate at which offset and lean go round the beam axis, rad/s.</param>
/// <param name="GrowthPerSecond">Growth rate of the fastest growing disturbance of it, 1/s; zero when it is stable.</param>
/// <param name="IsStable">No small disturbance of it grows.</param>
public readonly record struct CircularTrim(
    double TiltRadians,
    double OffsetMetres,
    double RateRadiansPerSecond,
    double GrowthPerSecond,
    bool IsStable
);

/// <summary>The equations of steady circular motions of an axisymmetric craft in an axisymmetric beam.</summary>
/// <remarks>
/// With the body axis n = (sin θ, 0, cos θ), offset (r, 0) and H = I₃W, both turning about the beam at Ω:
/// <code>
/// F_x(r, θ)/m + Ω² r = 0                 (centripetal)
/// T_y(r, θ) − Ω sin θ (H − I₁ Ω cos θ) = 0 (steady precession of a symmetric top)
/// </code>
/// The other components vanish: the plane of axis and offset is a plane of symmetry. Small disturbances, in axes that turn at
/// Ω with the offset's change (ξ, η) and the axis' change by rotations α about y and β about e₂ = (cos θ, 0, −sin θ):
/// <code>
/// ξ'' = 2Ω η' + Ω² ξ + δF_x/m        I₁ α'' =  G β' − [I₁Ω² sin²θ + Ω(H − I₁Ω cos θ) cos θ] α + δT·y
/// η'' = −2Ω ξ' + Ω² η + δF_y/m       I₁ β'' = −G α' − Ω(H − I₁Ω cos θ) cos θ β + δT·e₂        G = H − 2 I₁Ω cos θ
/// </code>
/// from L = H n + I₁ n × n' and dL/dt = T. A turn of the whole picture about the beam and a step along the family of
/// motions change nothing: two roots are zero (in one Jordan block) and are left out. The axial speed and H are held: damping
/// by motion, and the light's torque about the body axis, are slower. Source of the steady precession: <i>Classical
/// Mechanics</i> (Addison-Wesley, 3rd ed. 2002), section 5.7.
/// </remarks>
/// <param name="light">The averaged light of an axisymmetric craft in an axisymmetric beam.</param>
/// <param name="top">The craft, with the same inertia all round.</param>
public sealed class CircularEquations(AveragedLight light, SpinningTop top)
{
    // Two roots of a lossless motion may meet and part by rounding; e-folding over ten thousand radians of its own is no growth.
    private const double NegligibleGrowth = 1e-4;
    private const double Rounding = 1e-10;

    /// <summary>Imbalance (m/s², rad/s²), its exact derivatives by offset, tilt and rate.</summary>
    internal (double A, double B, Vec3 SlopeA, Vec3 SlopeB) At(double offset, double tilt, double rate)
    {
        CraftPose pose = light.Pose(offset, 0, 0, tilt);
        PressureReading reading = light.Engine.Evaluate(pose);
        PressureDerivatives slopes = light.Engine.Differentiate(pose);
        (double m, double i1, double h) = (top.MassKilograms, top.TransverseInertia, top.AngularMomentum);
        (double sin, double cos) = Math.SinCos(tilt);
        double lean = h - i1 * rate * cos;
        return (
            reading.ForceNewtons.X / m + rate * rate * offset,
            (reading.TorqueNewtonMetres.Y - rate * sin * lean) / i1,
            new(
                slopes.ByOffsetX.ForceNewtons.X / m + rate * rate,
                slopes.ByTiltY.ForceNewtons.X / m,
                2 * rate * offset
            ),
            new(
                slopes.ByOffsetX.TorqueNewtonMetres.Y / i1,
                (slopes.ByTiltY.TorqueNewtonMetres.Y - rate * cos * lean) / i1 - rate * rate * sin * sin,
                -sin * (h - 2 * i1 * rate * cos) / i1
            )
        );
    }

    /// <summary>A motion that solves the equations, with its stability.</summary>
    /// <param name="offset">Offset in the plane of the lean, m.</param>
    /// <param name="tilt">Lean of the axis, rad.</param>
    /// <param name="rate">Rate about the beam, rad/s.</param>
    /// <exception cref="PressureUnavailableException">The light pressure cannot be computed there.</exception>
    public CircularTrim Judge(double offset, double tilt, double rate)
    {
        EigenPair[] pairs = EigenPair.AllOf(Disturbances(offset, tilt, rate));
        double largest = pairs.Max(p => p.Value.Magnitude);
        double growth = pairs
            .OrderBy(p => p.Value.Magnitude)
            .Skip(2)
            .Where(p => p.Value.Real > NegligibleGrowth * p.Value.Magnitude + Rounding * largest)
            .Select(p => p.Value.Real)
            .DefaultIfEmpty(0)
            .Max();
        return new(tilt, offset, rate, growth * Unit(rate), growth == 0);
    }

    // Time is measured in 1/unit, lengths in radii of gyration.
    private double Unit(double rate) => Math.Max(top.NutationRadiansPerSecond, Math.Abs(rate));

    /// <summary>
    /// The matrix of small disturbances: state (ξ, η, α, β) and its rates, lengths in radii of gyration, time in units of the
    /// larger of nutation and rate.
    /// </summary>
    /// <inheritdoc cref="Judge" path="/param"/>
    public double[,] Disturbances(double offset, double tilt, double rate)
    {
        PressureDerivatives d = light.Engine.Differentiate(light.Pose(offset, 0, 0, tilt));
        (double m, double i1, double h) = (top.MassKilograms, top.TransverseInertia, top.AngularMomentum);
        (double sin, double cos) = Math.SinCos(tilt);
        (double unit, double size) = (Unit(rate), top.GyrationRadiusMetres);
        double lean = h - i1 * rate * cos;
        double turn = (h - 2 * i1 * rate * cos) / i1;
        PressureReading[] columns = [d.ByOffsetX, d.ByOffsetY, d.ByTiltY, d.ByTiltX];
        // A turn about e₂ is one about x over cos θ, because a turn about the body axis changes nothing.
        double[] weights = [size, size, 1, 1 / cos];
        double[,] a = new double[8, 8];
        for (int j = 0; j < 4; j++)
        {
            a[j, 4 + j] = 1;
            double w = weights[j] / (unit * unit);
            a[4, j] = w * columns[j].ForceNewtons.X / (m * size);
            a[5, j] = w * columns[j].ForceNewtons.Y / (m * size);
            a[6, j] = w * columns[j].TorqueNewtonMetres.Y / i1;
            a[7, j] = w * (cos * columns[j].TorqueNewtonMetres.X - sin * columns[j].TorqueNewtonMetres.Z) / i1;
        }
        double slow = rate / unit;
        a[4, 0] += slow * slow;
        a[5, 1] += slow * slow;
        a[4, 4 + 1] += 2 * slow;
        a[5, 4 + 0] -= 2 * slow;
        a[6, 2] -= slow * slow * sin * sin + slow * lean / (i1 * unit) * cos;
        a[7, 3] -= slow * lean / (i1 * unit) * cos;
        a[6, 4 + 3] += turn / unit;
        a[7, 4 + 2] -= turn / unit;
        return a;
    }
}
