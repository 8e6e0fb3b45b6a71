using Lightkeel.Numerics.Integration;
using Lightkeel.Physics.Motion.Wells;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Integrators on problems with known solutions.</summary>
internal static class IntegratorChecks
{
    private static readonly string[] Jacobi = ["sn", "cn", "dn"];
    private static readonly string[] Orbit = ["x", "y", "vx", "vy"];

    public static CheckModule Module() => new("integrators", "Integrators", [.. Tops(), .. Periods(), .. Orbits()]);

    private static IEnumerable<OutsideCheck> Tops() =>
        [
            Top(
                "INT-01",
                1,
                ButcherTableau.DormandPrince8,
                0.80220075305636086,
                0.59705439601078857,
                0.819635111141452899
            ),
            Top(
                "INT-02",
                12,
                ButcherTableau.DormandPrince8,
                -0.705397809522571743,
                -0.708811632467158085,
                0.863846690370222101
            ),
            Top(
                "INT-03",
                20,
                ButcherTableau.DormandPrince8,
                -0.939657079872920396,
                -0.342117775400074907,
                0.741412659619995301
            ),
            Top(
                "INT-04",
                12,
                ButcherTableau.DormandPrince5,
                -0.705397809522571743,
                -0.708811632467158085,
                0.863846690370222101
            ),
            new(
                "INT-06",
                "Rate of an asymmetric top half a period after the start: its middle axis has flipped",
                "inertias 1, 2, 3"
            )
            {
                Source = Sources.Mechanics + ", section 37",
                Origin = Origins.ClosedForm,
                Parts = ["w_1", "w_2", "w_3"],
                Expected = [-0.01, -1, 0.01],
                Size = 1,
                Tolerance = 1e-11,
                Compute = () =>
                    MotionRun.End(
                        ButcherTableau.DormandPrince8,
                        new FreeTop(1, 2, 3),
                        39.1057341972687209 / 2,
                        [0.01, 1, 0.01],
                        1e-13
                    ),
            },
        ];

    private static OutsideCheck Top(string id, double end, ButcherTableau method, double sn, double cn, double dn) =>
        new(
            id,
            "Torque-free rigid body, problem B5",
            FormattableString.Invariant($"t = {end}, m = 0.51, order {method.Order}")
        )
        {
            Source = Sources.TestProblems + "; Jacobi functions, Digital Library of Mathematical Functions, 22",
            Origin = Origins.ClosedForm,
            Parts = Jacobi,
            Expected = [sn, cn, dn],
            Tolerance = 1e-9,
            Compute = () => MotionRun.End(method, new EulerTop(), end, [0, 1, 1], 1e-12),
        };

    private static IEnumerable<OutsideCheck> Periods() =>
        [
            new("INT-05", "Period of problem B5", "4 K(0.51)")
            {
                Source = Sources.TestProblems,
                Origin = Origins.ClosedForm,
                Expected = [7.45056320933095421],
                Tolerance = 1e-12,
                Compute = () => [MotionRun.Period(new EulerTop(), [0, 1, 1], 0)],
            },
            new("INT-07", "Period of a pendulum over that of small swings", "(2/pi) K(sin^2(a/2))")
            {
                Source = Sources.Mechanics + ", section 11; Digital Library of Mathematical Functions, 19.2",
                Origin = Origins.ClosedForm,
                Parts = ["30 deg", "90 deg", "150 deg"],
                Expected = [1.01740879759595601, 1.18034059901609623, 1.76220372950375603],
                Tolerance = 1e-11,
                Compute = () =>
                    [
                        .. ((double[])[30, 90, 150]).Select(a =>
                            MotionRun.Period(new LineMotion(x => -Math.Sin(x)), [Scenes.Degrees(a), 0], 1)
                            / (2 * Math.PI)
                        ),
                    ],
            },
            new("INT-08", "Period of the quartic oscillator", "Gamma(1/4)^2/sqrt pi")
            {
                Source = "Digital Library of Mathematical Functions, 19.20 and 5",
                Origin = Origins.ClosedForm,
                Expected = [7.41629870920548767],
                Tolerance = 1e-11,
                Compute = () => [MotionRun.Period(new LineMotion(x => -x * x * x), [1, 0], 1)],
            },
            new("INT-16", "Period of a pendulum by the quadrature of swings, over that of small swings")
            {
                Source = Sources.Mechanics + ", section 11",
                Origin = Origins.ClosedForm,
                Parts = ["2 rad", "3.1 rad"],
                Expected = [1.32890445191509954, 3.34849644557080362],
                Tolerance = 1e-12,
                Compute = () =>
                    [
                        .. ((double[])[2, 3.1]).Select(a =>
                            (SwingPeriod.Quarter(Math.Sin, a, 1) ?? double.NaN) / (0.5 * Math.PI)
                        ),
                    ],
            },
        ];

    private static IEnumerable<OutsideCheck> Orbits() =>
        [
            KeplerOrbit(
                "INT-09",
                0.1,
                0.219883535200839661,
                0.942707684634181309,
                -0.978765984105817651,
                0.328797799096203608
            ),
            KeplerOrbit(
                "INT-10",
                0.5,
                -0.578043295303536123,
                0.86338400091941928,
                -0.959508373038072736,
                -0.0650491512671209017
            ),
            KeplerOrbit(
                "INT-11",
                0.9,
                -1.29526625098757437,
                0.400393896379232153,
                -0.677539092470756589,
                -0.127083815427868619
            ),
            new(
                "INT-12",
                "Periodic orbit of the restricted three-body problem returns to its start",
                "mu = 0.012277471"
            )
            {
                Source =
                    "Solving Ordinary Differential Equations I (Springer, 2nd ed. 1993), section II.0, eqs (0.1) and (0.2)",
                Origin = ExpectedOrigin.Read("start and period, in public test suites of integrators"),
                Parts = ["x", "y"],
                Expected = [0.994, 0],
                Size = 1,
                Tolerance = 1e-10,
                Compute = () =>
                    MotionRun.End(
                        ButcherTableau.DormandPrince8,
                        new RestrictedThreeBody(0.012277471),
                        17.0652165601579625588917206249,
                        [0.994, 0, 0, -2.00158510637908252240537862224],
                        1e-13
                    )[..2],
            },
        ];

    private static OutsideCheck KeplerOrbit(string id, double e, double x, double y, double vx, double vy) =>
        new(id, "Kepler orbit, problems D1 to D5, at t = 20", FormattableString.Invariant($"eccentricity {e}"))
        {
            Source = Sources.TestProblems + "; Kepler's equation",
            Origin = Origins.ClosedForm,
            Parts = Orbit,
            Expected = [x, y, vx, vy],
            Tolerance = 1e-9,
            Compute = () =>
                MotionRun.End(
                    ButcherTableau.DormandPrince8,
                    new Kepler(),
                    20,
                    [1 - e, 0, 0, Math.Sqrt((1 + e) / (1 - e))],
                    1e-13
                ),
        };
}
