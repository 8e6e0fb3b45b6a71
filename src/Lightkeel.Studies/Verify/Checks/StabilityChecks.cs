using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Lightkeel.Physics.Stability;
using static Lightkeel.Studies.Verify.Checks.Scenes;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Linear stability: roots of known models, limits of known craft.</summary>
internal static class StabilityChecks
{
    private const string Quadratic = "quadratic eigenvalue problem M q'' + (D + G) q' = K q";

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

    public static CheckModule Module() =>
        new("stability", "Linear stability", [.. Models(), .. Tops(), .. Craft(), .. FloquetChecks.All()]);

    private static double[][] Damping =>
        [
            [0.31, 0, 0, 0],
            [0, 0.27, 0, 0],
            [0, 0, 0.12, 0],
            [0, 0, 0, 0.4],
        ];

    private static IEnumerable<OutsideCheck> Models() =>
        [
            new("STB-01", "Roots of a craft with products of inertia, free to roll", "invented model, see the script")
            {
                Source = "eigenvalue problem in five coordinates",
                Origin = Origins.Mpmath,
                Parts = FourRoots,
                Expected =
                [
                    -0.39142750092369843,
                    1.4722739753368084,
                    -0.34733435369301657,
                    1.1717627861098296,
                    0.34733435369301657,
                    1.1717627861098296,
                    0.39142750092369843,
                    1.4722739753368084,
                ],
                Unit = "1/s",
                Tolerance = 1e-12,
                Compute = () =>
                    StabilityModels.Roots(
                        new()
                        {
                            MassKilograms = 2,
                            InertiaKilogramSquareMetres = new(
                                new(0.9, 0.11, -0.07),
                                new(0.11, 1.3, 0.13),
                                new(-0.07, 0.13, 1.6)
                            ),
                            Jacobian = StabilityModels.FullJacobian,
                            AxialTorqueDerivatives = [0.8, -0.6, 0.5, 1.1],
                        }
                    ),
            },
            Spinning(
                "STB-02",
                "spin 1.7 rad/s",
                1.7,
                false,
                [
                    -0.21288451758373764,
                    0.83297386338512869,
                    -0.15479043780001778,
                    3.6220234921477901,
                    0.099996062804054736,
                    1.3285968041383003,
                    0.26767889257970068,
                    0.94928057063690907,
                ]
            ),
            Spinning(
                "STB-03",
                "spin 1.7 rad/s, damped",
                1.7,
                true,
                [
                    -0.40744868610256324,
                    3.6267154388114675,
                    -0.26866767923496088,
                    0.83312599622890382,
                    0.026257154900040214,
                    1.3192578038034533,
                    0.215970321548595,
                    0.94732080257635087,
                ]
            ),
            Spinning(
                "STB-04",
                "no spin, damped",
                0,
                true,
                [
                    -0.54587475290135257,
                    1.5878051556846715,
                    -0.45367834784713262,
                    1.18412314721862,
                    0.2692518946994038,
                    1.5472200393836939,
                    0.29641231716019245,
                    1.1885548227626974,
                ]
            ),
            new("STB-05", "Whirl rates of a fast spinning axisymmetric craft", "spin 1.7 rad/s")
            {
                Source = Quadratic,
                Origin = Origins.Mpmath,
                Parts = ["1", "2", "3", "4"],
                Expected = [0.29748335239134277, 1.2260690157973324, 1.4788157507323165, 2.4719921348958955],
                Unit = "rad/s",
                Tolerance = 1e-13,
                Compute = () =>
                    StabilityModels.Rates(
                        StabilityModels.Of(StabilityModels.Axisymmetric(-3.2, 1.4, -0.8, 1.1), 2, 0.9, 1.6, 1.7)
                    ),
            },
            new("STB-06", "Growth of the flutter of a slowly spinning axisymmetric craft", "spin 0.4 rad/s")
            {
                Source = Quadratic,
                Origin = Origins.Mpmath,
                Expected = [0.92279692984528328],
                Unit = "1/s",
                Tolerance = 1e-13,
                Compute = () =>
                    [
                        StabilityAnalysis
                            .Analyse(
                                StabilityModels.Of(StabilityModels.Axisymmetric(-3.2, 1.4, -0.8, 1.1), 2, 0.9, 1.6, 0.4)
                            )
                            .GrowthPerSecond,
                    ],
            },
        ];

    private static OutsideCheck Spinning(string id, string inputs, double spin, bool damped, double[] expected) =>
        new(id, "Roots of an axisymmetric craft in a beam without symmetry", inputs)
        {
            Source = Quadratic,
            Origin = Origins.Mpmath,
            Parts = FourRoots,
            Expected = expected,
            Unit = "1/s",
            Tolerance = 1e-11,
            Compute = () =>
                StabilityModels.Roots(
                    StabilityModels.Of(StabilityModels.FullJacobian, 2, 0.9, 1.6, spin) with
                    {
                        BeamIsAxisymmetric = false,
                        Damping = damped ? Damping : null,
                    }
                ),
        };

    private static LinearModel SleepingTop(double overCritical) =>
        StabilityModels.Of(
            StabilityModels.Axisymmetric(-1, 0, 0, 0.05),
            1,
            0.002,
            0.001,
            overCritical * Math.Sqrt(4 * 0.002 * 0.05) / 0.001
        );

    private static LinearModel Saddle(double rate) =>
        StabilityModels.Of(
            [
                [1, 0, 0, 0],
                [0, -1, 0, 0],
                [0, 0, 0, 0],
                [0, 0, 0, 0],
            ],
            spin: rate
        ) with
        {
            CraftIsAxisymmetric = false,
        };

    private static IEnumerable<OutsideCheck> Tops() =>
        [
            new(
                "STB-07",
                "Precession and nutation of a sleeping top",
                "I1 = 0.002, I3 = 0.001 kg m^2, m g l = 0.05 N m, 1.5 times the critical spin"
            )
            {
                Source = Sources.ClassicalMechanics + ", section 5.7",
                Origin = Origins.ClosedForm,
                Parts = ["precession", "nutation"],
                Expected = [1.9098300562505258, 13.090169943749473],
                Unit = "rad/s",
                Tolerance = 1e-12,
                // The two lateral rates of the spring are 1 rad/s and lie below.
                Compute = () => StabilityModels.Rates(SleepingTop(1.5)).Where(w => w > 1.5).ToArray(),
            },
            new("STB-08", "Growth of a top that spins too slowly to sleep", "0.8 of the critical spin")
            {
                Source = Sources.ClassicalMechanics + ", section 5.7",
                Origin = Origins.ClosedForm,
                Expected = [3],
                Unit = "1/s",
                Tolerance = 1e-12,
                Compute = () => [StabilityAnalysis.Analyse(SleepingTop(0.8)).GrowthPerSecond],
            },
            new("STB-09", "Rates on a rotating saddle", "curvatures +-1, rotation 2: sqrt(4 -+ 1)")
            {
                Source = "Canadian Journal of Physics 80, 1433 (2002)",
                Origin = Origins.ClosedForm,
                Parts = ["slow", "fast"],
                Expected = [1.7320508075688772, 2.2360679774997898],
                Unit = "rad/s",
                Tolerance = 1e-12,
                Compute = () => [.. StabilityModels.Rates(Saddle(2)).Where(w => w > 0.1)],
            },
            new("STB-10", "Growth on a saddle that rotates too slowly", "curvatures +-1, rotation 0.8: sqrt(1 - 0.64)")
            {
                Source = "Canadian Journal of Physics 80, 1433 (2002)",
                Origin = Origins.ClosedForm,
                Expected = [0.6],
                Unit = "1/s",
                Tolerance = 1e-12,
                Compute = () => [StabilityAnalysis.Analyse(Saddle(0.8)).GrowthPerSecond],
            },
        ];

    private static IEnumerable<OutsideCheck> Craft() =>
        [
            new(
                "STB-40",
                "Distance of the centre of mass from the vertex at which a wide mouth-first cone on a Gaussian is indifferent"
            )
            {
                Source = Sources.Riding,
                Origin = Origins.ClosedForm,
                Parts = ["65 deg, w = 1 m", "70 deg, w = 1 m", "75 deg, w = 0.7 m", "80 deg, w = 1 m"],
                Expected = [1.9052511208458036, 2.3534261124541498, 2.1710880356915205, 4.6087507695893635],
                Unit = "m",
                Tolerance = 1e-10,
                Compute = () =>
                    [
                        Indifferent(65, 1, 1.9),
                        Indifferent(70, 1, 2.35),
                        Indifferent(75, 0.7, 2.17),
                        Indifferent(80, 1, 4.6),
                    ],
            },
            new(
                "STB-41",
                "Distance at which a concave spherical mirror no longer turns itself: its radius",
                "R = 2 m, 40 deg, Gaussian of 0.2 m"
            )
            {
                Source = "every push passes through the centre of curvature",
                Origin = Origins.ClosedForm,
                Expected = [2],
                Unit = "m",
                Tolerance = 1e-11,
                Compute = () =>
                    [
                        Root(
                            s =>
                                Jacobian(
                                    new SphericalCap(2, Degrees(40), LaserSide.Mouth),
                                    UnitBeam(new GaussianProfile(0.2)),
                                    -s
                                )[3][3],
                            1.7,
                            2.4,
                            1e-12
                        ),
                    ],
            },
            new("STB-42", "Radius of a ring at which it begins to hold a mirror ball, over the ball's", "width 0.3 R")
            {
                Source = Sources.BallKernel,
                Origin = Origins.Quadpack,
                Expected = [0.74154013482313341],
                Tolerance = 1e-10,
                Compute = () =>
                    [Root(r => Jacobian(new Sphere(1), UnitBeam(new RingProfile(r, 0.3)))[0][0], 0.4, 1, 1e-11)],
            },
            new(
                "STB-43",
                "Angular momenta between which a spun flat mirror with its mass far in front rides",
                "6 m in front, inertia 1 kg m^2, P/c = 1 N"
            )
            {
                Source = "discriminant of I w^4 - h w^3 + 2 s w^2 - 4 = 0, docs/theory/riding.md",
                Origin = Origins.Mpmath,
                Parts = ["least", "largest"],
                Expected = [6.8250572359169153, 9.0232252397054877],
                Unit = "kg m^2/s",
                Tolerance = 5e-8,
                Compute = () => [SpinLimit(6.5, 7), SpinLimit(9.3, 8.5)],
            },
            new(
                "STB-44",
                "Margin of the centre of mass of a wide mouth-first cone, as the library finds it",
                "70 deg, w = 1 m"
            )
            {
                Source = Sources.Riding,
                Origin = Origins.ClosedForm,
                Expected = [2.3534261124541498],
                Unit = "m",
                Tolerance = 1e-8,
                Compute = () =>
                    [
                        StabilityMargins
                            .Find(
                                new("distance", 3, 0.5, 4.7),
                                s => Report(new Cone(6, Degrees(70), LaserSide.Mouth), -s)
                            )
                            .Downward.ChangeAt
                            ?? throw new ArithmeticException("No change of verdict was found."),
                    ],
            },
        ];

    private static double Indifferent(double angle, double waist, double near)
    {
        Cone cone = new(6, Degrees(angle), LaserSide.Mouth);
        Beam beam = UnitBeam(new GaussianProfile(waist));
        return Root(
            s =>
            {
                double[][] k = Jacobian(cone, beam, -s);
                return k[0][0] * k[3][3] - k[0][3] * k[3][0];
            },
            0.8 * near,
            1.2 * near,
            1e-11
        );
    }

    private static StabilityReport Report(
        SurfaceOfRevolution shape,
        double centre,
        Mat3? inertia = null,
        double spin = 0
    )
    {
        SailCraft craft = SingleSail(shape, new(0, 0, centre), inertia: inertia);
        Beam beam = UnitBeam(new GaussianProfile(1));
        return RidingAssessment.Of(craft, beam, new SurfaceQuadrature(craft, beam, 1e-10), spin).Report;
    }

    // Halves between an angular momentum that does not ride and one that does.
    private static double SpinLimit(double outside, double inside)
    {
        while (Math.Abs(inside - outside) > 1e-7)
        {
            double middle = 0.5 * (outside + inside);
            bool rides = Report(new Disc(8), -6, Mat3.Diagonal(1, 1, 0.5), middle / 0.5).Verdict.Rides();
            (outside, inside) = rides ? (outside, middle) : (middle, inside);
        }
        return inside;
    }
}
