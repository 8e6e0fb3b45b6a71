using Lightkeel.Numerics.Sampling.Designs;
using Lightkeel.Numerics.Sampling.Distributions;
using Lightkeel.Numerics.Sampling.Draws;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Random numbers, point sets and distributions. Words of 64 bits are compared as two halves.</summary>
internal static class SamplingChecks
{
    private const ulong All = ulong.MaxValue;
    private const string Philox = "Proceedings of SC'11, doi:10.1145/2063384.2063405: known answers of Philox 4x64-10";

    private static readonly ExpectedOrigin Published = ExpectedOrigin.Read(
        "known-answer vectors in public test suites; confirmed with NumPy 1.24.2"
    );

    public static CheckModule Module() =>
        new(
            "sampling",
            "Random numbers and distributions",
            [.. Words(), .. Points(), .. Distributions(), .. ElementaryChecks.All()]
        );

    private static IEnumerable<OutsideCheck> Words() =>
        [
            Block(
                "SMP-01",
                "counter and key of zeros",
                [0, 0, 0, 0, 0, 0],
                [374689182, 3392549196, 3676372637, 1731006428, 3622269646, 3783661419, 2120791690, 3967525435]
            ),
            Block(
                "SMP-02",
                "counter and key of ones",
                [All, All, All, All, All, All],
                [2276496067, 20965643, 1133263975, 3196912164, 2630342598, 2631366582, 2694622911, 1498352544]
            ),
            Block(
                "SMP-03",
                "digits of pi",
                [
                    0x452821E638D01377,
                    0xBE5466CF34E90C6C,
                    0x243F6A8885A308D3,
                    0x13198A2E03707344,
                    0xA4093822299F31D0,
                    0x082EFA98EC4E6C89,
                ],
                [2770924628, 65412501, 952577469, 1450088328, 2778816782, 1929189557, 1472021429, 3844833254]
            ),
            new("SMP-04", "FNV-1a hash of a name", "\"a\" as two bytes")
            {
                Source = "definition of FNV-1a, 64 bits",
                Origin = ExpectedOrigin.Computed("integers of Python"),
                Parts = ["high half", "low half"],
                Expected = [144433671, 3041194468],
                Tolerance = 0,
                Compute = () => Halves(RandomDraws.SourceNamed("a")),
            },
        ];

    private static OutsideCheck Block(string id, string inputs, ulong[] address, double[] halves) =>
        new(id, "Block of the random number generator", inputs)
        {
            Source = Philox,
            Origin = Published,
            Parts = ["0 high", "0 low", "1 high", "1 low", "2 high", "2 low", "3 high", "3 low"],
            Expected = halves,
            Tolerance = 0,
            Compute = () =>
            {
                RandomBlock b = Philox4x64.Block(
                    address[0],
                    address[1],
                    address[2],
                    address[3],
                    address[4],
                    address[5]
                );
                return Halves(b.Word0, b.Word1, b.Word2, b.Word3);
            },
        };

    private static IEnumerable<OutsideCheck> Points() =>
        [
            SobolPoint(
                "SMP-05",
                7,
                [
                    0.125,
                    0.625,
                    0.375,
                    0.125,
                    0.125,
                    0.375,
                    0.625,
                    0.625,
                    0.625,
                    0.875,
                    0.625,
                    0.125,
                    0.625,
                    0.375,
                    0.125,
                    0.125,
                    0.125,
                    0.125,
                    0.625,
                    0.875,
                    0.875,
                ]
            ),
            SobolPoint(
                "SMP-06",
                1000,
                [
                    0.2197265625,
                    0.0966796875,
                    0.5185546875,
                    0.6767578125,
                    0.2802734375,
                    0.9072265625,
                    0.0458984375,
                    0.8994140625,
                    0.5009765625,
                    0.0693359375,
                    0.0849609375,
                    0.2548828125,
                    0.1611328125,
                    0.3837890625,
                    0.1435546875,
                    0.3701171875,
                    0.7197265625,
                    0.3447265625,
                    0.9912109375,
                    0.7255859375,
                    0.5224609375,
                ]
            ),
            new(
                "SMP-07",
                "Sum over all digits of 4096 Sobol points in 64 dimensions",
                "h = (h ^ x) * 0x100000001B3 over 30-bit integers"
            )
            {
                Source =
                    "SIAM Journal on Scientific Computing 30, 2635 (2008): direction numbers; scipy.stats.qmc.Sobol",
                Origin = Origins.Scipy,
                Parts = ["high half", "low half"],
                Expected = [3457997142, 1879048192],
                Tolerance = 0,
                Compute = SobolHash,
            },
        ];

    private static OutsideCheck SobolPoint(string id, ulong index, double[] expected) =>
        new(id, "Sobol point in 21 dimensions", FormattableString.Invariant($"number {index}"))
        {
            Source = "SIAM Journal on Scientific Computing 30, 2635 (2008): direction numbers; scipy.stats.qmc.Sobol",
            Origin = Origins.Scipy,
            Parts = [.. Enumerable.Range(1, expected.Length).Select(d => FormattableString.Invariant($"{d}"))],
            Expected = expected,
            Tolerance = 0,
            Compute = () =>
            {
                double[] point = new double[expected.Length];
                new SobolSequence(expected.Length).Point(index, point);
                return point;
            },
        };

    private static double[] SobolHash()
    {
        SobolSequence sequence = new(64);
        double[] point = new double[64];
        ulong hash = 0;
        for (ulong i = 0; i < 4096; i++)
        {
            sequence.Point(i, point);
            foreach (double x in point)
            {
                hash = unchecked((hash ^ (ulong)(x * (1 << 30))) * 0x100000001B3);
            }
        }
        return Halves(hash);
    }

    private static IEnumerable<OutsideCheck> Distributions() =>
        [
            new("SMP-10", "Truncated normal distribution", "mean 1, deviation 2, from -1 to 6")
            {
                Source = Sources.Distributions + "; scipy.stats.truncnorm",
                Origin = Origins.Scipy,
                Parts = ["mean", "deviation", "1 %", "50 %", "99 %", "cumulative at 2", "density at 2"],
                Expected =
                [
                    1.5374996912498426,
                    1.530442603289127,
                    -0.93212379360612863,
                    1.38447949781595,
                    5.3636613363484393,
                    0.63798925422780561,
                    0.21078346179109944,
                ],
                Tolerance = 1e-12,
                Compute = () => All7(new TruncatedNormalDistribution(1, 2, -1, 6)),
            },
            new("SMP-11", "Truncated normal distribution far in the tail", "30 to 31 deviations")
            {
                Source = Sources.Distributions,
                Origin = Origins.Mpmath,
                Parts = ["mean", "deviation", "50 %"],
                Expected = [30.033259667433622, 0.033223056930921969, 30.023070467827309],
                Tolerance = 1e-11,
                Compute = () =>
                {
                    TruncatedNormalDistribution far = new(0, 1, 30, 31);
                    return [far.Mean, far.StandardDeviation, far.Quantile(0.5)];
                },
            },
            new("SMP-12", "Log-normal distribution", "median 3, 0.5 in logarithms")
            {
                Source = Sources.Distributions + "; scipy.stats.lognorm",
                Origin = Origins.Scipy,
                Parts = ["mean", "deviation", "5 %", "95 %", "cumulative at 4", "density at 4"],
                Expected =
                [
                    3.3994453592004792,
                    1.8117015996326433,
                    1.3180923147824772,
                    6.8280498255429514,
                    0.71747747601405565,
                    0.16904206944927,
                ],
                Tolerance = 1e-13,
                Compute = () => Six(new LogNormalDistribution(3, 0.5), 4),
            },
            new("SMP-13", "Triangular distribution", "-1, 0, 3")
            {
                Source = Sources.Distributions + "; scipy.stats.triang",
                Origin = Origins.Scipy,
                Parts = ["mean", "deviation", "5 %", "95 %", "cumulative at 0.5", "density at 0.5"],
                Expected =
                [
                    0.66666666666666674,
                    0.84983658559879749,
                    -0.55278640450004213,
                    2.2254033307585162,
                    0.47916666666666669,
                    0.41666666666666669,
                ],
                Tolerance = 1e-13,
                Compute = () => Six(new TriangularDistribution(-1, 0, 3), 0.5),
            },
            new("SMP-14", "Rayleigh distribution", "component deviation 2")
            {
                Source = Sources.Distributions + "; scipy.stats.rayleigh",
                Origin = Origins.Scipy,
                Parts = ["mean", "deviation", "95 %", "density at 3"],
                Expected = [2.5066282746310002, 1.3102727551240672, 4.8954936613616322, 0.2434893505187623],
                Tolerance = 1e-13,
                Compute = () =>
                {
                    RayleighDistribution r = new(2);
                    return [r.Mean, r.StandardDeviation, r.Quantile(0.95), r.Density(3)];
                },
            },
            new("SMP-15", "Uniform distribution", "-2 to 3")
            {
                Source = Sources.Distributions,
                Origin = Origins.ClosedForm,
                Parts = ["deviation", "30 %"],
                Expected = [1.4433756729740645, -0.5],
                Tolerance = 1e-14,
                Compute = () =>
                    [new UniformDistribution(-2, 3).StandardDeviation, new UniformDistribution(-2, 3).Quantile(0.3)],
            },
        ];

    private static double[] All7(Distribution d) =>
        [
            d.Mean,
            d.StandardDeviation,
            d.Quantile(0.01),
            d.Quantile(0.5),
            d.Quantile(0.99),
            d.Cumulative(2),
            d.Density(2),
        ];

    private static double[] Six(Distribution d, double at) =>
        [d.Mean, d.StandardDeviation, d.Quantile(0.05), d.Quantile(0.95), d.Cumulative(at), d.Density(at)];

    private static double[] Halves(params ulong[] words) =>
        [.. words.SelectMany(word => (double[])[word >> 32, word & uint.MaxValue])];
}
