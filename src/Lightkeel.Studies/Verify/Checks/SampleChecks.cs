using Lightkeel.Numerics.Sampling.Statistics;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Statistics of samples: survival, moments, quantiles, regression.</summary>
internal static class SampleChecks
{
    private static readonly double[] Treated =
    [
        6,
        6,
        6,
        6,
        7,
        9,
        10,
        10,
        11,
        13,
        16,
        17,
        19,
        20,
        22,
        23,
        25,
        32,
        32,
        34,
        35,
    ];

    // Weeks at which remission had not ended when observation did are marked 0.
    private static readonly bool[] Ended =
    [
        .. ((int[])[1, 1, 1, 0, 1, 0, 1, 0, 0, 1, 1, 0, 0, 0, 1, 1, 0, 0, 0, 0, 0]).Select(e => e == 1),
    ];

    private static readonly double[] Control = [1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23];
    private static readonly double[] Sample = [3.1, -1, 2.5, 7, 0.3, 4.4, 4.4, 9];

    private static readonly double[] NorrisX =
    [
        0.2,
        337.4,
        118.2,
        884.6,
        10.1,
        226.5,
        666.3,
        996.3,
        448.6,
        777.0,
        558.2,
        0.4,
        0.6,
        775.5,
        666.9,
        338.0,
        447.5,
        11.6,
        556.0,
        228.1,
        995.8,
        887.6,
        120.2,
        0.3,
        0.3,
        556.8,
        339.1,
        887.2,
        999.0,
        779.0,
        11.1,
        118.3,
        229.2,
        669.1,
        448.9,
        0.5,
    ];

    private static readonly double[] NorrisY =
    [
        0.1,
        338.8,
        118.1,
        888.0,
        9.2,
        228.1,
        668.5,
        998.5,
        449.1,
        778.9,
        559.2,
        0.3,
        0.1,
        778.1,
        668.8,
        339.3,
        448.9,
        10.8,
        557.7,
        228.3,
        998.0,
        888.8,
        119.6,
        0.3,
        0.6,
        557.6,
        339.3,
        888.0,
        998.5,
        778.9,
        10.2,
        117.6,
        228.9,
        668.4,
        449.2,
        0.2,
    ];

    public static IEnumerable<OutsideCheck> All() => [.. Survival(), .. Samples()];

    private static IEnumerable<OutsideCheck> Survival() =>
        [
            new("STA-20", "Product-limit estimate of survival", "weeks 6, 10, 13, 22, 23")
            {
                Source = Sources.Survival,
                Origin = ExpectedOrigin.Computed("formula evaluated in Python"),
                Parts = ["6", "10", "13", "22", "23"],
                Expected =
                [
                    0.85714285714285721,
                    0.75294117647058822,
                    0.69019607843137254,
                    0.53781512605042026,
                    0.44817927170868355,
                ],
                Tolerance = 1e-13,
                Compute = () =>
                {
                    KaplanMeier curve = new(Treated, Ended);
                    return [.. ((double[])[6, 10, 13, 22, 23]).Select(t => curve.Survival(t) ?? double.NaN)];
                },
            },
            new("STA-21", "Greenwood's standard error of survival", "weeks 6 and 23")
            {
                Source = Sources.Survival,
                Origin = ExpectedOrigin.Computed("formula evaluated in Python"),
                Parts = ["6", "23"],
                Expected = [0.076360354832121252, 0.13459145675576048],
                Tolerance = 1e-12,
                Compute = () =>
                {
                    KaplanMeier curve = new(Treated, Ended);
                    return [curve.Steps[0].StandardError, curve.Steps[^1].StandardError];
                },
            },
            new("STA-22", "95 % interval of survival at week 6 by log(-log)")
            {
                Source = Sources.Survival,
                Origin = ExpectedOrigin.Computed("formula evaluated in Python"),
                Parts = ["lower", "upper"],
                Expected = [0.61971795526598383, 0.95155174764699701],
                Tolerance = 1e-12,
                Compute = () =>
                {
                    ConfidenceInterval interval =
                        new KaplanMeier(Treated, Ended).Interval(6)
                        ?? throw new ArithmeticException("There is no interval.");
                    return [interval.Lower, interval.Upper];
                },
            },
            new("STA-23", "Log-rank test of the two groups")
            {
                Source = Sources.Survival + ": 16.79 in the textbooks",
                Origin = ExpectedOrigin.Computed("formula evaluated in Python"),
                Parts = ["chi-square", "p-value"],
                Expected = [16.79294098921654, 4.1688091093345321e-5],
                Tolerance = 1e-12,
                Compute = () =>
                {
                    LogRank test = LogRank.Compare(Treated, Ended, Control, [.. Control.Select(_ => true)]);
                    return [test.ChiSquared, test.PValue];
                },
            },
            new("STA-24", "Exponential rate with its 95 % interval", "9 events in 359 weeks")
            {
                Source = Sources.Survival,
                Origin = Origins.Scipy,
                Parts = ["rate", "lower", "upper"],
                Expected = [0.025069637883008356, 0.011463434811638813, 0.047589981758827761],
                Unit = "1/week",
                Tolerance = 1e-12,
                Compute = () =>
                {
                    ExponentialRate rate = ExponentialRate.Estimate(9, 359);
                    return [rate.Rate, rate.Interval.Lower, rate.Interval.Upper];
                },
            },
        ];

    private static IEnumerable<OutsideCheck> Samples() =>
        [
            new("STA-30", "Moments of a sample", "3.1, -1, 2.5, 7, 0.3, 4.4, 4.4, 9")
            {
                Source = "numpy.var, scipy.stats.skew, scipy.stats.kurtosis",
                Origin = Origins.Scipy,
                Parts = ["mean", "variance", "skewness", "excess kurtosis"],
                Expected = [3.7125, 10.772678571428571, 0.16241030449451002, -0.84756171098191002],
                Tolerance = 1e-13,
                Compute = () =>
                {
                    RunningMoments m = RunningMoments.Of(Sample);
                    return [m.Mean, m.Variance, m.Skewness, m.ExcessKurtosis];
                },
            },
            new("STA-31", "Quantiles of a sample, median-unbiased", "3.1, -1, 2.5, 7, 0.3, 4.4, 4.4, 9")
            {
                Source = "numpy.quantile",
                Origin = Origins.Numpy,
                Parts = ["0", "0.1", "0.5", "0.9", "1"],
                Expected = [-1, -0.78333333333333321, 3.75, 8.6666666666666679, 9],
                Tolerance = 1e-14,
                Compute = () =>
                {
                    double[] sorted = [.. Sample.Order()];
                    return [.. ((double[])[0, 0.1, 0.5, 0.9, 1]).Select(p => SampleQuantile.Estimate(sorted, p))];
                },
            },
            new("STA-32", "Distance of two samples", "5 and 6 values, see the script")
            {
                Source = "scipy.stats.ks_2samp",
                Origin = Origins.Scipy,
                Expected = [0.5],
                Tolerance = 1e-15,
                Compute = () =>
                    [KolmogorovSmirnov.Compare([0.1, 0.4, 0.7, 1.5, 2.2], [0.3, 0.4, 1.0, 3.0, 3.1, 4.0]).Distance],
            },
            new("STA-33", "Moments of a record that defeats naive sums", "NumAcc4")
            {
                Source = "NIST Statistical Reference Datasets, univariate summary statistics",
                Origin = ExpectedOrigin.FromMemory("certified values; the record follows from its definition"),
                Parts = ["mean", "deviation", "lag-1 autocorrelation"],
                Expected = [10000000.2, 0.1, -0.999],
                Tolerance = 1e-8,
                Compute = () =>
                {
                    double[] record =
                    [
                        10000000.2,
                        .. Enumerable.Range(1, 1000).Select(i => i % 2 == 1 ? 10000000.1 : 10000000.3),
                    ];
                    RunningMoments m = RunningMoments.Of(record);
                    return [m.Mean, m.StandardDeviation, Autocorrelation.At(record, 1)];
                },
            },
            new("STA-34", "Straight line through 36 points", "Norris")
            {
                Source = "NIST Statistical Reference Datasets, linear regression, certified values",
                Origin = ExpectedOrigin.Read("certified values in public test suites; recomputed with mpmath 1.2.1"),
                Parts = ["intercept", "slope", "R squared", "residual deviation"],
                Expected = [-0.262323073774029, 1.00211681802045, 0.999993745883712, 0.884796396144373],
                Tolerance = 1e-10,
                Compute = () =>
                {
                    LinearRegression line = LinearRegression.Fit(NorrisX, NorrisY);
                    return [line.Intercept, line.Slope, line.RSquared, line.ResidualDeviation];
                },
            },
        ];
}
