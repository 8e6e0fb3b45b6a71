using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Tests;

/// <summary>Small scenes for tests: one surface at the body origin, in a beam whose power over c is one newton.</summary>
internal static class Scenes
{
    public const double C = Illumination.LightSpeed;

    public static double Degrees(double angle) => angle * Math.PI / 180;

    public static SailCraft SingleSail(
        SurfaceOfRevolution shape,
        Vec3 centerOfMass = default,
        OpticalCoefficients? optics = null
    ) =>
        new(
            [new("sail", shape, optics ?? OpticalCoefficients.Mirror, Vec3.Zero, Mat3.Identity)],
            new(1e-3, centerOfMass, Mat3.Diagonal(1e-3, 1e-3, 1.5e-3))
        );

    public static Beam UnitBeam(IBeamProfile profile, double powerOverC = 1) => new(powerOverC * C, 1.064e-6, profile);

    /// <summary>A Gaussian so wide that it is uniform over a metre to 1e-12, of irradiance over c of one newton per square metre.</summary>
    public static Beam UniformBeam()
    {
        const double Waist = 3e6;
        return new(C * Math.PI * Waist * Waist / 2, 1.064e-6, new GaussianProfile(Waist));
    }

    public static SurfaceQuadrature Quadrature(
        SurfaceOfRevolution shape,
        Beam beam,
        Vec3 centerOfMass = default,
        OpticalCoefficients? optics = null,
        double accuracy = 1e-10
    ) => new(SingleSail(shape, centerOfMass, optics), beam, accuracy);
}
