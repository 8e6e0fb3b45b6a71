using Lightkeel.Numerics.Sampling.Estimation;
using Lightkeel.Numerics.Sampling.Statistics;
using Lightkeel.Physics.Chance;
using Lightkeel.Physics.Motion;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Models;
using Lightkeel.Studies.Tests.Designs;
using Xunit;

namespace Lightkeel.Studies.Tests.Models;

/// <summary>
/// Noise from the text of a design to the courses that rides meet: for each kind of spectrum the density of the file, worked
/// out by hand in SI units, lies inside the confidence band of Welch's estimate of the course. Welch's method and its
/// band: IEEE Transactions on Audio and Electroacoustics 15(2), 70–73 (1967), doi:10.1109/TAU.1967.1161901.
/// </summary>
public sealed class NoiseModelTests
{
    private const string Director =
        "\n[beam.director]\naperture = \"4 m\"\nstandoff = \"1000 km\"\n[[noise]]\nname = \"n\"\n";

    [Fact]
    public void White_ToACorner_HasItsDensityInSquareMetresPerHertz()
    {
        // 0.04 mm²/Hz = 4e-8 m²/Hz, one-sided and per axis.
        string keys = "source = \"pointing\"\nspectrum = \"white\"\ndensity = \"0.04 mm^2/Hz\"\ncorner = \"0.1 kHz\"";
        PreparedNoise noise = Noise(keys);
        Assert.Equal(NoiseQuantity.PointingLength, noise.Source.Quantity);
        Assert.Equal(100, noise.CutHertz);
        Assert.Equal(4e-8 * 100, noise.Source.Spectrum.TotalVariance, 1e-18);
        AssertInside(keys, b => b.OffsetXMetres, _ => 4e-8, 2, 95);
        AssertInside(keys, b => b.OffsetYMetres, _ => 4e-8, 2, 95);
    }

    [Fact]
    public void White_AtTheDirector_HasItsDensityInSquareRadiansPerHertz()
    {
        // 1 µrad²/Hz is read as a square of a prefixed unit: 1e-12 rad²/Hz.
        string keys = "source = \"pointing\"\nspectrum = \"white\"\ndensity = \"1 urad^2/Hz\"\ncorner = \"50 Hz\"";
        Assert.Equal(NoiseQuantity.PointingAngle, Noise(keys).Source.Quantity);
        AssertInside(keys, b => b.AngleXRadians, _ => 1e-12, 1, 47);
    }

    [Fact]
    public void PowerLaw_FallsWithItsExponent_BetweenItsEnds()
    {
        // S = 1e-6 (f/10 Hz)^−2 from 1 to 80 Hz: variance 1e-6 · 100 (1/1 − 1/80) = 9.875e-5.
        string keys =
            "source = \"power\"\nspectrum = \"power-law\"\ndensity = \"1e-6 1/Hz\"\nreference = \"10 Hz\"\nexponent = -2\nlow = \"1 Hz\"\nhigh = \"80 Hz\"";
        PreparedNoise noise = Noise(keys);
        Assert.Equal(NoiseQuantity.Power, noise.Source.Quantity);
        Assert.Equal(9.875e-5, noise.Source.Spectrum.TotalVariance, 1e-15);
        AssertInside(keys, b => b.PowerFactor - 1, f => 1e-4 / (f * f), 8, 75);
    }

    [Fact]
    public void Line_IsALorentzian_OfItsRms()
    {
        // rms² (g/π) [1/((f − f₀)² + g²) + 1/((f + f₀)² + g²)], g half the full width: the response of a damped resonator.
        string keys =
            "source = \"width\"\nspectrum = \"line\"\nfrequency = \"20 Hz\"\nwidth = \"4 Hz\"\nrms = \"0.1 %\"";
        PreparedNoise noise = Noise(keys);
        Assert.Equal(NoiseQuantity.Width, noise.Source.Quantity);
        Assert.Equal(1e-6, noise.Source.Spectrum.TotalVariance, 1e-15);
        // The skirts are kept up to 1.3 kHz: long segments resolve the line among them.
        AssertInside(
            Craft.Open(Craft.Ball + Director + keys),
            b => Math.Log(b.WidthFactor),
            Lorentzian,
            3,
            200,
            1 << 18,
            8192
        );

        static double Lorentzian(double f) =>
            1e-6 * 2 / Math.PI * (1 / ((f - 20) * (f - 20) + 4) + 1 / ((f + 20) * (f + 20) + 4));
    }

    [Fact]
    public void Table_FromAFile_IsStraightOnLogarithmicPaper()
    {
        using Folder folder = new();
        folder.Write("jitter.csv", "frequency_Hz,density_m2_Hz\n1,1e-6\n10,1e-8\n100,1e-8\n");
        string keys = "source = \"pointing\"\nspectrum = \"table\"\nfile = \"jitter.csv\"";
        folder.Write("d.toml", Craft.Ball + Director + keys);
        OpenedDesign design = OpenedDesign.From(DesignDocument.Load(folder.PathOf("d.toml")));
        // 1e-6 f^−2 up to 10 Hz, then flat.
        AssertInside(design, b => b.OffsetXMetres, f => Math.Max(1e-6 / (f * f), 1e-8), 12, 95);
        AssertInside(design, b => b.OffsetXMetres, f => 1e-6 / (f * f), 3, 8, segment: 4096);
    }

    [Fact]
    public void VonKarmanTilt_HasThePublishedShape_AtTheResidualThatALoopLeaves()
    {
        // Frozen flow of a von Karman phase through the Zernike tilt filter of a 4 m aperture (Journal of the Optical Society of
        // America 66, 207, 1976, doi:10.1364/JOSA.66.000207), wind 10 m/s, outer scale 20 m, mean of both axes, over its
        // variance: quadrature across the wind with SciPy 1.10.1 Bessel functions. The variance is the stated residual's.
        string keys =
            "source = \"pointing\"\nspectrum = \"von-karman\"\nrms = \"0.2 urad\"\nouter_scale = \"20 m\"\nwind = \"10 m/s\"";
        PreparedNoise noise = Noise(keys);
        Assert.Equal(NoiseQuantity.PointingAngle, noise.Source.Quantity);
        Assert.Equal(0.2e-6, noise.Source.Spectrum.TotalRootMeanSquare, 1e-15);
        (double Hertz, double PerVariance)[] expected =
        [
            (0.01, 0.7209735177822867),
            (0.2, 0.7801795133124855),
            (1, 0.47646403251209474),
            (3, 0.008426729530389443),
            (5, 0.0005191738444635402),
        ];
        foreach ((double f, double density) in expected)
        {
            Assert.Equal(1, noise.Source.Spectrum.At(f) / (4e-14 * density), 2e-4);
        }
        AssertInside(keys, b => b.AngleYRadians, noise.Source.Spectrum.At, 0.1, 0.95 * noise.CutHertz);
        Assert.InRange(noise.CutHertz, 2, 4);
    }

    [Fact]
    public void VonKarmanTilt_OfAnotherAperture_TakesItsOwn()
    {
        // Frequencies go with wind over aperture: half the aperture and half the outer scale double them.
        string wide =
            "source = \"pointing\"\nspectrum = \"von-karman\"\nrms = \"3 mm\"\nouter_scale = \"20 m\"\nwind = \"10 m/s\"";
        string half =
            "source = \"pointing\"\nspectrum = \"von-karman\"\nrms = \"3 mm\"\nouter_scale = \"10 m\"\nwind = \"10 m/s\"\naperture = \"2 m\"";
        Assert.Equal(NoiseQuantity.PointingLength, Noise(half).Source.Quantity);
        Assert.Equal(1, 2 * Noise(half).Source.Spectrum.At(3) / Noise(wide).Source.Spectrum.At(1.5), 1e-6);
    }

    [Fact]
    public void Imbalance_IsInLargestRadiiOfTheCraft()
    {
        string keys = "source = \"imbalance\"\nspectrum = \"white\"\ndensity = \"1e-6 1/Hz\"\ncorner = \"1 Hz\"";
        DesignModel model = Craft.Open(Craft.Ball + Director + keys, ("sail.canopy.radius", "2 m")).Model;
        NoisePlan plan = NoiseModel.PlanOf(model);
        IImbalance balance = plan.ImbalanceOf(1, 0)!;
        double square = Enumerable.Range(0, 4000).Average(i => Math.Pow(balance.ShiftMetres(0.7 * i).X, 2));
        // 1e-6 times 1 Hz times (2 m)².
        Assert.Equal(1, square / 4e-6, 0.1);
    }

    [Fact]
    public void SpectrumThatIsNoSpectrum_IsRefusedWithItsPlace()
    {
        Assert.Contains(
            "is more than twice the frequency",
            DesignSamples.Listed(
                DesignSamples.Small
                    + "\n[[noise]]\nsource = \"power\"\nspectrum = \"line\"\nfrequency = \"1 Hz\"\nwidth = \"3 Hz\"\nrms = 0.1"
            ),
            StringComparison.Ordinal
        );
        using Folder folder = new();
        folder.Write("n.csv", "frequency_Hz,density_1_Hz\n1,1e-6\n3,1e-8\n2,1e-8\n");
        string noise = "\n[[noise]]\nsource = \"power\"\nspectrum = \"table\"\nfile = \"n.csv\"";
        folder.Write("d.toml", DesignSamples.Small + noise);
        Assert.StartsWith(
            "n.csv:4:1: noise.0.file: frequency 2 (2 Hz",
            Assert.Single(DesignDocument.Load(folder.PathOf("d.toml")).Read().Faults).ToString(),
            StringComparison.Ordinal
        );
        folder.Write("n.csv", "frequency_Hz,density_1_Hz\n1,1e-6\n3,0\n");
        Assert.StartsWith(
            "n.csv:3:3: 0 is out of range",
            Assert.Single(DesignDocument.Load(folder.PathOf("d.toml")).Read().Faults).ToString(),
            StringComparison.Ordinal
        );
        InputRefusedException refused = Assert.Throws<InputRefusedException>(() =>
            Noise(
                "source = \"pointing\"\nspectrum = \"von-karman\"\nrms = \"1 mm\"\nouter_scale = \"1 um\"\nwind = \"10 m/s\""
            )
        );
        Assert.Contains("noise.n", refused.Message, StringComparison.Ordinal);
    }

    private static PreparedNoise Noise(string keys) =>
        Assert.Single(NoiseModel.PlanOf(Craft.Open(Craft.Ball + Director + keys).Model).Noises);

    private static void AssertInside(
        string keys,
        Func<BeamState, double> value,
        Func<double, double> density,
        double from,
        double to
    ) => AssertInside(Craft.Open(Craft.Ball + Director + keys), value, density, from, to);

    // Sampled between the samples of the synthesis, so that interpolation counts; 99.9 % of the bins belong inside.
    private static void AssertInside(
        OpenedDesign design,
        Func<BeamState, double> value,
        Func<double, double> density,
        double from,
        double to,
        int samples = 1 << 16,
        int segment = 1024
    )
    {
        NoisePlan plan = NoiseModel.PlanOf(design.Model);
        IBeamDisturbance beam = plan.BeamOf(5, 3);
        double step = 1 / (2.7 * plan.HighestHertz);
        double[] course = [.. Enumerable.Range(0, samples).Select(i => value(beam.At(i * step)))];
        SpectrumEstimate found = new WelchEstimator(segment).Estimate(course, step);
        int first = (int)Math.Ceiling(from / found.FrequencyStepHertz);
        int last = (int)(to / found.FrequencyStepHertz);
        ConfidenceInterval factors = found.Factors(0.999);
        int outside = 0;
        double asked = 0;
        for (int k = first; k <= last; k++)
        {
            double expected = density(found.FrequencyHertz(k));
            asked += expected * found.FrequencyStepHertz;
            double ratio = expected / found.Densities[k];
            outside += ratio < factors.Lower || ratio > factors.Upper ? 1 : 0;
        }
        Assert.InRange(last - first, 10, 100_000);
        Assert.InRange(outside, 0, 1 + (last - first) / 100);
        Assert.Equal(1, found.Variance(first, last) / asked, 0.15);
    }
}
