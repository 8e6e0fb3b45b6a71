using Lightkeel.Numerics.Sampling.Elementary;
using Lightkeel.Numerics.Sampling.Estimation;
using Lightkeel.Numerics.Sampling.Spectra;
using Lightkeel.Numerics.Sampling.Statistics;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Noise spectra, tilt of turbulent air, spectral estimation.</summary>
internal static class NoiseChecks
{
    private static readonly double[] BesselArguments = [0.001, 0.5, 2, 7.9, 8.1, 20, 100, 1000];
    private static readonly string[] BesselParts =
    [
        .. BesselArguments.Select(x => FormattableString.Invariant($"x = {x}")),
    ];

    public static CheckModule Module() =>
        new(
            "noise",
            "Noise spectra and their estimation",
            [.. Bessel(), .. Spectra(), .. Tilts(), .. Windows(), .. Estimates()]
        );

    private static IEnumerable<OutsideCheck> Bessel() =>
        [
            new("NOI-01", "Bessel function J1")
            {
                Source = Sources.Functions,
                Origin = Origins.Mpmath,
                Parts = BesselParts,
                Expected =
                [
                    0.00049999993750000261,
                    0.24226845767487389,
                    0.57672480775687339,
                    0.2191793999217512,
                    0.24760776698159288,
                    0.066833124175850046,
                    -0.077145352014112158,
                    0.0047283119070895239,
                ],
                Size = 1,
                Tolerance = 2e-15,
                Compute = () => [.. BesselArguments.Select(BesselJ.One)],
            },
            new("NOI-02", "Bessel function J2")
            {
                Source = Sources.Functions,
                Origin = Origins.Mpmath,
                Parts = BesselParts,
                Expected =
                [
                    1.2499998958333366e-7,
                    0.030604023458682641,
                    0.35283402861563772,
                    -0.13887338916488553,
                    -0.086379733802009056,
                    -0.16034135192299815,
                    -0.021528757344505366,
                    -0.024777229528605996,
                ],
                Size = 1,
                Tolerance = 2e-15,
                Compute = () => [.. BesselArguments.Select(BesselJ.Two)],
            },
        ];

    private static IEnumerable<OutsideCheck> Spectra() =>
        [
            new("NOI-03", "Variance of white noise to a corner, whole and above 150 Hz", "1e-8 m^2/Hz to 200 Hz")
            {
                Source = "density times band",
                Origin = Origins.ClosedForm,
                Parts = ["whole", "above 150 Hz"],
                Expected = [2e-6, 5e-7],
                Unit = "m^2",
                Tolerance = 1e-14,
                Compute = () =>
                {
                    BandLimitedWhiteSpectrum white = new(1e-8, 200);
                    return [white.TotalVariance, white.Variance(150, 1e9)];
                },
            },
            new(
                "NOI-04",
                "Variance of white noise behind a low pass, whole, below its corner, and the density there",
                "1e-8 m^2/Hz, 200 Hz"
            )
            {
                Source = "integral of 1/(1 + x^2)",
                Origin = Origins.ClosedForm,
                Parts = ["whole, m^2", "below, m^2", "density, m^2/Hz"],
                Expected = [3.1415926535897929e-6, 1.5707963267948965e-6, 5e-9],
                Tolerance = 1e-14,
                Compute = () =>
                {
                    LowPassWhiteSpectrum white = new(1e-8, 200);
                    return [white.TotalVariance, white.Variance(0, 200), white.At(200)];
                },
            },
            new("NOI-05", "Variance of flicker noise over four decades, and its density at 50 Hz", "4e-6 /Hz at 1 Hz")
            {
                Source = "S(1 Hz) ln(f2/f1)",
                Origin = Origins.ClosedForm,
                Parts = ["variance", "density, 1/Hz"],
                Expected = [3.6841361487904736e-5, 8e-8],
                Tolerance = 1e-13,
                Compute = () =>
                {
                    PowerLawSpectrum flicker = new(4e-6, 1, -1, 0.01, 100);
                    return [flicker.TotalVariance, flicker.At(50)];
                },
            },
            new(
                "NOI-06",
                "Break-point table: variance and densities between points",
                "20, 80, 500, 2000 Hz at 0.01, 0.04, 0.04, 0.01"
            )
            {
                Source = "closed forms of straight pieces in logarithms, as in random-vibration practice",
                Origin = Origins.ClosedForm,
                Parts = ["variance", "at 40 Hz", "at 200 Hz"],
                Expected = [46.025887222397813, 0.02, 0.04],
                Tolerance = 1e-12,
                Compute = () =>
                {
                    TableSpectrum table = new([20, 80, 500, 2000], [0.01, 0.04, 0.04, 0.01]);
                    return [table.TotalVariance, table.At(40), table.At(200)];
                },
            },
            new("NOI-07", "Share of a line's variance that a cut takes away", "10 Hz, 1 Hz wide, cut at 30 Hz")
            {
                Source = "arctangents of a Lorentzian and of its image",
                Origin = Origins.ClosedForm,
                Expected = [0.011934756275750247],
                Tolerance = 1e-12,
                Compute = () => [new CutSpectrum(new LineSpectrum(10, 1, 2), 30).LostFraction],
            },
            new("NOI-08", "Power law of exponent 0.7: variance and density at 5 Hz", "3 at 10 Hz, from 1 to 1000 Hz")
            {
                Source = "integral of a power",
                Origin = Origins.ClosedForm,
                Parts = ["variance", "density"],
                Expected = [44327.055509760525, 1.8467166200173746],
                Tolerance = 1e-12,
                Compute = () =>
                {
                    PowerLawSpectrum law = new(3, 10, 0.7, 1, 1000);
                    return [law.TotalVariance, law.At(5)];
                },
            },
        ];

    private static IEnumerable<OutsideCheck> Tilts() =>
        [
            Tilt("NOI-10", TiltKind.Zernike, double.PositiveInfinity, "no outer scale", 0.18192379570192099),
            Tilt("NOI-11", TiltKind.Zernike, 10, "outer scale 10 D", 0.065117330142405325),
            Tilt("NOI-12", TiltKind.Zernike, 1, "outer scale D", 0.0035571473451896677),
            Tilt("NOI-13", TiltKind.Gradient, double.PositiveInfinity, "no outer scale", 0.16980343865310579),
            Tilt("NOI-14", TiltKind.Gradient, 10, "outer scale 10 D", 0.054076161557188973),
            Tilt("NOI-15", TiltKind.Gradient, 1, "outer scale D", 0.0021853187678966429),
        ];

    private static OutsideCheck Tilt(string id, TiltKind kind, double outer, string inputs, double expected) =>
        new(
            id,
            $"One-axis {(kind == TiltKind.Zernike ? "Zernike" : "gradient")} tilt variance of turbulent air, in (lambda/D)^2 (D/r0)^(5/3)",
            inputs
        )
        {
            Source = Sources.Tilt + "; radial integral of the von Karman spectrum",
            Origin = Origins.Scipy,
            Expected = [expected],
            Tolerance = 2e-5,
            Compute = () => [new VonKarmanTiltSpectrum(7, outer, 1, 1, 1, kind, Math.PI / 4).TotalVariance],
        };

    private static IEnumerable<OutsideCheck> Windows() =>
        [
            Figures("NOI-20", "rectangular", WindowKind.Boxcar, 1, 3.9223975405998095),
            Figures(
                "NOI-21",
                "Hann",
                WindowKind.Hann,
                1.5,
                1.4236228084370492,
                0.16666666666666674,
                0.65915494309189548
            ),
            Figures(
                "NOI-22",
                "Hamming",
                WindowKind.Hamming,
                1.3628257887517148,
                1.7514311322010614,
                0.23376950176144951,
                0.70691892991669869
            ),
            Figures("NOI-23", "flat top", WindowKind.FlatTop, 3.7702464474434274, 0.009778058959333466),
        ];

    private static OutsideCheck Figures(string id, string name, WindowKind kind, params double[] expected)
    {
        string[] parts = ["noise bandwidth, bins", "scallop loss, dB", "correlation at 50 %", "correlation at 75 %"];
        return new(id, $"Figures of the {name} window")
        {
            Source = Sources.Windows,
            Origin = Origins.Scipy,
            Parts = parts[..expected.Length],
            Expected = expected,
            Size = 1,
            Tolerance = 1e-10,
            Compute = () =>
            {
                Window window = new(kind, 1 << 20);
                double[] all =
                [
                    window.EquivalentNoiseBandwidthBins,
                    window.ScallopLossDecibels,
                    .. expected.Length > 2
                        ? [window.OverlapCorrelation(1 << 19), window.OverlapCorrelation(1 << 18)]
                        : Array.Empty<double>(),
                ];
                return all;
            },
        };
    }

    private static IEnumerable<OutsideCheck> Estimates() =>
        [
            new(
                "NOI-24",
                "Welch estimate of a given record, Hann, half overlap",
                "bins 0, 1, 15 of 256 samples at 100 Hz"
            )
            {
                Source = "scipy.signal.welch",
                Origin = Origins.Scipy,
                Parts = ["0", "1", "15"],
                Expected = [0.0025682748091011461, 0.0066962876162368077, 0.847304796257491],
                Tolerance = 1e-12,
                Compute = () => Bins(new(256, WindowKind.Hann, 0.5), 0, 1, 15),
            },
            new(
                "NOI-25",
                "Welch estimate of a given record, rectangular, no overlap",
                "bins 1, 15 of 256 samples at 100 Hz"
            )
            {
                Source = "scipy.signal.welch",
                Origin = Origins.Scipy,
                Parts = ["1", "15"],
                Expected = [0.012985354164596402, 1.2615682689548926],
                Tolerance = 1e-12,
                Compute = () => Bins(new(256, WindowKind.Boxcar, 0), 1, 15),
            },
            new(
                "NOI-26",
                "Welch estimate of a given record, flat top, mean kept",
                "bins 0, 1, 15 of 256 samples at 100 Hz"
            )
            {
                Source = "scipy.signal.welch",
                Origin = Origins.Scipy,
                Parts = ["0", "1", "15"],
                Expected = [0.0011340674072252955, 0.012920864324371704, 0.34274989194083305],
                Tolerance = 1e-12,
                Compute = () => Bins(new(256, WindowKind.FlatTop, 0.5, false), 0, 1, 15),
            },
            new("NOI-27", "Peak of a sine of 1 V rms on a bin", "125 Hz, 1024 samples at 1 kHz, Hann: A^2/2/(1.5 df)")
            {
                Source = "IEEE Transactions on Audio and Electroacoustics 15, 70 (1967); scipy.signal.welch",
                Origin = Origins.Scipy,
                Expected = [0.68266666666666909],
                Unit = "V^2/Hz",
                Tolerance = 1e-12,
                Compute = () =>
                {
                    double[] record =
                    [
                        .. Enumerable
                            .Range(0, 8192)
                            .Select(n => Math.Sqrt(2) * Math.Sin(2 * Math.PI * 125 * n / 1000.0)),
                    ];
                    return [new WelchEstimator(1024).Estimate(record, 1e-3).Densities[128]];
                },
            },
            new("NOI-28", "Independent averages in 127 overlapping Hann segments", "K/(1 + 2 (1 - 1/K)/36)")
            {
                Source = "IEEE Transactions on Audio and Electroacoustics 15, 70 (1967), overlap correlation 1/6",
                Origin = Origins.ClosedForm,
                Expected = [120.36567164179105],
                Tolerance = 1e-12,
                Compute = () =>
                {
                    double[] record = new double[256 * 64];
                    record[0] = 1;
                    return [new WelchEstimator(256).Estimate(record, 1).EffectiveAverages];
                },
            },
            new("NOI-29", "Factors of a 95 % interval of a spectrum of 10 averages", "20/chi2_20")
            {
                Source = "chi-square table",
                Origin = Origins.Scipy,
                Parts = ["lower", "upper"],
                Expected = [0.58531548392904342, 2.0853366919067851],
                Tolerance = 1e-12,
                Compute = () =>
                {
                    double[] record = new double[640];
                    record[5] = 1;
                    ConfidenceInterval f = new WelchEstimator(64, WindowKind.Boxcar, 0)
                        .Estimate(record, 1)
                        .Factors(0.95);
                    return [f.Lower, f.Upper];
                },
            },
        ];

    private static double[] Bins(WelchEstimator welch, params int[] bins)
    {
        double[] record =
        [
            .. Enumerable.Range(0, 4096).Select(n => Math.Sin(0.37 * n) + Math.Cos(0.0031 * Math.Pow(n, 1.5))),
        ];
        SpectrumEstimate estimate = welch.Estimate(record, 0.01);
        double[] found = new double[bins.Length];
        for (int i = 0; i < bins.Length; i++)
        {
            found[i] = estimate.Densities[bins[i]];
        }
        return found;
    }
}
