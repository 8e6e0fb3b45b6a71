using System.Globalization;
using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Elementary functions that give the same bits on every processor.</summary>
internal static class ElementaryChecks
{
    public static IEnumerable<OutsideCheck> All() =>
        [
            Function(
                "SMP-20",
                "Logarithm",
                PortableMath.Log,
                3e-16,
                [5e-324, 1e-310, 1e-20, 0.5, 0.7071, 0.99999, 1.0000001, 3.0, 1e300],
                [
                    -744.44007192138126,
                    -713.80137882815417,
                    -46.051701859880914,
                    -0.69314718055994531,
                    -0.346583180371942,
                    -1.0000050000287825e-5,
                    9.9999995058387045e-8,
                    1.0986122886681097,
                    690.77552789821371,
                ]
            ),
            Function(
                "SMP-21",
                "Exponential",
                PortableMath.Exp,
                3e-16,
                [-708.0, -30.5, -1e-09, 0.1, 1.0, 50.25, 709.5],
                [
                    3.307553003638408e-308,
                    5.6756852326327225e-14,
                    0.999999999,
                    1.1051709180756476,
                    2.7182818284590452,
                    6.6572936767472527e+21,
                    1.3549863193146328e+308,
                ]
            ),
            Function(
                "SMP-22",
                "Logarithm of one more than the argument",
                PortableMath.Log1p,
                5e-16,
                [-0.999, -0.3, -1e-10, 1e-05, 0.2, 0.3, 5.0],
                [
                    -6.9077552789821362,
                    -0.35667494393873236,
                    -1.00000000005e-10,
                    9.9999500003333317e-6,
                    0.18232155679395464,
                    0.26236426446749104,
                    1.791759469228055,
                ]
            ),
            Function(
                "SMP-23",
                "Exponential less one",
                PortableMath.Expm1,
                5e-16,
                [-1.0, -0.35, -1e-12, 0.01, 0.34, 3.0],
                [
                    -0.63212055882855768,
                    -0.29531191028128655,
                    -9.9999999999949998e-13,
                    0.010050167084168058,
                    0.40494759056359383,
                    19.085536923187668,
                ]
            ),
            Function(
                "SMP-24",
                "Arctangent",
                PortableMath.Atan,
                4e-16,
                [-1e10, -3.0, -0.4, 1e-08, 0.3, 0.9, 2.4, 100.0],
                [
                    -1.5707963266948966,
                    -1.2490457723982544,
                    -0.38050637711236491,
                    9.9999999999999999e-9,
                    0.29145679447786708,
                    0.7328151017865066,
                    1.1760052070951351,
                    1.5607966601082314,
                ]
            ),
            Function(
                "SMP-25",
                "Sine of turns",
                x => PortableMath.SineCosineOfTurns(x).Sine,
                4e-15,
                [0.01, 0.126, 0.3, 0.74, -0.2, 12345.678],
                [
                    0.062790519529313377,
                    0.71153567720928535,
                    0.95105651629515359,
                    -0.99802672842827156,
                    -0.95105651629515359,
                    -0.89940525156605131,
                ]
            ),
            Function(
                "SMP-26",
                "Cosine of turns",
                x => PortableMath.SineCosineOfTurns(x).Cosine,
                4e-15,
                [0.01, 0.126, 0.3, 0.74, -0.2, 12345.678],
                [
                    0.99802672842827156,
                    0.7026499697988492,
                    -0.30901699437494736,
                    -0.062790519529313432,
                    0.30901699437494736,
                    -0.43711576665159078,
                ]
            ),
            Function(
                "SMP-27",
                "Normal distribution",
                StandardNormal.Cumulative,
                1e-15,
                [-37.5, -20.0, -8.0, -3.0, -1.0, -0.001, 0.5, 2.0, 6.0],
                [
                    4.6053530095819548e-308,
                    2.7536241186062337e-89,
                    6.2209605742717841e-16,
                    0.0013498980316300945,
                    0.15865525393145705,
                    0.49960105778608894,
                    0.6914624612740131,
                    0.97724986805182079,
                    0.99999999901341235,
                ]
            ),
            Function(
                "SMP-28",
                "Quantile of the normal distribution",
                StandardNormal.Quantile,
                1e-15,
                [1e-300, 1e-100, 1e-20, 1e-11, 1e-05, 0.01, 0.0749, 0.3, 0.9, 0.975, 0.999999],
                [
                    -37.047096299361199,
                    -21.273453560965324,
                    -9.2623400897984076,
                    -6.7060231554951363,
                    -4.2648907939228246,
                    -2.3263478740408411,
                    -1.4402382675279637,
                    -0.52440051270804082,
                    1.2815515655446006,
                    1.9599639845400539,
                    4.7534243088170878,
                ]
            ),
        ];

    private static OutsideCheck Function(
        string id,
        string name,
        Func<double, double> function,
        double tolerance,
        double[] arguments,
        double[] expected
    ) =>
        new(id, name)
        {
            Source = Sources.Functions,
            Origin = Origins.Mpmath,
            Parts = [.. arguments.Select(x => x.ToString("R", CultureInfo.InvariantCulture))],
            Expected = expected,
            Tolerance = tolerance,
            Compute = () => [.. arguments.Select(function)],
        };
}
