using Lightkeel.Numerics.Sampling.Elementary;
using Lightkeel.Numerics.Sampling.Statistics;
using Xunit;

namespace Lightkeel.Numerics.Tests.Sampling.Statistics;

public class ReferenceDistributionTests
{
    // mpmath 1.2.1, 40 digits (the two large cases by quadrature of the density with 30 digits).
    [Theory]
    [InlineData(0.5, 0.5, 0.1, 0.20483276469913345)]
    [InlineData(2, 3, 0.4, 0.5248)]
    [InlineData(81, 183, 0.3, 0.41146159809547844)]
    [InlineData(0.5, 20, 0.001, 0.1575838139836385)]
    [InlineData(1000, 1, 0.99, 4.317124741065786e-05)]
    [InlineData(1e6, 1e6, 0.5003, 0.8019280371578851)]
    [InlineData(5e5, 1.5e6, 0.2495, 0.05118744149989842)]
    public void IncompleteBeta_AgreesWithMultiplePrecision(double a, double b, double x, double expected) =>
        Near.Relative(expected, IncompleteBeta.Regularized(a, b, x), 1e-12);

    // scipy.stats.beta.ppf 1.10.1.
    [Theory]
    [InlineData(4, 17, 0.05, 0.0713538843086182)]
    [InlineData(1e5, 3, 0.025, 0.999927756455468)]
    [InlineData(0.5, 0.5, 1e-6, 2.46740110027031e-12)]
    [InlineData(2, 1e6, 0.025, 2.4220912810678334e-07)]
    public void IncompleteBetaInverse_AgreesWithReferenceLibrary(double a, double b, double p, double expected) =>
        Near.Relative(expected, IncompleteBeta.Inverse(a, b, p), 1e-9);

    // scipy.stats.chi2.ppf 1.10.1.
    [Theory]
    [InlineData(0.95, 10, 18.307038053275146)]
    [InlineData(0.025, 2, 0.05063561596857975)]
    [InlineData(0.975, 3.7, 10.618055248352459)]
    [InlineData(0.005, 200.5, 152.67664052237322)]
    [InlineData(0.995, 2000, 2166.6643003915583)]
    [InlineData(1e-6, 1, 1.5707963267957187e-12)]
    [InlineData(0.5, 50000, 49999.3333349136)]
    public void ChiSquare_AgreesWithReferenceLibrary(double p, double freedom, double expected) =>
        Near.Relative(expected, ChiSquare.Quantile(p, freedom), 1e-10);

    // mpmath 1.2.1 with 40 digits: root of the integrated density (the library's own quantiles are good to 1e-11 only).
    [Theory]
    [InlineData(0.975, 10, 2.2281388519862744)]
    [InlineData(0.6, 3, 0.27667066233268983)]
    [InlineData(0.995, 34, 2.72839436707072)]
    [InlineData(0.01, 1.5, -11.197316179568398)]
    [InlineData(0.5, 7, 0)]
    public void StudentT_AgreesWithReferenceLibrary(double p, double freedom, double expected) =>
        Near.Relative(expected, StudentT.Quantile(p, freedom), 1e-12);

    // Standard tables print 1.95996, 2.2281, 18.307, 1.358 and 0.2941; further digits by SciPy, t by mpmath.
    [Fact]
    public void Quantiles_AgreeWithStandardTables()
    {
        Near.Relative(1.9599639845401, StandardNormal.Quantile(0.975), 1e-12);
        Near.Relative(2.2281388519862744, StudentT.Quantile(0.975, 10), 1e-12);
        Near.Relative(18.307038053275, ChiSquare.Quantile(0.95, 10), 1e-12);
        Near.Relative(1.3580986393226, KolmogorovDistribution.LimitCriticalValue(0.05), 1e-12);
        Near.Relative(0.29407531443433, KolmogorovDistribution.CriticalDistance(20, 0.05), 1e-12);
    }

    // scipy.stats.kstwo.sf 1.10.1; for 500 and for 2000 at 0.02 the matrix of the cited paper with 60 digits (mpmath 1.2.1),
    // because the library uses a series good to 1e-7 there.
    [Theory]
    [InlineData(1, 0.7, 0.6000000000000001, 1e-14)]
    [InlineData(5, 0.3, 0.664, 1e-12)]
    [InlineData(10, 0.7, 1.9544800000000034e-05, 1e-9)]
    [InlineData(20, 0.1, 0.976255094592155, 1e-12)]
    [InlineData(20, 0.29407531443433, 0.050000000000000155, 1e-12)]
    [InlineData(100, 0.1, 0.2526927570063874, 1e-12)]
    [InlineData(100, 0.05, 0.9532159710635725, 1e-12)]
    [InlineData(500, 0.05, 0.15866263922061993, 1e-12)]
    [InlineData(2000, 0.02, 0.3953133720030919, 1e-9)]
    [InlineData(2000, 0.01, 0.9871373661366796, 1e-9)]
    [InlineData(10000, 0.01, 0.2682191277029192, 1e-5)]
    [InlineData(10000, 0.0136, 0.04903580807632146, 5e-5)]
    [InlineData(100000, 0.003, 0.3284563327726956, 1e-5)]
    public void KolmogorovDistribution_AgreesWithReferenceLibrary(int n, double d, double expected, double tolerance) =>
        Near.Relative(expected, KolmogorovDistribution.Survival(n, d), tolerance);

    // The two ways of computing must meet where they are handed over; scipy.special.kolmogorov for the limit.
    [Fact]
    public void KolmogorovDistribution_AtItsSeams_IsContinuous()
    {
        foreach (int n in (int[])[20, 100, 300])
        {
            double seam = 2 / Math.Sqrt(n);
            double below = KolmogorovDistribution.Survival(n, seam * (1 - 1e-9));
            Near.Relative(KolmogorovDistribution.Survival(n, seam), below, 3e-7);
        }
        Near.Relative(0.9639452436648751, KolmogorovDistribution.LimitSurvival(0.5), 1e-14);
        Near.Relative(0.3927307079406543, KolmogorovDistribution.LimitSurvival(0.9), 1e-14);
        Near.Relative(
            KolmogorovDistribution.LimitSurvival(1),
            KolmogorovDistribution.LimitSurvival(Math.BitDecrement(1.0)),
            1e-14
        );
        Assert.Equal(1, KolmogorovDistribution.Survival(7, 0));
        Assert.Equal(0, KolmogorovDistribution.Survival(7, 1));
        Assert.Equal(1, KolmogorovDistribution.LimitSurvival(0));
    }
}
