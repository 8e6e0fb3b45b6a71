using Lightkeel.Numerics.Interpolation;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Small invented scenes: one surface at the body origin, in a beam whose power over c is one newton.</summary>
internal static class Scenes
{
    public const double LightSpeed = Illumination.LightSpeed;

    // So wide that the beam is uniform over a metre to 1e-12.
    private const double UniformWaist = 3e6;

    public static double Degrees(double angle) => angle * Math.PI / 180;

    public static SailCraft SingleSail(
        SurfaceOfRevolution shape,
        Vec3 centerOfMass = default,
        OpticalCoefficients? optics = null,
        Mat3? inertia = null,
        double mass = 1
    ) =>
        new(
            [new("sail", shape, optics ?? OpticalCoefficients.Mirror, Vec3.Zero, Mat3.Identity)],
            new(mass, centerOfMass, inertia ?? Mat3.Diagonal(1, 1, 1.5))
        );

    public static Beam UnitBeam(IBeamProfile profile) => new(LightSpeed, 1.064e-6, profile);

    /// <summary>Uniform light of irradiance over c of one newton per square metre, or of another irradiance, W/m².</summary>
    public static Beam UniformBeam(double irradiance = LightSpeed) =>
        new(irradiance * Math.PI * UniformWaist * UniformWaist / 2, 1.064e-6, new GaussianProfile(UniformWaist));

    public static SurfaceQuadrature Quadrature(
        SurfaceOfRevolution shape,
        Beam beam,
        Vec3 centerOfMass = default,
        OpticalCoefficients? optics = null,
        double accuracy = 1e-12
    ) => new(SingleSail(shape, centerOfMass, optics), beam, accuracy);

    /// <summary>Thrust on the axis, N.</summary>
    public static double Thrust(SurfaceOfRevolution shape, Beam beam, OpticalCoefficients? optics = null) =>
        Quadrature(shape, beam, default, optics).Evaluate(CraftPose.OnAxis).ForceNewtons.Z;

    /// <summary>The 4×4 lateral Jacobian on the axis, centre of mass at a height over the origin.</summary>
    public static double[][] Jacobian(SurfaceOfRevolution shape, Beam beam, double centerOfMass = 0) =>
        Quadrature(shape, beam, new(0, 0, centerOfMass)).Differentiate(CraftPose.OnAxis).LateralJacobian();

    /// <summary>Where a function changes sign between two places, by the library's search.</summary>
    public static double Root(Func<double, double> function, double low, double high, double width = 1e-14) =>
        SignChange.Find(x => function(x), low, function(low), high, function(high), width)
        ?? throw new ArithmeticException("The search ended without a place.");

    public static double[] Components(Vec3 v) => [v.X, v.Y, v.Z];
}
