using Lightkeel.Numerics.Sampling.Draws;
using Lightkeel.Numerics.Sampling.Estimation;
using Lightkeel.Numerics.Sampling.Statistics;
using Xunit;

namespace Lightkeel.Numerics.Tests.Sampling.Estimation;

public class WelchTests
{
    // Table I of Proceedings of the IEEE 66, 51 (1978), doi:10.1109/PROC.1978.10837, and the closed forms behind it
    // (Hann: 3/2, 1/6; further digits recomputed with NumPy on periodic windows of 2^16 samples).
    [Theory]
    [InlineData(WindowKind.Boxcar, 1.0, 3.9223975406030, 0.5, 0.25)]
    [InlineData(WindowKind.Hann, 1.5, 1.423622808437, 0.16666666666667, 0.6591549430919)]
    [InlineData(WindowKind.Hamming, 1.3628257887517, 1.7514311728285, 0.23376950176145, 0.70691892413678)]
    [InlineData(WindowKind.FlatTop, 3.7702464474434, 0.0097780584283173, null, null)]
    public void Window_HasThePublishedFigures(
        WindowKind kind,
        double bandwidth,
        double scallop,
        double? overlapHalf,
        double? overlapThreeQuarters
    )
    {
        Window window = new(kind, 1 << 14);
        Near.Relative(bandwidth, window.EquivalentNoiseBandwidthBins, 1e-8);
        Near.Absolute(scallop, window.ScallopLossDecibels, 1e-6);
        if (overlapHalf is double half && overlapThreeQuarters is double threeQuarters)
        {
            Near.Relative(half, window.OverlapCorrelation(1 << 13), 1e-3);
            Near.Relative(kind == WindowKind.Boxcar ? 0.75 : threeQuarters, window.OverlapCorrelation(1 << 12), 1e-3);
        }
    }

    // scipy.signal.welch 1.10.1 (fs = 100, nperseg = 256, density, constant detrend), bins 0, 1, 15, 100, 128.
    [Theory]
    [InlineData(WindowKind.Hann, 0.5, 0.002568274809101146, 0.006696287616236808, 0.847304796257491, 6.9e-14)]
    [InlineData(
        WindowKind.Hamming,
        0.75,
        0.0023335353858482183,
        0.004424845347494,
        0.930999169725063,
        3.4642173650659395e-07
    )]
    [InlineData(WindowKind.Boxcar, 0, 0, 0.012985354164596402, 1.2615682689548926, 2.450813591867501e-05)]
    public void Estimate_AgreesWithReferenceLibrary(
        WindowKind kind,
        double overlap,
        double bin0,
        double bin1,
        double bin15,
        double bin100
    )
    {
        SpectrumEstimate estimate = new WelchEstimator(256, kind, overlap).Estimate(Record(), 0.01);
        Near.Absolute(bin0, estimate.Densities[0], 1e-14);
        Near.Relative(bin1, estimate.Densities[1], 1e-11);
        Near.Relative(bin15, estimate.Densities[15], 1e-11);
        Near.Absolute(bin100, estimate.Densities[100], 2e-16 + 1e-7 * bin100);
    }

    // The same without detrending, flat-top window.
    [Fact]
    public void Estimate_KeepingTheMean_AgreesWithReferenceLibrary()
    {
        SpectrumEstimate estimate = new WelchEstimator(256, WindowKind.FlatTop, 0.5, false).Estimate(Record(), 0.01);
        Near.Relative(0.0011340674072252955, estimate.Densities[0], 1e-9);
        Near.Relative(0.012920864324371704, estimate.Densities[1], 1e-9);
        Near.Relative(0.34274989194083305, estimate.Densities[15], 1e-9);
        Near.Relative(0.39062500, estimate.FrequencyStepHertz, 1e-15);
    }

    // A sine of 1 V rms in the middle of a bin shows A²/2/(1.5 df) with a Hann window; closed form, and scipy.signal.welch.
    [Fact]
    public void Estimate_OfASineOnABin_HasThePublishedPeak()
    {
        double[] record = new double[8192];
        for (int n = 0; n < record.Length; n++)
        {
            record[n] = Math.Sqrt(2) * Math.Sin(2 * Math.PI * 125 * n / 1000.0);
        }
        SpectrumEstimate estimate = new WelchEstimator(1024).Estimate(record, 1e-3);
        Near.Relative(0.68266666666667, estimate.Densities[128], 1e-12);
    }

    // White noise of variance 1 at 1000 samples/s: 2 s²/f_s = 0.002 unit²/Hz, the definition of a one-sided density.
    [Fact]
    public void Estimate_OfWhiteNoise_HasTheDefinedLevel()
    {
        double[] record = new double[1 << 16];
        new RandomDraws(4, 0, "test.white").FillNormal(0, record);
        SpectrumEstimate estimate = new WelchEstimator(512).Estimate(record, 1e-3);
        RunningMoments level = RunningMoments.Of(estimate.Densities[2..^2]);
        Near.Relative(0.002, level.Mean, 4.5 * Math.Sqrt(2.0 / record.Length));
        // The scatter over bins must be what the effective averages promise, 1/K, to the accuracy of a sample variance.
        double promised = 0.002 * 0.002 / estimate.EffectiveAverages;
        Near.Relative(promised, level.Variance, 5 * Math.Sqrt(2.0 / 252 * 2));
    }

    // Independent segments: K; Hann at half overlap and many segments: K/(1 + 2/36), from the published correlation 1/6.
    [Fact]
    public void EffectiveAverages_FollowThePublishedFormula()
    {
        double[] record = new double[256 * 64];
        record[0] = 1;
        Near.Relative(64, new WelchEstimator(256, WindowKind.Hann, 0).Estimate(record, 1).EffectiveAverages, 1e-15);
        SpectrumEstimate half = new WelchEstimator(256).Estimate(record, 1);
        Assert.Equal(127, half.SegmentCount);
        double expected = 127 / (1 + 2 * (1 - 1.0 / 127) / 36);
        Near.Relative(expected, half.EffectiveAverages, 1e-4);
    }

    // Chi-square band, 2 K = 20 degrees of freedom: 20/34.1696 and 20/9.5908 (chi-square table, 95 %).
    [Fact]
    public void Factors_AreThoseOfChiSquare()
    {
        double[] record = new double[640];
        record[5] = 1;
        SpectrumEstimate estimate = new WelchEstimator(64, WindowKind.Boxcar, 0).Estimate(record, 1);
        ConfidenceInterval factors = estimate.Factors(0.95);
        Near.Relative(20 / 34.169606902838, factors.Lower, 1e-9);
        Near.Relative(20 / 9.590777392265, factors.Upper, 1e-9);
    }

    [Fact]
    public void Estimate_OfBadRecords_Refuses()
    {
        WelchEstimator welch = new(64);
        Assert.Throws<ArgumentException>(() => welch.Estimate(new double[63], 1));
        double[] bad = new double[64];
        bad[3] = double.NaN;
        Assert.Throws<ArgumentException>(() => welch.Estimate(bad, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => welch.Estimate(new double[64], 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new WelchEstimator(64, WindowKind.Hann, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new WelchEstimator(100));
    }

    private static double[] Record()
    {
        double[] record = new double[4096];
        for (int n = 0; n < record.Length; n++)
        {
            record[n] = Math.Sin(0.37 * n) + Math.Cos(0.0031 * Math.Pow(n, 1.5));
        }
        return record;
    }
}
