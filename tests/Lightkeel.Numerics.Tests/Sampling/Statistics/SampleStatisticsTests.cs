using CsCheck;
using Lightkeel.Numerics.Sampling.Draws;
using Lightkeel.Numerics.Sampling.Statistics;
using Xunit;

namespace Lightkeel.Numerics.Tests.Sampling.Statistics;

public class SampleStatisticsTests
{
    private static readonly double[] s_sample = [3.1, -1, 2.5, 7, 0.3, 4.4, 4.4, 9];

    // NIST Statistical Reference Datasets, univariate, NumAcc4: certified mean 10000000.2, deviation 0.1, lag-1
    // autocorrelation -0.999.
    [Fact]
    public void Moments_OfNumAcc4_KeepTheirDigits()
    {
        double[] record = new double[1001];
        record[0] = 10000000.2;
        for (int i = 1; i < record.Length; i++)
        {
            record[i] = i % 2 == 1 ? 10000000.1 : 10000000.3;
        }
        RunningMoments moments = RunningMoments.Of(record);
        Near.Relative(10000000.2, moments.Mean, 1e-15);
        Near.Relative(0.1, moments.StandardDeviation, 1e-8);
        Near.Relative(-0.999, Autocorrelation.At(record, 1), 1e-8);
        Assert.Equal(1, Autocorrelation.At(record, 0));
    }

    // NumPy 1.24.2 and scipy.stats 1.10.1 (skew, kurtosis).
    [Fact]
    public void Moments_AgreeWithReferenceLibrary()
    {
        RunningMoments moments = RunningMoments.Of(s_sample);
        Near.Relative(3.7125, moments.Mean, 1e-15);
        Near.Relative(10.772678571428571, moments.Variance, 1e-14);
        Near.Relative(0.16241030449451002, moments.Skewness, 1e-13);
        Near.Relative(-0.84756171098191, moments.ExcessKurtosis, 1e-13);
        Assert.Equal((-1, 9, 8L), (moments.Least, moments.Greatest, moments.Count));
    }

    [Fact]
    public void Moments_MergedInParts_AreThoseOfTheWhole() =>
        Gen.Select(Gen.Double[-5, 5].Array[2, 60], Gen.Int[0, 60])
            .Sample(
                (values, cut) =>
                {
                    cut = Math.Min(cut, values.Length);
                    RunningMoments whole = RunningMoments.Of(values);
                    RunningMoments parts = RunningMoments
                        .Of(values.AsSpan(0, cut))
                        .With(RunningMoments.Of(values.AsSpan(cut)));
                    Near.Absolute(whole.Mean, parts.Mean, 1e-14);
                    Near.Absolute(whole.Variance, parts.Variance, 1e-12);
                    Assert.Equal(whole.Count, parts.Count);
                    Assert.Equal(whole.Least, parts.Least);
                },
                iter: 500
            );

    [Fact]
    public void Moments_OfTooLittle_AreRefused()
    {
        Assert.Throws<InvalidOperationException>(() => default(RunningMoments).Mean);
        Assert.Throws<InvalidOperationException>(() => RunningMoments.Of([1]).Variance);
        Assert.Throws<InvalidOperationException>(() => RunningMoments.Of([2, 2]).Skewness);
        Assert.Throws<ArgumentOutOfRangeException>(() => RunningMoments.Of([double.NaN]));
        Assert.Throws<ArgumentException>(() => Autocorrelation.At([1, 1, 1], 1));
    }

    // numpy.quantile(..., method='median_unbiased'), NumPy 1.24.2.
    [Theory]
    [InlineData(0, -1)]
    [InlineData(0.1, -0.7833333333333332)]
    [InlineData(0.5, 3.75)]
    [InlineData(0.9, 8.666666666666668)]
    [InlineData(1, 9)]
    public void SampleQuantile_AgreesWithReferenceLibrary(double probability, double expected)
    {
        double[] sorted = [.. s_sample.Order()];
        Near.Relative(expected, SampleQuantile.Estimate(sorted, probability), 1e-14);
    }

    // Tables of the sign test give the order statistics of a 95 % interval for the median: n = 10: 2 and 9; n = 20: 6 and 15;
    // n = 25: 8 and 18 (Practical Nonparametric Statistics, 3rd edition, Wiley 1999, table A3; from memory, and recomputed
    // with scipy.stats.binom).
    [Theory]
    [InlineData(10, 2, 9)]
    [InlineData(20, 6, 15)]
    [InlineData(25, 8, 18)]
    public void SampleQuantile_Interval_TakesTheTabulatedRanks(int n, int lower, int upper)
    {
        double[] ranks = [.. Enumerable.Range(1, n).Select(i => (double)i)];
        ConfidenceInterval interval = SampleQuantile.Interval(ranks, 0.5)!.Value;
        Assert.Equal((lower, upper), (interval.Lower, interval.Upper));
    }

    [Fact]
    public void SampleQuantile_OfTooSmallASample_HasNoInterval()
    {
        Assert.Null(SampleQuantile.Interval([1, 2, 3, 4, 5], 0.5));
        Assert.NotNull(SampleQuantile.Interval([1, 2, 3, 4, 5, 6], 0.5));
        Assert.Equal(6, SampleQuantile.SmallestSample(0.5));
        double[] sample = new double[(int)SampleQuantile.SmallestSample(0.99)];
        Assert.NotNull(SampleQuantile.Interval(sample, 0.99));
        Assert.Null(SampleQuantile.Interval(sample.AsSpan(1), 0.99));
        Assert.Throws<ArgumentException>(() => SampleQuantile.Estimate([2, 1], 0.5));
        Assert.Throws<ArgumentException>(() => SampleQuantile.Estimate([], 0.5));
    }

    // scipy.stats.ks_2samp 1.10.1 gives the distance 0.5; one-sample distance by hand: D = max(0.5 - 0.1, ...) = 0.4.
    [Fact]
    public void KolmogorovSmirnov_Distances_AgreeWithHandAndLibrary()
    {
        Assert.Equal(
            0.5,
            KolmogorovSmirnov.Compare([0.1, 0.4, 0.7, 1.5, 2.2], [0.3, 0.4, 1.0, 3.0, 3.1, 4.0]).Distance,
            1e-15
        );
        KolmogorovSmirnov one = KolmogorovSmirnov.Compare([0.1, 0.1, 0.9], x => x);
        Near.Relative(2.0 / 3 - 0.1, one.Distance, 1e-15);
        Assert.Throws<ArgumentException>(() => KolmogorovSmirnov.Compare([0.1], _ => 2));
    }

    // Property: under the hypothesis the p-value is uniform. 400 samples of 30; the p-values are tested by the same test.
    [Fact]
    public void KolmogorovSmirnov_UnderTheHypothesis_HasUniformPValues()
    {
        double[] p = new double[400];
        double[] sample = new double[30];
        for (int i = 0; i < p.Length; i++)
        {
            new RandomDraws(9, (ulong)i, "test.ks").FillUniform(0, sample);
            Array.Sort(sample);
            p[i] = KolmogorovSmirnov.Compare(sample, x => x).PValue;
        }
        Array.Sort(p);
        Assert.True(KolmogorovSmirnov.Compare(p, x => x).PValue > 1e-4);
    }

    // NIST Statistical Reference Datasets, linear regression, Norris: certified values.
    [Fact]
    public void LinearRegression_OfNorris_HasCertifiedValues()
    {
        double[] y =
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
        double[] x =
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
        LinearRegression line = LinearRegression.Fit(x, y);
        Near.Relative(-0.262323073774029, line.Intercept, 1e-10);
        Near.Relative(1.00211681802045, line.Slope, 1e-13);
        Near.Relative(0.232818234301152, line.InterceptStandardError, 1e-10);
        Near.Relative(0.429796848199937e-3, line.SlopeStandardError, 1e-10);
        Near.Relative(0.884796396144373, line.ResidualDeviation, 1e-10);
        Near.Relative(0.999993745883712, line.RSquared, 1e-13);
        Assert.True(line.SlopeInterval(0.95).Contains(1.0021));
        Assert.Throws<ArgumentException>(() => LinearRegression.Fit([1, 1, 1], [1, 2, 3]));
    }
}
