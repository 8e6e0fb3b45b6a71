using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Quadrature;
using Lightkeel.Numerics.Scalars;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Lightkeel.Physics.Stability;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Stability;

/// <summary>
/// Known craft from the light up to the verdict. Closed forms are worked out by hand from the element force of a perfect
/// mirror, not with the engine's own code; see docs/theory/riding.md.
/// </summary>
public sealed class RidingTests
{
    private static SailCraft CraftOf(
        SurfaceOfRevolution shape,
        double centerOfMass,
        double transverse = 1,
        double axial = 0.5,
        double mass = 1
    ) =>
        new(
            [new("sail", shape, OpticalCoefficients.Mirror, Vec3.Zero, Mat3.Identity)],
            new(mass, new(0, 0, centerOfMass), Mat3.Diagonal(transverse, transverse, axial))
        );

    private static StabilityReport Report(SailCraft craft, Beam beam, double spin = 0, double accuracy = 1e-10) =>
        RidingAssessment.Of(craft, beam, new SurfaceQuadrature(craft, beam, accuracy), spin).Report;

    private static double[][] Jacobian(SailCraft craft, Beam beam) =>
        new SurfaceQuadrature(craft, beam, 1e-12).Differentiate(CraftPose.OnAxis).LateralJacobian();

    private static double Bisected(Func<double, double> f, double low, double high)
    {
        double atLow = f(low);
        Assert.True(atLow * f(high) < 0, "no sign change");
        for (int i = 0; i < 60; i++)
        {
            double middle = 0.5 * (low + high);
            if (f(middle) * atLow > 0)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }
        return 0.5 * (low + high);
    }

    // ---- Concave spherical mirror: every push passes through the centre of curvature ----

    private const double Curvature = 2;

    private static readonly SphericalCap Mirror = new(Curvature, Degrees(40), LaserSide.Mouth);

    private static Beam Narrow => UnitBeam(new GaussianProfile(0.2)); // the rim lies 6.4 waists out: e^(-83)

    [Fact]
    public void ConcaveSphericalMirror_RestoringTilt_VanishesAtTheCentreOfCurvatureToTenDigits()
    {
        double neutral = Bisected(s => Jacobian(CraftOf(Mirror, -s), Narrow)[3][3], 1.7, 2.4);

        Assert.Equal(Curvature, neutral, 1e-9);
    }

    [Theory]
    [InlineData(1.0, false), InlineData(1.999, false), InlineData(1.99999, false)]
    [InlineData(2.00001, true), InlineData(2.001, true), InlineData(3.0, true)]
    public void ConcaveSphericalMirror_Rides_OnlyWithItsMassBeyondTheCentreOfCurvature(double distance, bool rides)
    {
        StabilityReport report = Report(CraftOf(Mirror, -distance), Narrow);

        Assert.Equal(rides, report.Verdict.Rides());
        Assert.Equal(rides ? StabilityVerdict.NeutrallyStable : StabilityVerdict.Divergent, report.Verdict);
    }

    [Fact]
    public void ConcaveSphericalMirror_AtTheCentreOfCurvature_HasFreeTiltsAndOneFrequency()
    {
        StabilityReport report = Report(CraftOf(Mirror, -Curvature), Narrow);

        Assert.Equal(StabilityVerdict.NeutrallyStable, report.Verdict);
        Assert.Equal(["tilt_x", "tilt_y"], report.FreeCoordinates.Select(f => f.Name));
    }

    [Fact]
    public void ConcaveSphericalMirror_MarginOfItsMass_EndsAtTheCentreOfCurvature()
    {
        StabilityMargin margin = StabilityMargins.Find(
            new("distance", 2.5, 0.5, 4),
            s => Report(CraftOf(Mirror, -s), Narrow)
        );

        Assert.Equal(StabilityVerdict.NeutrallyStable, margin.Verdict);
        Assert.Equal(StabilityVerdict.Divergent, margin.Downward.Becomes);
        Assert.Equal(Curvature, margin.Downward.ChangeAt!.Value, 1e-7);
    }

    // ---- Mouth-first cone, much wider than its Gaussian beam ----

    private const double ConeRadius = 6; // in waists of one metre: e^(-72) at the rim

    private static Cone Opening(double halfAngle, double radius = ConeRadius) =>
        new(radius, Degrees(halfAngle), LaserSide.Mouth);

    [Theory]
    [InlineData(62), InlineData(65), InlineData(70), InlineData(75), InlineData(80), InlineData(87)]
    public void WideMouthFirstCone_AboutItsVertex_HasTheClosedFormJacobian(double halfAngle)
    {
        // In units of P/c and of the waist, e = 90° − half-angle: dF_x/dx = −√(π/2) sin 2e, dF_x/dtilt = 2 cos² e,
        // dT_y/dx = 2, dT_y/dtilt = −√(π/8) tan e.
        double e = Degrees(90 - halfAngle);
        double[][] k = Jacobian(CraftOf(Opening(halfAngle), 0), UnitBeam(new GaussianProfile(1)));

        Assert.Equal(-Math.Sqrt(Math.PI / 2) * Math.Sin(2 * e), k[0][0], 1e-9);
        Assert.Equal(2 * Math.Cos(e) * Math.Cos(e), k[0][3], 1e-9);
        Assert.Equal(2, k[3][0], 1e-9);
        Assert.Equal(-Math.Sqrt(Math.PI / 8) * Math.Tan(e), k[3][3], 1e-9);
    }

    private static double CriticalDistance(double halfAngle, double waist)
    {
        double e = Degrees(90 - halfAngle);
        double tan = Math.Tan(e);
        return waist * (4 - Math.PI / 2 * tan * tan) / (2 * Math.Sqrt(Math.PI / 2) * Math.Sin(2 * e));
    }

    [Theory]
    [InlineData(65, 1.0), InlineData(70, 1.0), InlineData(75, 0.7), InlineData(80, 1.0)]
    public void WideMouthFirstCone_DeterminantOfItsJacobian_VanishesAtTheClosedFormDistance(
        double halfAngle,
        double waist
    )
    {
        // Distance of the centre of mass from the vertex, towards the laser.
        Beam beam = UnitBeam(new GaussianProfile(waist));
        double expected = CriticalDistance(halfAngle, waist);

        double found = Bisected(
            s => Determinant(CraftOf(Opening(halfAngle), -s), beam),
            0.8 * expected,
            1.2 * expected
        );

        Assert.Equal(expected, found, 1e-7 * expected);
    }

    private static double Determinant(SailCraft craft, Beam beam)
    {
        double[][] k = Jacobian(craft, beam);
        return k[0][0] * k[3][3] - k[0][3] * k[3][0];
    }

    // Mass and inertia do not enter the condition; the gyration radius here is one waist and two.
    [Theory]
    [InlineData(65, 1.0), InlineData(65, 4.0), InlineData(70, 1.0), InlineData(75, 4.0), InlineData(80, 1.0)]
    public void WideMouthFirstCone_MarginOfItsMass_EndsAtTheClosedFormDistance(double halfAngle, double inertia)
    {
        Beam beam = UnitBeam(new GaussianProfile(1));
        double expected = CriticalDistance(halfAngle, 1);

        StabilityMargin margin = StabilityMargins.Find(
            new("distance", 1.3 * expected, 0.2 * expected, 2 * expected),
            s => Report(CraftOf(Opening(halfAngle), -s, inertia), beam)
        );

        Assert.Equal(StabilityVerdict.NeutrallyStable, margin.Verdict);
        Assert.Equal(StabilityVerdict.Divergent, margin.Downward.Becomes);
        Assert.Equal(expected, margin.Downward.ChangeAt!.Value, 1e-6 * expected);
    }

    // Rule of the trade, common practice, no source.
    [Theory]
    [InlineData(62), InlineData(65), InlineData(70), InlineData(80)]
    public void MouthFirstConeAsWideAsItsGaussian_Rides_OnlyWithItsMassWellOutsideTheMouth(double halfAngle)
    {
        const double Radius = 1;
        Beam beam = UnitBeam(new GaussianProfile(1));
        double depth = Radius / Math.Tan(Degrees(halfAngle));
        List<double> riding = [];
        foreach (double gyration in (double[])[0.5, 1, 2])
        {
            for (double distance = -3; distance < 9; distance += 0.25)
            {
                SailCraft craft = CraftOf(Opening(halfAngle, Radius), -distance, gyration * gyration);
                if (Report(craft, beam, accuracy: 1e-8).Verdict.Rides())
                {
                    riding.Add(distance);
                }
            }
        }

        Assert.NotEmpty(riding);
        Assert.True(riding.Min() > depth + 0.75 * Radius, $"rides from {riding.Min()}, mouth at {depth}");
    }

    // ---- Mirror ball ----

    /// <summary>dF_x/dx · c/P of a mirror ball on the axis, from U(X) = (2R/3c) ∫ I(X + ρ)(1 − ρ²/R²)^(3/2) d²ρ.</summary>
    private static double BallStiffness(double radius, Func<double, double> unitIrradiance)
    {
        double sum = 0;
        const int Panels = 20;
        for (int i = 0; i < Panels; i++)
        {
            sum += GaussLegendre
                .Order(20)
                .Integrate(
                    beta =>
                    {
                        (double s, double c) = Math.SinCos(beta);
                        return unitIrradiance(radius * s) * (2 * c * c - s * s) * s;
                    },
                    Math.PI / 2 * i / Panels,
                    Math.PI / 2 * (i + 1) / Panels
                );
        }
        return 2 * Math.PI * radius * sum;
    }

    // Rule of the trade, common practice, no source: a bell-shaped beam pushes a ball out.
    [Theory]
    [InlineData(0.1), InlineData(0.5), InlineData(1), InlineData(3)]
    public void Ball_OnABellShapedBeam_IsPushedOut(double radius)
    {
        Sphere ball = new(radius);
        foreach (IBeamProfile bell in (IBeamProfile[])[new GaussianProfile(1), new SuperGaussianProfile(1, 4)])
        {
            StabilityReport report = Report(CraftOf(ball, 0), UnitBeam(bell), accuracy: 1e-8);
            Assert.Equal(StabilityVerdict.Divergent, report.Verdict);
        }
        double k = Jacobian(CraftOf(ball, 0), UnitBeam(new GaussianProfile(1)))[0][0];
        Assert.Equal(BallStiffness(radius, r => 2 / Math.PI * Math.Exp(-2 * r * r)), k, 1e-9);
    }

    // Rule of the trade, common practice, no source: a hollowed beam pulls a ball in if the hollow is wide enough.
    [Fact]
    public void Ball_OnARingBeam_IsPulledInOnlyWhenTheHollowIsWideEnough()
    {
        Sphere ball = new(1);
        double Stiffness(double ring) => Jacobian(CraftOf(ball, 0), UnitBeam(new RingProfile(ring, 0.3)))[0][0];
        double Closed(double ring)
        {
            RingProfile beam = new(ring, 0.3);
            return BallStiffness(1, r => beam.UnitIrradiance(new F64(r), new F64(0)).Value);
        }

        double edge = Bisected(Closed, 0.4, 1);

        Assert.Equal(edge, Bisected(Stiffness, 0.4, 1), 1e-9);
        Assert.Equal(
            StabilityVerdict.Divergent,
            Report(CraftOf(ball, 0), UnitBeam(new RingProfile(edge - 1e-4, 0.3))).Verdict
        );
        Assert.Equal(
            StabilityVerdict.NeutrallyStable,
            Report(CraftOf(ball, 0), UnitBeam(new RingProfile(edge + 1e-4, 0.3))).Verdict
        );
    }

    // ---- Flat mirror ----

    private static IEnumerable<(double Distance, double Gyration, double Radius)> FlatCraft() =>
        from distance in (double[])[-3, -0.5, 0, 0.4, 1, 3, 9]
        from gyration in (double[])[0.2, 1, 3]
        from radius in (double[])[0.5, 1, 3]
        select (distance, gyration, radius);

    // Rule of the trade, common practice, no source. Of K, dF_x/dx = 0 and dF_x/dtilt · dT_y/dx > 0: det K < 0.
    [Fact]
    public void FlatMirrorWithoutSpin_OnABellShapedBeam_NeverRides()
    {
        foreach ((double distance, double gyration, double radius) in FlatCraft())
        {
            StabilityReport report = Report(
                CraftOf(new Disc(radius), -distance, gyration * gyration),
                UnitBeam(new GaussianProfile(1)),
                accuracy: 1e-8
            );
            Assert.Equal(StabilityVerdict.Divergent, report.Verdict);
        }
    }

    // The same holds at any spin as long as the mass is in the mirror or behind it.
    [Fact]
    public void FlatMirrorWithSpin_MassInOrBehindIt_NeverRides()
    {
        foreach ((double distance, double gyration, double radius) in FlatCraft().Where(c => c.Distance <= 0))
        {
            foreach (double spin in (double[])[-100, -3, 0.3, 1, 10, 1000])
            {
                StabilityReport report = Report(
                    CraftOf(new Disc(radius), -distance, gyration * gyration, 1.5 * gyration * gyration),
                    UnitBeam(new GaussianProfile(1)),
                    spin,
                    accuracy: 1e-8
                );
                Assert.False(report.Verdict.Rides(), $"{distance} {gyration} {radius} {spin}: {report.Verdict}");
                Assert.NotEqual(StabilityVerdict.Undecided, report.Verdict);
            }
        }
    }

    // With most of its mass far in front a spun flat mirror is a sleeping top that the beam steers: with whole power caught
    // (b = c = 2P/c) the rates are the roots of I ω⁴ − h ω³ + c s ω² − b c/m = 0, and all four are real for spins between
    // two bounds. Expected: the discriminant's roots h for I = 1, s = 6, m = 1 by mpmath 1.2.1 polyroots at 40 digits, bisected.
    // The linear verdict therefore does not support 'never rides, spun or not'.
    [Theory]
    [InlineData(6.0, 6.8250572359169153, 9.0232252397054877)]
    public void FlatMirrorWithSpin_MassFarInFront_RidesBetweenTwoSpins(double distance, double lower, double upper)
    {
        Beam beam = UnitBeam(new GaussianProfile(1));
        bool Rides(double h) => Report(CraftOf(new Disc(8), -distance, 1, 0.5), beam, h / 0.5).Verdict.Rides();

        Assert.False(Rides(lower * (1 - 1e-6)));
        Assert.True(Rides(lower * (1 + 1e-6)));
        Assert.True(Rides(0.5 * (lower + upper)));
        Assert.True(Rides(upper * (1 - 1e-6)));
        Assert.False(Rides(upper * (1 + 1e-6)));
    }
}
