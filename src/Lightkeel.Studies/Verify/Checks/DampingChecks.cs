using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using static Lightkeel.Studies.Verify.Checks.Scenes;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Damping by motion in uniform light against integrals by hand, in units of I/c² and metres.</summary>
internal static class DampingChecks
{
    private const string Source =
        "integrals of the force's first order in v/c over the surface, docs/theory/motion.md; Annalen der Physik 322, 891 (1905)";

    private static readonly string[] ConeParts = ["dF_x/dv_x", "dF_y/dw_x", "dT_x/dw_x"];

    public static CheckModule Module() =>
        new(
            "motion-damping",
            "Damping by motion",
            [
                new("DMP-01", "Flat mirror disc", "R = 0.7 m: -4 pi R^2 along the light, -pi R^4 in tilt")
                {
                    Source = Source,
                    Origin = Origins.ClosedForm,
                    Parts = ["dF_z/dv_z", "dT_x/dw_x"],
                    Expected = [-6.15752160103599475, -0.754296396126909357],
                    Tolerance = 1e-11,
                    Compute = () =>
                    {
                        RateDamping d = At(SingleSail(new Disc(0.7)));
                        return [LightSpeed * d.ForceByVelocity.Row2.Z, LightSpeed * d.TorqueByRate.Row0.X];
                    },
                },
                new("DMP-02", "Black disc", "R = 0.7 m: -pi R^2 across the light, -pi R^4/2 in spin")
                {
                    Source = Source,
                    Origin = Origins.ClosedForm,
                    Parts = ["dF_x/dv_x", "dT_z/dw_z"],
                    Expected = [-1.53938040025899869, -0.377148198063454678],
                    Tolerance = 1e-11,
                    Compute = () =>
                    {
                        RateDamping d = At(SingleSail(new Disc(0.7), optics: new(0, 0, 1)));
                        return [LightSpeed * d.ForceByVelocity.Row0.X, LightSpeed * d.TorqueByRate.Row2.Z];
                    },
                },
                new("DMP-03", "Mirror ball", "R = 0.9 m: -pi R^2, the thrust over c")
                {
                    Source = Source,
                    Origin = Origins.ClosedForm,
                    Expected = [-2.54469004940773252],
                    Tolerance = 1e-10,
                    Compute = () => [LightSpeed * At(SingleSail(new Sphere(0.9))).ForceByVelocity.Row0.X],
                },
                Cone("DMP-04", 50, 0, -1.66147892116615018, 1.79958390574861511, -2.19281446586211849),
                Cone("DMP-05", 65, 0.4, -0.718218125555211438, 0.712784404636943371, -0.881458569930695188),
                Cone("DMP-06", 80, -0.3, -0.121255180477596172, 0.41453807971444148, -1.56461428051050259),
                new("DMP-07", "Roof of two round mirrors, edge to the laser", "radius 0.5 m at 0.8 m, 25 deg")
                {
                    Source = Source,
                    Origin = Origins.ClosedForm,
                    Parts = ["dF_x/dv_x", "dT_y/dw_y", "dT_x/dw_x", "dF_x/dw_y"],
                    Expected =
                    [
                        -1.01707293747117889,
                        -3.34945940935046064,
                        -0.292339177113746615,
                        -1.74489596245594298,
                    ],
                    Tolerance = 1e-10,
                    Compute = Roof,
                },
            ]
        );

    private static OutsideCheck Cone(string id, double angle, double centre, double drag, double cross, double turn) =>
        new(
            id,
            "Mirror cone, vertex first",
            FormattableString.Invariant($"R = 0.8 m, {angle} deg, centre of mass {centre} m over the vertex")
        )
        {
            Source = Source,
            Origin = Origins.ClosedForm,
            Parts = ConeParts,
            Expected = [drag, cross, turn],
            Tolerance = 1e-10,
            Compute = () =>
            {
                RateDamping d = At(SingleSail(new Cone(0.8, Degrees(angle), LaserSide.Vertex), new(0, 0, centre)));
                return
                [
                    LightSpeed * d.ForceByVelocity.Row0.X,
                    LightSpeed * d.ForceByRate.Row1.X,
                    LightSpeed * d.TorqueByRate.Row0.X,
                ];
            },
        };

    private static double[] Roof()
    {
        double alpha = Degrees(25);
        PlacedSurface Plate(string name, double x, double turn) =>
            new(name, new Disc(0.5), OpticalCoefficients.Mirror, new(x, 0, 0), Mat3.Rotation(Vec3.UnitY, turn));
        SailCraft roof = new(
            [Plate("right", 0.8, -alpha), Plate("left", -0.8, alpha)],
            new(1e-3, Vec3.Zero, Mat3.Diagonal(1e-3, 1e-3, 1e-3))
        );
        RateDamping d = At(roof);
        return
        [
            LightSpeed * d.ForceByVelocity.Row0.X,
            LightSpeed * d.TorqueByRate.Row1.Y,
            LightSpeed * d.TorqueByRate.Row0.X,
            LightSpeed * d.ForceByRate.Row0.Y,
        ];
    }

    private static RateDamping At(SailCraft craft) => RateDamping.At(craft, UniformBeam(), CraftPose.OnAxis, 1e-8);
}
