using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Stability;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Invented linear models; the same numbers stand in the script that computes the expected roots.</summary>
internal static class StabilityModels
{
    public static double[][] FullJacobian =>
        [
            [-3.1, 0.4, 1.2, -2.2],
            [0.7, -2.4, 1.9, 0.3],
            [0.25, -1.1, -1.7, 0.6],
            [0.9, 0.35, -0.45, -2.3],
        ];

    private static double[][] FirstHarmonic =>
        [
            [1, 0.2, 0.1, 0.5],
            [0.3, -0.7, 0.4, -0.2],
            [0.1, 0.6, 0.9, 0.3],
            [-0.4, 0.2, 0.1, -0.8],
        ];

    private static double[][] SecondHarmonic =>
        [
            [0.5, -0.3, 0.7, 0.1],
            [0.2, 0.6, -0.1, 0.4],
            [0.8, 0.1, -0.5, 0.2],
            [0.3, -0.6, 0.2, 0.4],
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
        double spin = 0
    ) =>
        new()
        {
            MassKilograms = mass,
            InertiaKilogramSquareMetres = Mat3.Diagonal(transverse, transverse, axial),
            Jacobian = jacobian,
            SpinRadiansPerSecond = spin,
            RelativeError = 1e-12,
        };

    /// <summary>A spinning craft of unequal inertia in a beam without symmetry.</summary>
    public static LinearModel Unequal(double spin, Func<double, double[][]> jacobianAt) =>
        new()
        {
            MassKilograms = 2,
            InertiaKilogramSquareMetres = new(new(0.9, 0.11, 0), new(0.11, 1.3, 0), new(0, 0, 1.6)),
            Jacobian = jacobianAt(0),
            SpinRadiansPerSecond = spin,
            CraftIsAxisymmetric = false,
            BeamIsAxisymmetric = false,
            JacobianAtSpinAngle = jacobianAt,
        };

    /// <summary>The full Jacobian turning with the craft: R K Rᵀ.</summary>
    public static double[][] Turned(double angle)
    {
        (double s, double c) = Math.SinCos(angle);
        double[][] r =
        [
            [c, -s, 0, 0],
            [s, c, 0, 0],
            [0, 0, c, -s],
            [0, 0, s, c],
        ];
        double[][] k = FullJacobian;
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
        return [.. Enumerable.Range(0, 4).Select(i => Enumerable.Range(0, 4).Select(j => Entry(i, j)).ToArray())];
    }

    /// <summary>The full Jacobian with two harmonics of the spin angle.</summary>
    public static double[][] Wavy(double angle)
    {
        (double cosine, double sine) = (Math.Cos(angle), Math.Sin(2 * angle));
        return
        [
            .. FullJacobian.Select(
                (row, i) =>
                    row.Select((v, j) => v + 0.3 * FirstHarmonic[i][j] * cosine + 0.2 * SecondHarmonic[i][j] * sine)
                        .ToArray()
            ),
        ];
    }

    /// <summary>Growth and angular rate of each mode, by growth, then rate: the order of the expected values.</summary>
    public static double[] Roots(LinearModel model) =>
        [
            .. StabilityAnalysis
                .Analyse(model)
                .Modes.SelectMany(m =>
                    Enumerable.Repeat((m.GrowthPerSecond, Rate: 2 * Math.PI * m.FrequencyHertz), m.Multiplicity)
                )
                .OrderBy(m => Math.Round(m.GrowthPerSecond, 9))
                .ThenBy(m => m.Rate)
                .SelectMany(m => (double[])[m.GrowthPerSecond, m.Rate]),
        ];

    /// <summary>Angular rates alone, ascending.</summary>
    public static double[] Rates(LinearModel model) =>
        [
            .. StabilityAnalysis
                .Analyse(model)
                .Modes.SelectMany(m => Enumerable.Repeat(2 * Math.PI * m.FrequencyHertz, m.Multiplicity))
                .Order(),
        ];
}
