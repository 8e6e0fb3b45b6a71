using Lightkeel.Numerics.Sampling.Statistics;
using Xunit;

namespace Lightkeel.Numerics.Tests.Sampling.Statistics;

// Remission times in weeks of Blood 21, 699 (1963): treated group (+ still in remission) 6, 6, 6, 6+, 7, 9+, 10, 10+, 11+, 13,
// 16, 17+, 19+, 20+, 22, 23, 25+, 32+, 32+, 34+, 35+; control group without censoring. The worked example of many
// textbooks; further digits recomputed with a general statistics library.
public class SurvivalTests
{
    private static readonly double[] s_times =
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

    private static readonly bool[] s_ended =
    [
        true,
        true,
        true,
        false,
        true,
        false,
        true,
        false,
        false,
        true,
        true,
        false,
        false,
        false,
        true,
        true,
        false,
        false,
        false,
        false,
        false,
    ];

    private static readonly double[] s_control =
    [
        1,
        1,
        2,
        2,
        3,
        4,
        4,
        5,
        5,
        8,
        8,
        8,
        8,
        11,
        11,
        12,
        12,
        15,
        17,
        22,
        23,
    ];

    [Theory]
    [InlineData(5.9, 1)]
    [InlineData(6, 0.857143)]
    [InlineData(10, 0.752941)]
    [InlineData(13, 0.690196)]
    [InlineData(22, 0.537815)]
    [InlineData(23, 0.448179)]
    [InlineData(35, 0.448179)]
    public void KaplanMeier_OfThePublishedTimes_Agrees(double week, double expected) =>
        Near.Absolute(expected, new KaplanMeier(s_times, s_ended).Survival(week)!.Value, 2e-6);

    // Greenwood's standard error at 6 weeks is that of a proportion 18/21 while nothing is censored before: 0.0764 (printed
    // with the example in textbooks); at 23 weeks 0.1346.
    [Fact]
    public void KaplanMeier_StandardErrors_AreGreenwoods()
    {
        KaplanMeier curve = new(s_times, s_ended);
        Near.Relative(Math.Sqrt(18.0 / 21 * (3.0 / 21) / 21), curve.Steps[0].StandardError, 1e-13);
        Near.Absolute(0.1346, curve.Steps[^1].StandardError, 5e-5);
        Assert.Equal((6.0, 21, 3), (curve.Steps[0].Time, curve.Steps[0].AtRisk, curve.Steps[0].Events));
        Assert.Equal(7, curve.Steps.Length);
        Assert.Null(curve.Survival(36));
        Assert.Equal(23, curve.TimeToLevel(0.5));
        Assert.Null(curve.TimeToLevel(0.4));
    }

    // ln(-ln S) interval at 6 weeks, 0.6197 to 0.9516: printed by statistics packages for this example (from memory), and the
    // formula evaluated in Python: 0.6197180, 0.9515517.
    [Fact]
    public void KaplanMeier_Interval_StaysBetweenZeroAndOne()
    {
        ConfidenceInterval interval = new KaplanMeier(s_times, s_ended).Interval(6)!.Value;
        Near.Absolute(0.6197180, interval.Lower, 5e-6);
        Near.Absolute(0.9515517, interval.Upper, 5e-6);
        Assert.Null(new KaplanMeier(s_times, s_ended).Interval(5));
        Assert.Null(new KaplanMeier(s_control, AllEnded(s_control)).Interval(23));
        Assert.Equal(0, new KaplanMeier(s_control, AllEnded(s_control)).Survival(100));
    }

    // Property: without censoring the curve is the share that lasts longer.
    [Fact]
    public void KaplanMeier_WithoutCensoring_IsTheEmpiricalCurve()
    {
        KaplanMeier curve = new(s_control, AllEnded(s_control));
        foreach (double week in (double[])[0, 1, 4.5, 8, 12, 22])
        {
            Near.Relative(s_control.Count(t => t > week) / 21.0, curve.Survival(week)!.Value, 1e-14);
        }
    }

    // Chi-square 16.79 on one degree of freedom in the textbooks.
    [Fact]
    public void LogRank_OfThePublishedGroups_Agrees()
    {
        LogRank test = LogRank.Compare(s_times, s_ended, s_control, AllEnded(s_control));
        Near.Relative(16.79294, test.ChiSquared, 1e-6);
        Near.Relative(4.168809e-05, test.PValue, 1e-5);
        LogRank same = LogRank.Compare(s_control, AllEnded(s_control), s_control, AllEnded(s_control));
        Near.Absolute(0, same.ChiSquared, 1e-25);
    }

    // 9 events in 359 weeks: rate 9/359; interval by scipy.stats.chi2 1.10.1.
    [Fact]
    public void ExponentialRate_OfThePublishedTimes_Agrees()
    {
        ExponentialRate rate = ExponentialRate.Estimate(s_ended.Count(e => e), s_times.Sum());
        Near.Relative(0.025069637883008, rate.Rate, 1e-13);
        Near.Relative(0.011463434811638813, rate.Interval.Lower, 1e-10);
        Near.Relative(0.04758998175882776, rate.Interval.Upper, 1e-10);
        // No events: upper bound -ln(0.025)/T, closed form.
        Near.Relative(-Math.Log(0.025) / 10, ExponentialRate.Estimate(0, 10).Interval.Upper, 1e-10);
        Assert.Equal(0, ExponentialRate.Estimate(0, 10).Interval.Lower);
    }

    [Fact]
    public void Survival_OfBadObservations_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => new KaplanMeier([], []));
        Assert.Throws<ArgumentException>(() => new KaplanMeier([1, 2], [true]));
        Assert.Throws<ArgumentException>(() => new KaplanMeier([-1], [true]));
        Assert.Throws<ArgumentException>(() => LogRank.Compare([1], [false], [1], [false]));
    }

    private static bool[] AllEnded(double[] times) => [.. times.Select(_ => true)];
}
