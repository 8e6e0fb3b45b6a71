using System.Numerics;
using Lightkeel.Numerics.Interpolation;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Quadrature;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Linear algebra, quadrature rules and interpolation.</summary>
internal static class NumericsChecks
{
    private const string Rule = "Handbook of Mathematical Functions (1964), table 25.4";

    public static CheckModule Module() =>
        new(
            "numerics",
            "Linear algebra, quadrature and interpolation",
            [.. Matrices(), .. Rules(), .. Interpolation()]
        );

    private static IEnumerable<OutsideCheck> Matrices() =>
        [
            new("LIN-01", "Eigenvalues of a symmetric matrix", "[[2, -1, 0.5], [-1, 3, 0.25], [0.5, 0.25, 1]]")
            {
                Source = "numpy.linalg.eigvalsh",
                Origin = Origins.Numpy,
                Parts = ["first", "middle", "last"],
                Expected = [0.60182592761352882, 1.779124022002081, 3.6190500503843888],
                Tolerance = 1e-14,
                Compute = () =>
                    Scenes.Components(
                        PrincipalAxes.Of(new(new(2, -1, 0.5), new(-1, 3, 0.25), new(0.5, 0.25, 1))).Values
                    ),
            },
            new("LIN-02", "Rates of motion about a triangular point of two orbiting masses", "mu = 0.01215")
            {
                Source = "Theory of Orbits (Academic Press, 1967), chapter 5: w^4 - w^2 + (27/4) mu (1 - mu) = 0",
                Origin = Origins.Mpmath,
                Parts = ["long", "short"],
                Expected = [0.29820030741812293, 0.95450331411459069],
                Tolerance = 1e-13,
                Compute = () => [.. Libration(0.01215).Where(v => v.Imaginary > 0).Select(v => v.Imaginary).Order()],
            },
            new("LIN-03", "Largest mass ratio at which a triangular point holds")
            {
                Source = "Theory of Orbits (Academic Press, 1967), chapter 5 (Routh, 1875): 27 mu (1 - mu) = 1",
                Origin = Origins.Mpmath,
                Expected = [0.038520896504551397],
                Tolerance = 1e-9,
                Compute = () => [Scenes.Root(mu => Libration(mu).Max(v => v.Real) - 1e-6, 0.03, 0.05, 1e-13)],
            },
            new("LIN-04", "Eigenvalues of the second difference of order 6", "2 - 2 cos(k pi/7)")
            {
                Source = "textbooks of numerical analysis",
                Origin = Origins.Mpmath,
                Parts = ["1", "2", "3", "4", "5", "6"],
                Expected =
                [
                    0.19806226419516175,
                    0.75302039628253294,
                    1.5549581320873712,
                    2.4450418679126288,
                    3.2469796037174671,
                    3.8019377358048383,
                ],
                Tolerance = 1e-13,
                Compute = () => [.. Eigen.Values(SecondDifference(6)).Select(v => v.Real).Order()],
            },
            new(
                "LIN-05",
                "Complex eigenvalues of a full matrix without symmetry",
                "invented 4x4 matrix, see the script"
            )
            {
                Source = "mpmath.eig",
                Origin = Origins.Mpmath,
                Parts = ["real, first pair", "imaginary, first pair", "real, second pair", "imaginary, second pair"],
                Expected = [-2.8530590655776025, 1.297533274281478, -1.8969409344223973, 1.3909487202964197],
                Tolerance = 1e-13,
                Compute = () =>
                    [
                        .. Eigen
                            .Values(Square(StabilityModels.FullJacobian))
                            .Where(v => v.Imaginary > 0)
                            .OrderBy(v => v.Real)
                            .SelectMany(v => (double[])[v.Real, v.Imaginary]),
                    ],
            },
        ];

    private static IEnumerable<OutsideCheck> Rules() =>
        [
            new("QUA-01", "Nodes and weights of the Gauss-Legendre rule of 5")
            {
                Source = Rule,
                Origin = Origins.Mpmath,
                Parts = ["outer node", "outer weight", "inner node", "inner weight", "middle weight"],
                Expected =
                [
                    0.90617984593866399,
                    0.23692688505618909,
                    0.53846931010568309,
                    0.47862867049936647,
                    0.56888888888888889,
                ],
                Tolerance = 1e-15,
                Compute = () =>
                {
                    GaussLegendre rule = GaussLegendre.Order(5);
                    return [rule.Nodes[4], rule.Weights[4], rule.Nodes[3], rule.Weights[3], rule.Weights[2]];
                },
            },
            new("QUA-02", "Outermost node and weight of the Gauss-Legendre rule of 20")
            {
                Source = Rule,
                Origin = Origins.Mpmath,
                Parts = ["node", "weight"],
                Expected = [0.99312859918509492, 0.017614007139152118],
                Tolerance = 1e-14,
                Compute = () => [GaussLegendre.Order(20).Nodes[^1], GaussLegendre.Order(20).Weights[^1]],
            },
            new("QUA-03", "Outermost node and weight of the Kronrod pair of 7 and 15")
            {
                Source = "QUADPACK (Springer, 1983), routine qk15",
                Origin = ExpectedOrigin.Read("source text of SciPy 1.10.1; recomputed with mpmath 1.2.1"),
                Parts = ["node", "weight"],
                Expected = [0.991455371120812639, 0.0229353220105292250],
                Tolerance = 1e-15,
                Compute = () => [GaussKronrod.All[0].Nodes[^1], GaussKronrod.All[0].KronrodWeights[^1]],
            },
            new("QUA-04", "Integral of the exponential from -1 to 1 by the rule of 10")
            {
                Source = "2 sinh 1",
                Origin = Origins.Mpmath,
                Expected = [2.3504023872876029],
                Tolerance = 1e-15,
                Compute = () => [GaussLegendre.Order(10).Integrate(Math.Exp, -1, 1)],
            },
        ];

    private static IEnumerable<OutsideCheck> Interpolation() =>
        [
            new("INP-01", "Chebyshev coefficients of the exponential", "I0(1), 2 I_k(1)")
            {
                Source = "Digital Library of Mathematical Functions, 10.35.1",
                Origin = Origins.Mpmath,
                Parts = ["0", "1", "2", "3", "4", "5", "6", "7"],
                Expected =
                [
                    1.2660658777520083,
                    1.1303182079849701,
                    0.27149533953407656,
                    0.044336849848663805,
                    0.0054742404420937327,
                    0.00054292631191394375,
                    4.4977322954295147e-5,
                    3.1984364624019905e-6,
                ],
                Size = 1,
                Tolerance = 1e-15,
                Compute = () => [.. Series(-1, 1, 20, Math.Exp).Coefficients.Take(8)],
            },
            new("INP-02", "Integral and slope of the cosine from its Chebyshev series", "integral 0 to 2, slope at 0.7")
            {
                Source = "sin 2 and -sin 0.7",
                Origin = Origins.Mpmath,
                Parts = ["integral", "slope"],
                Expected = [0.9092974268256817, -0.64421768723769105],
                Tolerance = 1e-13,
                Compute = () =>
                {
                    ChebyshevSeries series = Series(0, 2, 24, Math.Cos);
                    return [series.Integral().Value(2), series.Derivative().Value(0.7)];
                },
            },
            new("INP-03", "Place where the cosine is its argument")
            {
                Source = "fixed point of the cosine",
                Origin = Origins.Mpmath,
                Expected = [0.73908513321516064],
                Tolerance = 1e-14,
                Compute = () => [Scenes.Root(x => Math.Cos(x) - x, 0, 1)],
            },
        ];

    private static ChebyshevSeries Series(double start, double end, int count, Func<double, double> function) =>
        ChebyshevSeries.Through(start, end, (double[])[.. ChebyshevSeries.Points(start, end, count).Select(function)]);

    // Second derivatives of the effective potential at the triangular point, axes turning once in 2π.
    private static Complex[] Libration(double mu)
    {
        double xy = 3 * Math.Sqrt(3) / 4 * (1 - 2 * mu);
        return Eigen.Values(
            new[,]
            {
                { 0, 0, 1, 0 },
                { 0, 0, 0, 1 },
                { 0.75, xy, 0, 2 },
                { xy, 2.25, -2, 0 },
            }
        );
    }

    private static double[,] SecondDifference(int order)
    {
        double[,] matrix = new double[order, order];
        for (int i = 0; i < order; i++)
        {
            matrix[i, i] = 2;
            if (i > 0)
            {
                matrix[i, i - 1] = matrix[i - 1, i] = -1;
            }
        }
        return matrix;
    }

    private static double[,] Square(double[][] rows)
    {
        double[,] matrix = new double[rows.Length, rows.Length];
        for (int i = 0; i < rows.Length; i++)
        {
            for (int j = 0; j < rows.Length; j++)
            {
                matrix[i, j] = rows[i][j];
            }
        }
        return matrix;
    }
}
