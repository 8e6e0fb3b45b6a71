using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using static Lightkeel.Studies.Verify.Checks.Scenes;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Derivatives of the light pressure by offset and tilt against closed forms.</summary>
internal static class StiffnessChecks
{
    private static readonly string[] ConeParts = ["dF_x/dx", "dF_x/dtilt_y", "dT_y/dx", "dT_y/dtilt_y"];

    public static IEnumerable<OutsideCheck> All() => [.. Single(), .. WideCones()];

    private static IEnumerable<OutsideCheck> Single() =>
        [
            new(
                "PRS-18",
                "Lateral stiffness of a wide mirror cone, vertex first, in a Gaussian",
                "45 deg, 1 kW, w = 1 m: sqrt(2 pi) sin a cos a P/(c w)"
            )
            {
                Source = Sources.Riding,
                Origin = Origins.ClosedForm,
                Expected = [4.18060596212697336e-6],
                Unit = "N/m",
                Tolerance = 1e-11,
                Compute = () => [Outward(new Cone(6, Math.PI / 4, LaserSide.Vertex))],
            },
            new(
                "PRS-19",
                "Lateral stiffness of a wide mirror paraboloid, vertex first, in a Gaussian",
                "f = w = 1 m, 1 kW: (16 P f/c w^4)(w^2/2 - 4 f^2 e^a E1(a)), a = 8"
            )
            {
                Source = Sources.Riding,
                Origin = Origins.ClosedForm,
                Expected = [2.71555559872037889e-6],
                Unit = "N/m",
                Tolerance = 1e-11,
                Compute = () => [Outward(new Paraboloid(1, 6, LaserSide.Vertex))],
            },
            new(
                "PRS-20",
                "Lateral stiffness of a mirror cone, vertex first, in a Laguerre-Gauss (0, 1) beam, in P/(c w)",
                "45 deg, R = w/sqrt 2"
            )
            {
                Source = Sources.Riding,
                Origin = Origins.ClosedForm,
                Expected = [-0.252305733868903401],
                Tolerance = 1e-11,
                Compute = () =>
                    [
                        Jacobian(
                            new Cone(Math.Sqrt(0.5), Math.PI / 4, LaserSide.Vertex),
                            UnitBeam(new LaguerreGaussProfile(1, 0, 1))
                        )[0][0],
                    ],
            },
            new(
                "PRS-21",
                "Change with tilt of a mirror cone, vertex first, in uniform light, in I pi R^2/c and I pi R^3/c",
                "60 deg: -2 cos 2a, -(4/3) cot a"
            )
            {
                Source = Sources.Riding,
                Origin = Origins.ClosedForm,
                Parts = ["dF_x/dtilt_y", "dT_y/dtilt_y"],
                Expected = [1, -0.769800358919501019],
                Tolerance = 1e-10,
                Compute = () =>
                {
                    double[][] k = Jacobian(new Cone(1, Degrees(60), LaserSide.Vertex), UniformBeam());
                    return [k[0][3] / Math.PI, k[3][3] / Math.PI];
                },
            },
            new("PRS-22", "Lateral stiffness of a mirror ball on a Gaussian, in P/(c w)")
            {
                Source = Sources.BallKernel,
                Origin = Origins.ClosedForm,
                Parts = ["R = 0.1 w", "R = 0.5 w", "R = w", "R = 2 w", "R = 3 w"],
                Expected =
                [
                    0.00210911413558510282,
                    0.201772327943389345,
                    0.76004173902106876,
                    0.857808797443170092,
                    0.627874890098330563,
                ],
                Tolerance = 1e-11,
                Compute = () =>
                    [
                        .. ((double[])[0.1, 0.5, 1, 2, 3]).Select(r =>
                            Jacobian(new Sphere(r), UnitBeam(new GaussianProfile(1)))[0][0]
                        ),
                    ],
            },
            new("PRS-23", "Lateral stiffness of a mirror ball on a Laguerre-Gauss (0, 1) beam, in P/(c w)")
            {
                Source = Sources.BallKernel,
                Origin = Origins.ClosedForm,
                Parts = ["R = 0.2 w", "R = 0.5 w", "R = w"],
                Expected = [-0.0155671175497673237, -0.146898426099068645, -0.0598777642954414882],
                Tolerance = 1e-11,
                Compute = () =>
                    [
                        .. ((double[])[0.2, 0.5, 1]).Select(r =>
                            Jacobian(new Sphere(r), UnitBeam(new LaguerreGaussProfile(1, 0, 1)))[0][0]
                        ),
                    ],
            },
            new(
                "PRS-26",
                "Rotation of a concave spherical mirror about its centre of curvature changes nothing",
                "R = 2 m, 40 deg, Gaussian of 0.2 m"
            )
            {
                Source = "a sphere turned about its centre is the same sphere",
                Origin = Origins.ClosedForm,
                Parts = ["dF_x/dtilt_y", "dT_y/dtilt_y", "dT_y/dx"],
                Expected = [0, 0, 0],
                Size = 1,
                Tolerance = 1e-11,
                Compute = () =>
                {
                    SphericalCap cap = new(2, Degrees(40), LaserSide.Mouth);
                    double[][] k = Jacobian(cap, UnitBeam(new GaussianProfile(0.2)), -2);
                    return [k[0][3], k[3][3], k[3][0]];
                },
            },
            new(
                "PRS-34",
                "Sideways push on a small mirror ball over R^3, in P/(c w^3)",
                "0.4 w off a Gaussian: -(4 pi/15) grad I"
            )
            {
                Source = Sources.BallKernel + ", leading term of a small ball",
                Origin = Origins.ClosedForm,
                Expected = [0.619647178302882923],
                Tolerance = 2e-6,
                Compute = () =>
                {
                    const double R = 1e-3;
                    return
                    [
                        Quadrature(new Sphere(R), UnitBeam(new GaussianProfile(1)))
                            .Evaluate(CraftPose.From(0.4, 0))
                            .ForceNewtons.X / (R * R * R),
                    ];
                },
            },
        ];

    private static IEnumerable<OutsideCheck> WideCones() =>
        [
            WideCone("PRS-27", 62, -1.03904451004895853, 1.55919290347074683, -0.333199473822660586),
            WideCone("PRS-28", 65, -0.960094330372994759, 1.64278760968653933, -0.292214990152071628),
            WideCone("PRS-29", 70, -0.805614798511377529, 1.76604444311897804, -0.228084520083932971),
            WideCone("PRS-30", 75, -0.626657068657750126, 1.86602540378443865, -0.167912255478098762),
            WideCone("PRS-31", 80, -0.428658680876734259, 1.93969262078590838, -0.110496548856038317),
            WideCone("PRS-32", 87, -0.131007000765214067, 1.99452189536827334, -0.0328417053403729665),
        ];

    private static OutsideCheck WideCone(string id, double angle, double xx, double xt, double tt) =>
        new(
            id,
            "Jacobian of a wide mirror cone, mouth first, about its vertex in a Gaussian, in P/c and w",
            FormattableString.Invariant($"half-angle {angle} deg")
        )
        {
            Source = Sources.Riding,
            Origin = Origins.ClosedForm,
            Parts = ConeParts,
            Expected = [xx, xt, 2, tt],
            Tolerance = 1e-11,
            Compute = () =>
            {
                double[][] k = Jacobian(new Cone(6, Degrees(angle), LaserSide.Mouth), UnitBeam(new GaussianProfile(1)));
                return [k[0][0], k[0][3], k[3][0], k[3][3]];
            },
        };

    private static double Outward(SurfaceOfRevolution shape) =>
        Jacobian(shape, new(1000, 1e-6, new GaussianProfile(1)))[0][0];
}
