using Lightkeel.Numerics.Sampling.Draws;
using Lightkeel.Numerics.Sampling.Estimation;
using Lightkeel.Numerics.Sampling.Spectra;
using Lightkeel.Numerics.Sampling.Statistics;
using Lightkeel.Numerics.Sampling.Synthesis;
using Xunit;

namespace Lightkeel.Numerics.Tests.Sampling.Synthesis;

public class NoiseSynthesisTests
{
    private static readonly RandomDraws s_draws = new(2718, 3, "test.noise");

    // Spectra that are smooth at the resolution of the estimate (step 1 ms, segments of 1024: about 1.5 Hz), with the
    // band of frequencies in which no edge lies within the window's reach.
    public static TheoryData<PowerSpectralDensity, double, double> Kinds =>
        new()
        {
            { new BandLimitedWhiteSpectrum(1e-8, 200), 4, 190 },
            { new LowPassWhiteSpectrum(1e-8, 60), 4, 490 },
            { new PowerLawSpectrum(1, 10, -1, 0.1, 400), 10, 390 },
            { new LineSpectrum(120, 12, 0.2), 80, 200 },
            { new TableSpectrum([10, 50, 200, 400], [1e-4, 2e-3, 2e-3, 5e-5]), 20, 390 },
            { new VonKarmanTiltSpectrum(20, 4, 1, 0.1, 1e-6, TiltKind.Gradient), 12, 490 },
            { new VonKarmanTiltSpectrum(20, 4, 1, 0.1, 1e-6, TiltKind.Zernike), 12, 150 },
        };

    // 64 independent records: every frequency has 128 degrees of freedom and a 99.9 % chi-square band. The expected number
    // of bins outside is 1 in 1000; allowed are 1 in 100, and the band's variance must agree to five standard errors.
    [Theory]
    [MemberData(nameof(Kinds))]
    public void PeriodicNoise_Estimated_LiesInsideItsBand(PowerSpectralDensity spectrum, double from, double to)
    {
        const int length = 1024;
        const int records = 64;
        PeriodicNoise noise = new(spectrum, 1e-3, length);
        WelchEstimator welch = new(length, WindowKind.Boxcar, 0, removeMean: false);
        double[] record = new double[length * records];
        for (int r = 0; r < records; r++)
        {
            noise.Fill(s_draws, (ulong)r, record.AsSpan(r * length, length));
        }
        AssertInside(welch.Estimate(record, 1e-3), spectrum, from, to);
    }

    // The same for a long stitched record and overlapping Hann segments of another length than the blocks.
    [Theory]
    [MemberData(nameof(Kinds))]
    public void RunningNoise_Estimated_LiesInsideItsBand(PowerSpectralDensity spectrum, double from, double to)
    {
        RunningNoise noise = new(new PeriodicNoise(spectrum, 1e-3, 4096), s_draws);
        double[] record = new double[1 << 16];
        noise.Fill(12345, record);
        AssertInside(new WelchEstimator(1024).Estimate(record, 1e-3), spectrum, from, to);
    }

    // The expected variance is the integral of the spectrum up to the Nyquist frequency, whatever falls between bins:
    // a line a hundred times narrower than a bin, and one at the end of the range.
    [Theory]
    [InlineData(100.3, 0.01)]
    [InlineData(499.9, 0.01)]
    [InlineData(0.2, 0.1)]
    public void PeriodicNoise_OfANarrowLine_KeepsItsVariance(double centre, double width)
    {
        LineSpectrum line = new(centre, width, 1);
        PeriodicNoise noise = new(line, 1e-3, 256);
        double[] record = new double[256];
        RunningMoments squares = default;
        for (ulong r = 0; r < 2000; r++)
        {
            noise.Fill(s_draws, r, record);
            squares = squares.With(record.Average(x => x * x));
        }
        Assert.True(Math.Abs(squares.Mean - line.Variance(0, 500)) < 4.5 * squares.MeanStandardError);
    }

    [Fact]
    public void RunningNoise_OverManyRides_HasTheSameVarianceAtEverySample()
    {
        LowPassWhiteSpectrum spectrum = new(1e-3, 60);
        PeriodicNoise blocks = new(spectrum, 1e-3, 64);
        double[] record = new double[64];
        double[] squares = new double[64];
        for (ulong ride = 0; ride < 4000; ride++)
        {
            new RunningNoise(blocks, s_draws with { Ride = ride }).Fill(32, record);
            for (int n = 0; n < 64; n++)
            {
                squares[n] += record[n] * record[n] / 4000;
            }
        }
        double expected = spectrum.Variance(0, 500);
        Assert.All(squares, s => Near.Relative(expected, s, 4.5 * Math.Sqrt(2.0 / 4000)));
    }

    [Fact]
    public void RunningNoise_InAnyOrder_IsTheSameBits()
    {
        PeriodicNoise blocks = new(new LowPassWhiteSpectrum(1e-3, 60), 1e-3, 64);
        double[] whole = new double[500];
        new RunningNoise(blocks, s_draws).Fill(0, whole);
        RunningNoise backwards = new(blocks, s_draws);
        for (int n = 499; n >= 0; n--)
        {
            Assert.Equal(whole[n], backwards.At(n));
        }
        double[] stretch = new double[100];
        new RunningNoise(blocks, s_draws).Fill(250, stretch);
        Assert.Equal(whole[250..350], stretch);
        long far = 1L << 40;
        Assert.Equal(new RunningNoise(blocks, s_draws).At(far), backwards.At(far));
    }

    // The seed contract: a change of these bits breaks every stored ride. No outside source: computed by this code when the
    // contract was made, and the same on every platform.
    [Fact]
    public void RunningNoise_OfAFixedAddress_KeepsItsBits()
    {
        PowerSpectralDensity[] spectra =
        [
            new LowPassWhiteSpectrum(1, 60),
            new LineSpectrum(120, 12, 1),
            new PowerLawSpectrum(1, 10, -1, 0.1, 400),
            new VonKarmanTiltSpectrum(20, 4, 1, 0.1, 1, TiltKind.Zernike),
        ];
        ulong hash = 0;
        foreach (PowerSpectralDensity spectrum in spectra)
        {
            double[] record = new double[1000];
            new RunningNoise(new PeriodicNoise(spectrum, 1e-3, 256), new RandomDraws(1, 2, 3UL)).Fill(100, record);
            foreach (double x in record)
            {
                hash = unchecked((hash ^ BitConverter.DoubleToUInt64Bits(x)) * 0x100000001B3);
            }
        }
        Assert.Equal(5199106720825330004UL, hash);
    }

    [Fact]
    public void Coverage_OfASpectrumBeyondNyquist_SaysWhatIsLost()
    {
        SynthesisCoverage lost = new PeriodicNoise(new BandLimitedWhiteSpectrum(1e-8, 800), 1e-3, 64).Coverage;
        Near.Relative(0.375, lost.LostFraction, 1e-14);
        Near.Relative(8e-6 * 0.625, lost.RepresentedVariance, 1e-14);
        string text = Assert.Single(lost.Warnings(0.05));
        Assert.Contains("37.50", text, StringComparison.Ordinal);
        Assert.Contains("Nyquist frequency 500 Hz", text, StringComparison.Ordinal);
        Assert.Empty(new PeriodicNoise(new BandLimitedWhiteSpectrum(1e-8, 400), 1e-3, 8192).Coverage.Warnings());
    }

    [Fact]
    public void Coverage_OfSlowOrNarrowNoise_AsksForLongerRecords()
    {
        SynthesisCoverage slow = SynthesisCoverage.Of(new PowerLawSpectrum(1, 1, -2, 1e-3, 100), 1e-3, 1024);
        Assert.Contains(slow.Warnings(), w => w.Contains("held constant", StringComparison.Ordinal));
        SynthesisCoverage narrow = SynthesisCoverage.Of(new LineSpectrum(100, 0.1, 1), 1e-3, 1024);
        Assert.Contains(narrow.Warnings(), w => w.Contains("40 s or longer", StringComparison.Ordinal));
    }

    [Fact]
    public void SuggestedLength_LeavesNoWarningAboutShape()
    {
        Assert.Equal(8192, PeriodicNoise.SuggestedLength(new LineSpectrum(100, 1, 1), 1e-3));
        Assert.Equal(1024, PeriodicNoise.SuggestedLength(new LowPassWhiteSpectrum(1, 400), 1e-4));
        VonKarmanTiltSpectrum endless = new(1, double.PositiveInfinity, 1, 1, 1, TiltKind.Zernike);
        Assert.Equal(4096, PeriodicNoise.SuggestedLength(endless, 1e-3, 4096));
        LineSpectrum line = new(100, 1, 1);
        SynthesisCoverage coverage = SynthesisCoverage.Of(line, 1e-3, PeriodicNoise.SuggestedLength(line, 1e-3));
        Assert.Empty(coverage.Warnings(0.01));
    }

    [Fact]
    public void Synthesis_GivenImpossibleParameters_Refuses()
    {
        BandLimitedWhiteSpectrum white = new(1, 1);
        Assert.Throws<ArgumentOutOfRangeException>(() => new PeriodicNoise(white, 0, 64));
        Assert.Throws<ArgumentOutOfRangeException>(() => new PeriodicNoise(white, 1, 60));
        Assert.Throws<ArgumentException>(() => new PeriodicNoise(white, 1, 64).Fill(s_draws, 0, new double[32]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new RunningNoise(new PeriodicNoise(white, 1, 4), s_draws));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            new RunningNoise(new PeriodicNoise(white, 1, 64), s_draws).At(-1)
        );
    }

    private static void AssertInside(SpectrumEstimate estimate, PowerSpectralDensity spectrum, double from, double to)
    {
        int first = (int)Math.Ceiling(from / estimate.FrequencyStepHertz);
        int last = (int)(to / estimate.FrequencyStepHertz);
        ConfidenceInterval factors = estimate.Factors(0.999);
        int outside = 0;
        for (int k = first; k <= last; k++)
        {
            outside += factors.Contains(spectrum.At(estimate.FrequencyHertz(k)) / estimate.Densities[k]) ? 0 : 1;
        }
        Assert.True(outside <= 0.01 * (last - first + 1), $"{outside} of {last - first + 1} bins are outside");
        double half = estimate.FrequencyStepHertz / 2;
        double lower = estimate.FrequencyHertz(first) - half;
        double upper = estimate.FrequencyHertz(last) + half;
        double expected = spectrum.Variance(lower, upper);
        double squares = 0;
        for (int k = first; k <= last; k++)
        {
            double share = spectrum.At(estimate.FrequencyHertz(k)) * estimate.FrequencyStepHertz;
            squares += share * share / estimate.EffectiveAverages;
        }
        // Neighbouring bins of a Hann window are correlated, which at most doubles the variance of their sum.
        Near.Absolute(expected, estimate.Variance(first, last), 5 * Math.Sqrt(2 * squares));
    }
}
