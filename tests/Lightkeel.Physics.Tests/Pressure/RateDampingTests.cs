using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Pressure;

/// <summary>Damping by motion against hand-made integrals (docs/theory/motion.md) and against the exact transformation.</summary>
public sealed class RateDampingTests
{
    // Uniform light whose irradiance over c is one newton per square metre.
    private static readonly Beam Uniform = UniformBeam();

    private static RateDamping At(SailCraft craft) => RateDamping.At(craft, Uniform, CraftPose.OnAxis, 1e-8);

    [Fact]
    public void FlatMirrorDisc_InUniformLight_DampsTiltByFourPowersOverMassLightSpeedSquared()
    {
        // Torque rate −4 I/c² ∫ y² dA = −P R²/c²; over the inertia m R²/4 of a disc: 4 P/(m c²). No lateral drag.
        const double R = 0.7;
        const double M = 1e-3;
        RateDamping d = At(SingleSail(new Disc(R)));
        double power = Math.PI * R * R * C;
        Assert.Equal(
            4 * power / (M * C * C),
            -d.TorqueByRate.Row0.X / (M * R * R / 4),
            1e-10 * 4 * power / (M * C * C)
        );
        Assert.Equal(0, d.ForceByVelocity.Row0.X, 1e-20);
        Assert.Equal(0, d.TorqueByRate.Row2.Z, 1e-20);
        // Along the beam 4 P/c²: force 2 P (1 − v/c)/(c (1 + v/c)).
        Assert.Equal(-4 * power / (C * C), d.ForceByVelocity.Row2.Z, 1e-10 * power / (C * C));
    }

    [Fact]
    public void BlackDisc_InUniformLight_DragsByPowerOverLightSpeedSquared()
    {
        const double R = 0.7;
        RateDamping d = At(SingleSail(new Disc(R), optics: new(0, 0, 1)));
        double power = Math.PI * R * R * C;
        Assert.Equal(-power / (C * C), d.ForceByVelocity.Row0.X, 1e-10 * power / (C * C));
        // Spin: each element is dragged at its own speed, −(I/c²) ∫ ρ² dA.
        double spin = Math.PI * Math.Pow(R, 4) / 2 / C;
        Assert.Equal(-spin, d.TorqueByRate.Row2.Z, 1e-10 * spin);
    }

    [Fact]
    public void MirrorBall_InUniformLight_DragsByThrustOverLightSpeedAndDampsNoTurn()
    {
        // −(4 I/c²) ∫ μ n_x² dA = −π R² I/c² = −F_z/c.
        const double R = 0.9;
        RateDamping d = At(SingleSail(new Sphere(R)));
        double expected = Math.PI * R * R / C;
        Assert.Equal(-expected, d.ForceByVelocity.Row0.X, 1e-8 * expected);
        Assert.Equal(0, d.TorqueByRate.Row0.X, 1e-12 * expected);
    }

    [Theory, InlineData(50, 0.0), InlineData(65, 0.4), InlineData(80, -0.3)]
    public void MirrorCone_InUniformLight_MatchesTheIntegralsByHand(double halfAngleDegrees, double centre)
    {
        // Vertex first, centre of mass at height h, k(r) = r/sin a − h cos a:
        //   lateral drag −2π I R² cos² a/c²,   F_y by w_x  4π I cos a ∫ k r dr/c²,   T_x by w_x  −4π I ∫ k² r dr/c².
        const double R = 0.8;
        double a = Degrees(halfAngleDegrees);
        (double s, double c) = Math.SinCos(a);
        RateDamping d = At(SingleSail(new Cone(R, a, LaserSide.Vertex), new(0, 0, centre)));
        double drag = 2 * Math.PI * R * R * c * c / C;
        double cross = 4 * Math.PI * c * (R * R * R / (3 * s) - centre * R * R * c / 2) / C;
        double turn =
            4
            * Math.PI
            * (
                Math.Pow(R, 4) / (4 * s * s)
                - 2 * centre * c * R * R * R / (3 * s)
                + centre * centre * c * c * R * R / 2
            )
            / C;
        Assert.Equal(-drag, d.ForceByVelocity.Row0.X, 1e-9 * drag);
        Assert.Equal(cross, d.ForceByRate.Row1.X, 1e-9 * turn);
        Assert.Equal(-cross, d.ForceByRate.Row0.Y, 1e-9 * turn);
        Assert.Equal(-turn, d.TorqueByRate.Row0.X, 1e-9 * turn);
        // Symmetric: force by rate is the transposed torque by velocity.
        Assert.Equal(d.ForceByRate.Row1.X, d.TorqueByVelocity.Row0.Y, 1e-9 * turn);
    }

    [Fact]
    public void MirrorRoof_InUniformLight_MatchesTheSumsByHand()
    {
        // Two round plates turned by ∓α about y at x = ±d, edge to the laser: n = (±sin α, 0, −cos α), μ = cos α.
        const double D = 0.8;
        const double Rho = 0.5;
        double alpha = Degrees(25);
        (double s, double c) = Math.SinCos(alpha);
        PlacedSurface Plate(string name, double x, double turn) =>
            new(name, new Disc(Rho), OpticalCoefficients.Mirror, new(x, 0, 0), Mat3.Rotation(Vec3.UnitY, turn));
        SailCraft roof = new(
            [Plate("right", D, -alpha), Plate("left", -D, alpha)],
            new(1e-3, Vec3.Zero, Mat3.Diagonal(1e-3, 1e-3, 1e-3))
        );
        RateDamping d = At(roof);
        double area = Math.PI * Rho * Rho;
        double second = Math.PI * Math.Pow(Rho, 4) / 4;
        Near(-8 * c * s * s * area / C, d.ForceByVelocity.Row0.X);
        Assert.Equal(0, d.ForceByVelocity.Row1.Y, 1e-20);
        Near(-8 * c * (area * D * D * c * c + second) / C, d.TorqueByRate.Row1.Y);
        Near(-8 * c * c * c * second / C, d.TorqueByRate.Row0.X);
        Near(-8 * area * c * c * s * D / C, d.ForceByRate.Row0.Y);

        static void Near(double expected, double actual) => Assert.Equal(expected, actual, 1e-8 * Math.Abs(expected));
    }

    [Theory]
    [InlineData("cone"), InlineData("ball"), InlineData("disc"), InlineData("cap")]
    public void ByVelocity_ForAnyFilm_IsTheDerivativeOfTheExactTransformation(string shape)
    {
        SurfaceOfRevolution surface = shape switch
        {
            "cone" => new Cone(0.8, Degrees(60), LaserSide.Vertex),
            "ball" => new Sphere(0.6),
            "disc" => new Disc(0.8),
            _ => new SphericalCap(2.5, Degrees(20), LaserSide.Mouth),
        };
        OpticalCoefficients film = shape switch
        {
            "ball" => new(0.8, 0.05, 0.15, 0.1, 0.4),
            "cap" => OpticalCoefficients.Mirror,
            _ => new(0.8, 0.05, 0.1, 0.1, 0.4),
        };
        SailCraft craft = SingleSail(surface, new(0.1, 0, 0.2), film);
        Beam beam = UnitBeam(new GaussianProfile(0.7));
        CraftPose pose = CraftPose.From(0.2, -0.1, 0.06, -0.04) with { BeamScale = 1.3 };
        RateDamping d = RateDamping.At(craft, beam, pose, 1e-8);
        SurfaceQuadrature engine = new(craft, beam, 1e-13);
        Mat3 force = d.ForceByVelocity.Transposed;
        Mat3 torque = d.TorqueByVelocity.Transposed;
        Check(Vec3.UnitX, force.Row0, torque.Row0);
        Check(Vec3.UnitY, force.Row1, torque.Row1);
        Check(Vec3.UnitZ, force.Row2, torque.Row2);

        void Check(Vec3 along, Vec3 byForce, Vec3 byTorque)
        {
            const double V = 3e4;
            PressureReading up = engine.Evaluate(pose with { VelocityMetresPerSecond = V * along });
            PressureReading down = engine.Evaluate(pose with { VelocityMetresPerSecond = -V * along });
            Vec3 f = 0.5 / V * (up.ForceNewtons - down.ForceNewtons);
            Vec3 t = 0.5 / V * (up.TorqueNewtonMetres - down.TorqueNewtonMetres);
            Assert.Equal(0, (f - byForce).Length * C, 1e-6);
            Assert.Equal(0, (t - byTorque).Length * C, 1e-6);
        }
    }

    [Theory, InlineData("table"), InlineData("displaced rings"), InlineData("super-gaussian"), InlineData("ring")]
    public void Setup_OfARide_FindsTheDampingInRoughBeamsToo(string name)
    {
        IBeamProfile profile = name switch
        {
            "table" => new RadialTableProfile([0, 0.2, 0.5, 0.9, 1.2], [0.3, 0.5, 1, 0.4, 0.1]),
            "displaced rings" => new SumProfile([
                new(new RingProfile(0.5, 0.4), 0.6, 0.2, 0.1),
                new(new RingProfile(0.6, 0.5), 0.4, -0.3, 0),
            ]),
            "super-gaussian" => new SuperGaussianProfile(0.6, 12),
            _ => new RingProfile(0.6, 0.3),
        };
        SailCraft craft = SingleSail(new Cone(0.9, Degrees(50), LaserSide.Vertex), new(0, 0, 0.3));
        RateDamping d = RateDamping.At(craft, UnitBeam(profile), CraftPose.OnAxis, 1e-4);
        Assert.InRange(d.RelativeError, 0, 1e-4);
        Assert.True(d.TorqueByRate.Row0.X < 0 && d.ForceByVelocity.Row0.X < 0);
    }

    [Fact]
    public void LateralMatrix_OfAMirrorBall_IsTheDampingOfTheLinearModel()
    {
        RateDamping d = At(SingleSail(new Sphere(0.9)));
        double[][] matrix = d.LateralMatrix();
        Assert.Equal(-d.ForceByVelocity.Row0.X, matrix[0][0]);
        Assert.True(matrix[0][0] > 0 && matrix[1][1] > 0);
    }
}
