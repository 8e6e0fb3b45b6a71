using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Stability;

namespace Lightkeel.Physics.Tests.Stability;

/// <summary>Invented linear models shared by the stability tests.</summary>
internal static class Models
{
    /// <summary>A full random-looking Jacobian (invented), used with expected roots computed outside the project.</summary>
    public static double[][] FullJacobian =>
        [
            [-3.1, 0.4, 1.2, -2.2],
            [0.7, -2.4, 1.9, 0.3],
            [0.25, -1.1, -1.7, 0.6],
            [0.9, 0.35, -0.45, -2.3],
        ];

    /// <summary>F_x = kxx x + kxt tilt_y, T_y = ktx x + ktt tilt_y and the same turned by 90° about the beam.</summary>
    public static double[][] Axisymmetric(double kxx, double kxt, double ktx, double ktt) =>
        [
            [kxx, 0, 0, kxt],
            [0, kxx, -kxt, 0],
            [0, -ktx, ktt, 0],
            [ktx, 0, 0, ktt],
        ];

    public static LinearModel Of(
        double[][] jacobian,
        double mass = 1,
        double transverse = 1,
        double axial = 1.5,
        double spin = 0,
        double error = 1e-12
    ) =>
        new()
        {
            MassKilograms = mass,
            InertiaKilogramSquareMetres = Mat3.Diagonal(transverse, transverse, axial),
            Jacobian = jacobian,
            SpinRadiansPerSecond = spin,
            RelativeError = error,
        };

    /// <summary>K seen from axes turned by the angle about the beam: R K Rᵀ.</summary>
    public static double[][] Turned(double[][] k, double angle)
    {
        (double s, double c) = Math.SinCos(angle);
        double[][] r =
        [
            [c, -s, 0, 0],
            [s, c, 0, 0],
            [0, 0, c, -s],
            [0, 0, s, c],
        ];
        return [.. Enumerable.Range(0, 4).Select(i => Enumerable.Range(0, 4).Select(j => Entry(i, j)).ToArray())];

        double Entry(int i, int j)
        {
            double sum = 0;
            for (int p = 0; p < 4; p++)
            {
                for (int q = 0; q < 4; q++)
                {
                    sum += r[i][p] * k[p][q] * r[j][q];
                }
            }
            return sum;
        }
    }

    public static double[][] Scaled(double[][] k, double s) => [.. k.Select(row => row.Select(v => s * v).ToArray())];
}
