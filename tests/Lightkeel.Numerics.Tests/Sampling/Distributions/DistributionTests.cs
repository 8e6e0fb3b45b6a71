using CsCheck;
using Lightkeel.Numerics.Sampling.Distributions;
using Xunit;

namespace Lightkeel.Numerics.Tests.Sampling.Distributions;

// Expected values: scipy.stats 1.10.1 (truncnorm, lognorm, triang, rayleigh, uniform); far tails of the truncated
// normal: mpmath 1.2.1 with 200 digits.
public class DistributionTests
{
    public static TheoryData<Distribution> All =>
        [
            new NormalDistribution(-3, 0.25),
            new UniformDistribution(-2, 3),
            new LogNormalDistribution(3, 0.5),
            new TriangularDistribution(-1, 0, 3),
            new TriangularDistribution(-1, -1, 3),
            new TriangularDistribution(-1, 3, 3),
            new RayleighDistribution(2),
            new TruncatedNormalDistribution(1, 2, -1, 6),
            new TruncatedNormalDistribution(0, 1, 3, double.PositiveInfinity),
            new TruncatedNormalDistribution(0, 1, double.NegativeInfinity, -3),
        ];

    [Theory]
    [MemberData(nameof(All))]
    public void Cumulative_OfQuantile_IsTheProbability(Distribution distribution) =>
        Gen.Double[1e-9, 1 - 1e-9]
            .Sample(p => Near.Absolute(p, distribution.Cumulative(distribution.Quantile(p)), 3e-14), iter: 500);

    [Theory]
    [MemberData(nameof(All))]
    public void Density_IsTheSlopeOfTheCumulative(Distribution distribution) =>
        Gen.Double[0.01, 0.99]
            .Sample(
                p =>
                {
                    double x = distribution.Quantile(p);
                    double h = 1e-4 * distribution.StandardDeviation;
                    double slope = (distribution.Cumulative(x + h) - distribution.Cumulative(x - h)) / (2 * h);
                    Near.Absolute(slope, distribution.Density(x), 2e-4 / distribution.StandardDeviation);
                },
                iter: 200
            );

    // Midpoint rule over the quantile function: mean and deviation must be those announced.
    [Theory]
    [MemberData(nameof(All))]
    public void Moments_AreThoseOfTheQuantiles(Distribution distribution)
    {
        const int n = 200_000;
        double sum = 0;
        double squares = 0;
        for (int i = 0; i < n; i++)
        {
            double d = distribution.Quantile((i + 0.5) / n) - distribution.Mean;
            sum += d;
            squares += d * d;
        }
        Near.Absolute(0, sum / n / distribution.StandardDeviation, 2e-5);
        Near.Absolute(1, squares / n / (distribution.StandardDeviation * distribution.StandardDeviation), 2e-4);
    }

    [Fact]
    public void TruncatedNormal_AgreesWithReferenceLibrary()
    {
        TruncatedNormalDistribution cut = new(1, 2, -1, 6);
        Near.Relative(1.5374996912498426, cut.Mean, 1e-12);
        Near.Relative(1.530442603289127, cut.StandardDeviation, 1e-12);
        Near.Relative(-0.9321237936061286, cut.Quantile(0.01), 1e-13);
        Near.Relative(1.38447949781595, cut.Quantile(0.5), 1e-13);
        Near.Relative(5.363661336348439, cut.Quantile(0.99), 1e-13);
        Near.Relative(0.6379892542278056, cut.Cumulative(2), 1e-13);
        Near.Relative(0.21078346179109944, cut.Density(2), 1e-13);
    }

    [Fact]
    public void TruncatedNormal_FarOutOrNarrow_KeepsItsDigits()
    {
        TruncatedNormalDistribution far = new(0, 1, 30, 31);
        Near.Relative(30.033259667433622, far.Mean, 1e-12);
        Near.Relative(0.03322305693092197, far.StandardDeviation, 1e-10);
        Near.Relative(30.02307046782731, far.Quantile(0.5), 1e-13);
        TruncatedNormalDistribution mirrored = new(0, 1, -31, -30);
        Near.Relative(-30.02307046782731, mirrored.Quantile(0.5), 1e-13);
        TruncatedNormalDistribution narrow = new(0, 1, 0.1, 0.1001);
        Near.Relative(0.100049999916625, narrow.Mean, 1e-13);
        Near.Relative(2.8867513454597795e-05, narrow.StandardDeviation, 1e-9);
        TruncatedNormalDistribution oneSided = new(0, 1, double.NegativeInfinity, -2);
        Near.Relative(-2.373215532822841, oneSided.Mean, 1e-12);
        Near.Relative(0.33805191970181336, oneSided.StandardDeviation, 1e-11);
    }

    [Fact]
    public void LogNormal_AgreesWithReferenceLibrary()
    {
        LogNormalDistribution x = new(3, 0.5);
        Near.Relative(3.399445359200479, x.Mean, 1e-14);
        Near.Relative(1.8117015996326433, x.StandardDeviation, 1e-14);
        Near.Relative(1.3180923147824772, x.Quantile(0.05), 1e-14);
        Near.Relative(6.828049825542951, x.Quantile(0.95), 1e-14);
        Near.Relative(0.7174774760140556, x.Cumulative(4), 1e-14);
        Near.Relative(0.16904206944927, x.Density(4), 1e-14);
        LogNormalDistribution fitted = LogNormalDistribution.FromMoments(x.Mean, x.StandardDeviation);
        Near.Relative(3, fitted.Median, 1e-14);
        Near.Relative(0.5, fitted.LogDeviation, 1e-14);
    }

    [Fact]
    public void TriangularAndRayleighAndUniform_AgreeWithReferenceLibrary()
    {
        TriangularDistribution t = new(-1, 0, 3);
        Near.Relative(0.6666666666666667, t.Mean, 1e-15);
        Near.Relative(0.8498365855987975, t.StandardDeviation, 1e-15);
        Near.Relative(-0.5527864045000421, t.Quantile(0.05), 1e-14);
        Near.Relative(2.225403330758516, t.Quantile(0.95), 1e-14);
        Near.Relative(0.4791666666666667, t.Cumulative(0.5), 1e-14);
        Near.Relative(0.4166666666666667, t.Density(0.5), 1e-14);
        Near.Relative(0.0625, t.Cumulative(-0.5), 1e-14);
        RayleighDistribution r = new(2);
        Near.Relative(2.5066282746310002, r.Mean, 1e-15);
        Near.Relative(1.3102727551240672, r.StandardDeviation, 1e-15);
        Near.Relative(2.8284271247461902e-09, r.Quantile(1e-18), 1e-14);
        Near.Relative(4.895493661361632, r.Quantile(0.95), 1e-14);
        Near.Relative(1.25e-19, r.Cumulative(1e-9), 1e-14);
        Near.Relative(0.2434893505187623, r.Density(3), 1e-14);
        Near.Relative(1.4433756729740643, new UniformDistribution(-2, 3).StandardDeviation, 1e-15);
        Near.Relative(-0.5, new UniformDistribution(-2, 3).Quantile(0.3), 1e-15);
    }

    [Fact]
    public void Distributions_GivenImpossibleParameters_Refuse()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new NormalDistribution(double.NaN, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new NormalDistribution(0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new UniformDistribution(1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new LogNormalDistribution(0, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new LogNormalDistribution(1, 30));
        Assert.Throws<ArgumentOutOfRangeException>(() => new TriangularDistribution(0, 2, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new RayleighDistribution(-1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new TruncatedNormalDistribution(0, 1, 2, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new TruncatedNormalDistribution(0, 1, 38, 40));
        Assert.Throws<ArithmeticException>(() => new NormalDistribution(0, 1e308).Quantile(0.999));
        Assert.Throws<ArgumentOutOfRangeException>(() => new NormalDistribution(0, 1).Quantile(1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new NormalDistribution(0, 1).Cumulative(double.NaN));
    }
}
