using System.Numerics;
using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Stability;

/// <summary>
/// How fast the light can make a craft swing, or drive it away, at the places a ride may come to: what steps must resolve.
/// </summary>
/// <remarks>
/// In each pose the light is taken as linear about it and the largest |λ| of the lateral motion in it, with the coupling by
/// spin (nutation included), is found: q″ = M⁻¹ K q − M⁻¹ G q′. Off the axis this is no motion of its own, as nothing rests
/// there, but the rate at which forces change along the way.
/// </remarks>
public static class LocalRates
{
    private const int Offsets = 16;
    private const double WidestTilt = 0.5;

    /// <summary>Largest rate, as a frequency |λ|/2π, Hz; null where no pose could be computed.</summary>
    /// <param name="mass">Mass properties of the craft.</param>
    /// <param name="engine">Light pressure at nominal power and designed size.</param>
    /// <param name="reachMetres">Largest offset, m.</param>
    /// <param name="tiltRadians">Largest tilt, rad; more than half a radian is not looked at.</param>
    /// <param name="spinRadiansPerSecond">Spin about the body axis, rad/s.</param>
    /// <param name="isRound">True where craft and beam are round, so that one direction of offset stands for all.</param>
    public static double? HighestHertz(
        MassProperties mass,
        IPressureEngine engine,
        double reachMetres,
        double tiltRadians,
        double spinRadiansPerSecond,
        bool isRound
    )
    {
        ArgumentNullException.ThrowIfNull(engine);
        Require.Positive(reachMetres);
        double? highest = null;
        foreach (CraftPose pose in Poses(reachMetres, Math.Min(WidestTilt, tiltRadians), isRound))
        {
            if (RateIn(pose, mass, engine, spinRadiansPerSecond) is { } rate)
            {
                highest = Math.Max(highest ?? 0, rate);
            }
        }
        return highest / (2 * Math.PI);
    }

    private static IEnumerable<CraftPose> Poses(double reach, double tilt, bool isRound)
    {
        for (int k = 0; k <= Offsets; k++)
        {
            double r = reach * k / Offsets;
            yield return CraftPose.OnAxis with
            {
                OffsetXMetres = r,
            };
            if (!isRound && k > 0)
            {
                double diagonal = r * Math.Sqrt(0.5);
                yield return CraftPose.OnAxis with
                {
                    OffsetYMetres = r,
                };
                yield return CraftPose.OnAxis with
                {
                    OffsetXMetres = diagonal,
                    OffsetYMetres = diagonal,
                };
            }
        }
        foreach (double share in new[] { 0.25, 0.5, 1 })
        {
            Mat3 turn = Mat3.Rotation(Vec3.UnitY, share * tilt);
            foreach (double r in new[] { 0, 0.25 * reach, -0.25 * reach })
            {
                yield return CraftPose.OnAxis with
                {
                    OffsetXMetres = r,
                    BeamFromBody = turn,
                };
            }
            if (!isRound)
            {
                yield return CraftPose.OnAxis with
                {
                    BeamFromBody = Mat3.Rotation(Vec3.UnitX, share * tilt),
                };
            }
        }
    }

    private static double? RateIn(in CraftPose pose, in MassProperties mass, IPressureEngine engine, double spin)
    {
        try
        {
            double[][] k = engine.Differentiate(pose).LateralJacobian();
            return Eigen.Values(Matrix(k, mass, spin)).Max(Complex.Abs);
        }
        catch (Exception e) when (e is PressureUnavailableException or ArithmeticException)
        {
            return null;
        }
    }

    // State (offsets in radii of gyration, tilts, and their rates).
    private static double[,] Matrix(double[][] k, in MassProperties mass, double spin)
    {
        Mat3 inertia = mass.InertiaKilogramSquareMetres;
        Mat3 inverse = inertia.Inverse();
        double m = mass.MassKilograms;
        double size = Math.Sqrt(0.5 * (inertia.Row0.X + inertia.Row1.Y) / m);
        double h = inertia.Row2.Z * spin;
        double[] unit = [size, size, 1, 1];
        double[][] inverseMass =
        [
            [1 / m, 0, 0, 0],
            [0, 1 / m, 0, 0],
            [0, 0, inverse.Row0.X, inverse.Row0.Y],
            [0, 0, inverse.Row1.X, inverse.Row1.Y],
        ];
        double[,] a = new double[8, 8];
        for (int i = 0; i < 4; i++)
        {
            a[i, 4 + i] = 1;
            for (int j = 0; j < 4; j++)
            {
                for (int l = 0; l < 4; l++)
                {
                    double gyroscopic = (l, j) switch
                    {
                        (2, 3) => h,
                        (3, 2) => -h,
                        _ => 0,
                    };
                    a[4 + i, j] += inverseMass[i][l] * k[l][j] * unit[j] / unit[i];
                    a[4 + i, 4 + j] -= inverseMass[i][l] * gyroscopic * unit[j] / unit[i];
                }
            }
        }
        return a;
    }
}
