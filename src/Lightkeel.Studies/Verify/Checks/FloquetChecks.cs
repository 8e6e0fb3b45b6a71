using Lightkeel.Physics.Stability;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Periodic systems: the equations of Mathieu and Meissner, spinning craft without symmetry.</summary>
internal static class FloquetChecks
{
    private const string Monodromy =
        "monodromy of the equations in axes that do not turn, integrated by SciPy DOP853 at 1e-13";

    private static readonly ExpectedOrigin Tables = ExpectedOrigin.Read(
        "published test values of table 20.1; recomputed with SciPy 1.10.1 (tridiagonal eigenproblem)"
    );

    private static readonly string[] FourRoots =
    [
        "growth 1",
        "rate 1",
        "growth 2",
        "rate 2",
        "growth 3",
        "rate 3",
        "growth 4",
        "rate 4",
    ];

    public static IEnumerable<OutsideCheck> All() => [.. Craft(), .. Hills(), .. Characteristic()];

    private static IEnumerable<OutsideCheck> Craft() =>
        [
            Spinning(
                "STB-11",
                "spin 1.7 rad/s, Jacobian turning with the craft",
                StabilityModels.Unequal(1.7, StabilityModels.Turned),
                [
                    -0.17486945474007828,
                    0.37017592353669304,
                    -0.16451073789851034,
                    0.82463302783719639,
                    0.13161136082624544,
                    0.41919264460137295,
                    0.20776883181234598,
                    0.6751622052106464,
                ]
            ),
            Spinning(
                "STB-12",
                "spin -2.6 rad/s, Jacobian turning with the craft",
                StabilityModels.Unequal(-2.6, StabilityModels.Turned),
                [
                    -0.10295780995250284,
                    1.2801011984224762,
                    -0.055715206979929752,
                    1.0527085668341165,
                    0.026592937392391901,
                    0.61536566866576092,
                    0.13208007954003434,
                    1.0173328135919788,
                ]
            ),
            Spinning(
                "STB-13",
                "spin 3.1 rad/s, Jacobian with two harmonics of the spin angle",
                StabilityModels.Unequal(3.1, StabilityModels.Wavy),
                [
                    -0.079197440507740913,
                    1.3723863048335214,
                    -0.0079499299170618307,
                    0.55040708603960364,
                    0.042823757193593867,
                    0.95746687163323019,
                    0.044323613231210784,
                    1.3287121386847409,
                ]
            ),
        ];

    private static OutsideCheck Spinning(string id, string inputs, LinearModel model, double[] expected) =>
        new(id, "Floquet exponents of a spinning craft with unequal inertia", inputs)
        {
            Source = Monodromy,
            Origin = Origins.Scipy,
            Parts = FourRoots,
            Expected = expected,
            Unit = "1/s",
            Size = 1,
            Tolerance = 1e-11,
            Compute = () => StabilityModels.Roots(model),
        };

    private static IEnumerable<OutsideCheck> Hills() =>
        [
            new("STB-20", "Mathieu's equation where it is stable: trace over pi and exponent", "a = 2, q = 0.5")
            {
                Source = "Digital Library of Mathematical Functions, 28.2(iii)",
                Origin = Origins.Scipy,
                Parts = ["trace", "exponent"],
                Expected = [-0.79712862843105103, 0.63049143033947608],
                Tolerance = 1e-12,
                Compute = () =>
                {
                    FloquetResult r = Mathieu(2, 0.5);
                    return [r.Trace, r.ExponentsPerSecond.Max(e => e.Imaginary)];
                },
            },
            new("STB-21", "Mathieu's equation where it grows: trace over pi and growth", "a = 1, q = 0.5")
            {
                Source = "Digital Library of Mathematical Functions, 28.2(iii)",
                Origin = Origins.Scipy,
                Parts = ["trace", "growth"],
                Expected = [-2.6124189066246521, 0.2431457569841434],
                Tolerance = 1e-11,
                Compute = () => [Mathieu(1, 0.5).Trace, Mathieu(1, 0.5).GrowthPerSecond],
            },
            new("STB-22", "Growth of a parametric resonance", "x'' + (1 + 0.1 cos 2t) x = 0")
            {
                Source = Sources.Mechanics + ", section 27: a quarter of 0.1 to first order",
                Origin = Origins.Scipy,
                Expected = [0.024992680919294706],
                Tolerance = 1e-11,
                Compute = () => [Hill(t => 1 + 0.1 * Math.Cos(2 * t), Math.PI).GrowthPerSecond],
            },
            new("STB-23", "Trace of Meissner's square-wave equation over 2 pi")
            {
                Source = "Meissner (1918); product of two rotations",
                Origin = Origins.ClosedForm,
                Parts = ["1.5, then 0.5", "2.5, then 1.5"],
                Expected = [2.1140748603493438, -1.6806686839468283],
                Tolerance = 1e-11,
                Compute = () =>
                    [
                        Hill(t => t < Math.PI ? 1.5 : 0.5, 2 * Math.PI, Math.PI).Trace,
                        Hill(t => t < Math.PI ? 2.5 : 1.5, 2 * Math.PI, Math.PI).Trace,
                    ],
            },
            new("STB-33", "End of the first stable zone at a = 0: the limit of ion traps", "b1(q) = 0")
            {
                Source = "Digital Library of Mathematical Functions, 28.17",
                Origin = Origins.Scipy,
                Expected = [0.90804633373457755],
                Tolerance = 1e-12,
                Compute = () => [Scenes.Root(q => Mathieu(0, q).Trace + 2, 0.8, 1, 1e-12)],
            },
        ];

    private static IEnumerable<OutsideCheck> Characteristic() =>
        [
            Value("STB-24", "a0(5)", 5, 2, -5.8000460208515081, 0.002, Tables),
            Value("STB-25", "b1(5)", 5, -2, -5.790080598637771, 0.002, Origins.Scipy),
            Value("STB-26", "a1(5)", 5, -2, 1.8581875415477505, 0.05, Origins.Scipy),
            Value("STB-27", "b2(5)", 5, 2, 2.0994604454866654, 0.05, Origins.Scipy),
            Value("STB-28", "a2(5)", 5, 2, 7.4491097395292014, 0.05, Origins.Scipy),
            Value("STB-29", "a0(1)", 1, 2, -0.45513860410741369, 0.05, Origins.Scipy),
            Value("STB-30", "b1(1)", 1, -2, -0.11024881699209516, 0.05, Origins.Scipy),
            Value("STB-31", "a1(1)", 1, -2, 1.8591080725143634, 0.05, Origins.Scipy),
            Value("STB-32", "a0(25)", 25, 2, -40.25677954656679, 2e-6, Tables),
        ];

    // At a characteristic value of even order the trace over π is 2, of odd order −2.
    private static OutsideCheck Value(
        string id,
        string name,
        double q,
        double trace,
        double expected,
        double reach,
        ExpectedOrigin origin
    ) =>
        new(id, "Characteristic value of Mathieu's equation, as the edge of a stable zone", name)
        {
            Source = Sources.Mathieu,
            Origin = origin,
            Expected = [expected],
            Tolerance = 1e-10,
            Compute = () =>
                [Scenes.Root(a => Mathieu(a, q).Trace - trace, expected - reach, expected + 0.7 * reach, 1e-12)],
        };

    private static FloquetResult Mathieu(double a, double q) => Hill(t => a - 2 * q * Math.Cos(2 * t), Math.PI);

    private static FloquetResult Hill(Func<double, double> stiffness, double period, params double[] breaks) =>
        FloquetAnalysis.Compute(
            t =>
                [
                    [0, 1],
                    [-stiffness(t), 0],
                ],
            period,
            breaks
        );
}
