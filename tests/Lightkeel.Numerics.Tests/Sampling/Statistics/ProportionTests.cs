using Lightkeel.Numerics.Sampling.Statistics;
using Xunit;

namespace Lightkeel.Numerics.Tests.Sampling.Statistics;

public class ProportionTests
{
    // 4 of 20 at 90 %: NIST/SEMATECH e-Handbook of Statistical Methods, section 7.2.4.1 (prints 0.071354, 0.401029 and the
    // Wilson formula); further digits by SciPy beta quantiles.
    [Fact]
    public void Intervals_OfTheHandbookExample_Agree()
    {
        AssertInterval(0.071353884308618, 0.40102811733197, Proportion.ClopperPearson(4, 20, 0.9), 1e-12);
        AssertInterval(0.093118016581211, 0.37837668583537, Proportion.Wilson(4, 20, 0.9), 1e-12);
    }

    // Statistics in Medicine 17, 857 (1998), doi:10.1002/(SICI)1097-0258(19980430)17:8<857::AID-SIM777>3.0.CO;2-E, Table I
    // (four digits); further digits by SciPy.
    [Theory]
    [InlineData(81, 263, 0.25528851987827, 0.3662095769828, 0.25273674558527, 0.36762192260135)]
    [InlineData(15, 148, 0.062386399530736, 0.16048724172331, 0.057844010083449, 0.16165049034948)]
    public void Intervals_OfThePublishedTable_Agree(long k, long n, double w0, double w1, double c0, double c1)
    {
        AssertInterval(w0, w1, Proportion.Wilson(k, n), 1e-12);
        AssertInterval(c0, c1, Proportion.ClopperPearson(k, n), 1e-12);
    }

    // Boundary case of Statistical Science 16, 101 (2001), doi:10.1214/ss/1009213286; digits by SciPy.
    [Fact]
    public void Intervals_AtTheBoundary_ReachZeroAndOne()
    {
        AssertInterval(0, 0.27753279986289, Proportion.Wilson(0, 10), 1e-12);
        AssertInterval(0, 0.30849710781876, Proportion.ClopperPearson(0, 10), 1e-12);
        AssertInterval(1 - 0.27753279986289, 1, Proportion.Wilson(10, 10), 1e-12);
        AssertInterval(1 - 0.30849710781876, 1, Proportion.ClopperPearson(10, 10), 1e-12);
    }

    // Journal of the American Statistical Association 22, 209 (1927): formula evaluated in Python.
    [Fact]
    public void Wilson_OfAThousandTrials_Agrees() =>
        AssertInterval(0.93468617975575, 0.96186973760725, Proportion.Wilson(950, 1000), 1e-12);

    // Success-run theorem, Annals of Mathematical Statistics 12, 91 (1941): 59 and 299 trials; 0 of 100: 1 - 0.05^(1/100).
    [Fact]
    public void ZeroFailures_FollowTheSuccessRunTheorem()
    {
        Assert.Equal(59, Proportion.ZeroFailureTrials(0.95, 0.95));
        Assert.Equal(299, Proportion.ZeroFailureTrials(0.99, 0.95));
        Assert.Equal(2, Proportion.ZeroFailureTrials(0.5, 0.75));
        Near.Relative(0.02951304960704, Proportion.ZeroFailureUpperBound(100), 1e-12);
        Near.Relative(
            2 * Proportion.ZeroFailureUpperBound(100, 0.975),
            2 * Proportion.ClopperPearson(0, 100).Upper,
            1e-13
        );
    }

    // The defining property, exact: at the ends of the interval the binomial tail is half the doubt. Binomial sum in logarithms.
    [Fact]
    public void ClopperPearson_OfManyTrials_HasTheDefiningTails()
    {
        ConfidenceInterval interval = Proportion.ClopperPearson(37, 1_000_000);
        double tail = 0;
        double logTerm = 1_000_000 * Math.Log(1 - interval.Upper);
        for (int k = 0; k <= 37; k++)
        {
            tail += Math.Exp(logTerm);
            logTerm += Math.Log((1_000_000.0 - k) / (k + 1)) + Math.Log(interval.Upper / (1 - interval.Upper));
        }
        Near.Relative(0.025, tail, 1e-8);
    }

    // Lower end 1 - 0.975^(1/n); upper end the root of (1-p)^n + n p (1-p)^(n-1) = 0.025 with 50 digits (mpmath 1.2.1).
    [Fact]
    public void ClopperPearson_OfOneInABillion_KeepsItsDigits() =>
        AssertInterval(
            2.5317807983969383e-11,
            5.571643378203115e-09,
            Proportion.ClopperPearson(1, 1_000_000_000),
            1e-10
        );

    [Fact]
    public void Intervals_OfImpossibleCounts_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Proportion.Wilson(3, 2));
        Assert.Throws<ArgumentOutOfRangeException>(() => Proportion.Wilson(-1, 2));
        Assert.Throws<ArgumentOutOfRangeException>(() => Proportion.ClopperPearson(0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Proportion.ClopperPearson(1, 2, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Proportion.ZeroFailureTrials(1, 0.9));
    }

    private static void AssertInterval(double lower, double upper, ConfidenceInterval actual, double tolerance)
    {
        Near.Relative(lower, actual.Lower, tolerance);
        Near.Relative(upper, actual.Upper, tolerance);
    }
}
