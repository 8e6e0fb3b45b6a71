using Lightkeel.Numerics.Integration;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Shapes;
using Flight = Lightkeel.Physics.Motion.Ride;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Moments of inertia, moments of surfaces, and free rotation.</summary>
internal static class RigidBodyChecks
{
    private static readonly string[] Moments = ["area", "first axial", "second axial", "second radial"];
    private static readonly string[] Axes = ["x", "y", "z"];

    public static CheckModule Module() =>
        new("rigid-body", "Mass, surfaces and rigid body", [.. Shells(), .. Solids(), .. Rotations(), .. Surfaces()]);

    private static IEnumerable<OutsideCheck> Shells() =>
        [
            new("RIG-01", "Thin conical shell per mass", "R = 1 m, h = 2 m")
            {
                Source = Sources.InertiaTables,
                Origin = Origins.ClosedForm,
                Parts = ["axial, m^2", "transverse about the apex, m^2", "centroid, m"],
                Expected = [0.5, 2.25, 4.0 / 3],
                Tolerance = 1e-13,
                Compute = () =>
                {
                    PartMoments m = Shell(new Cone(1, Math.Atan2(1, 2), LaserSide.Vertex));
                    double z = m.CentroidMetres.Z;
                    return [Axial(m), Transverse(m) + z * z, z];
                },
            },
            new("RIG-02", "Thin hemispherical shell per mass and radius", "mouth first, R = 1 m")
            {
                Source = Sources.InertiaTables,
                Origin = Origins.ClosedForm,
                Parts = ["centroid from the pole", "transverse about the centroid", "axial"],
                Expected = [-0.5, 5.0 / 12, 2.0 / 3],
                Tolerance = 1e-13,
                Compute = () =>
                {
                    PartMoments m = Shell(new SphericalCap(1, Math.PI / 2, LaserSide.Mouth));
                    return [m.CentroidMetres.Z, Transverse(m), Axial(m)];
                },
            },
            new("RIG-03", "Axial over transverse inertia of a thin disc: nutation over spin")
            {
                Source = Sources.ClassicalMechanics + ", section 5.6",
                Origin = Origins.ClosedForm,
                Expected = [2],
                Tolerance = 1e-13,
                Compute = () =>
                {
                    PartMoments m = Shell(new Disc(0.8));
                    return [Axial(m) / Transverse(m)];
                },
            },
        ];

    private static IEnumerable<OutsideCheck> Solids() =>
        [
            new("RIG-04", "Spheres per mass and squared radius")
            {
                Source = Sources.InertiaTables,
                Origin = Origins.ClosedForm,
                Parts = ["solid", "thin", "hollow to half"],
                Expected = [0.4, 2.0 / 3, 0.442857142857142857],
                Tolerance = 1e-14,
                Compute = () =>
                    [
                        Transverse(new SphereMass("s", 1, 1).BodyMoments),
                        Transverse(new SphereMass("s", 1, 1, 1).BodyMoments),
                        Transverse(new SphereMass("s", 1, 1, 0.5).BodyMoments),
                    ],
            },
            new("RIG-05", "Rod along z", "4 kg, 3 m")
            {
                Source = Sources.InertiaTables,
                Origin = Origins.ClosedForm,
                Parts = Axes,
                Expected = [3, 3, 0],
                Unit = "kg m^2",
                Size = 3,
                Tolerance = 1e-14,
                Compute = () => Diagonal(new RodMass("r", 4, 3, Vec3.UnitZ)),
            },
            new("RIG-06", "Ring about z", "2 kg, 2 m")
            {
                Source = Sources.InertiaTables,
                Origin = Origins.ClosedForm,
                Parts = Axes,
                Expected = [4, 4, 8],
                Unit = "kg m^2",
                Tolerance = 1e-14,
                Compute = () => Diagonal(new RingMass("o", 2, 2, Vec3.UnitZ)),
            },
            new("RIG-07", "Box", "12 kg, 1 m by 2 m by 3 m")
            {
                Source = Sources.InertiaTables,
                Origin = Origins.ClosedForm,
                Parts = Axes,
                Expected = [13, 10, 5],
                Unit = "kg m^2",
                Tolerance = 1e-14,
                Compute = () => Diagonal(new BoxMass("b", 12, new(1, 2, 3))),
            },
            new("RIG-10", "Two points and a ring together", "1 kg at 3 m, 2 kg at 0, ring of 3 kg and 2 m at 0")
            {
                Source = Sources.InertiaTables + ", parallel axes",
                Origin = Origins.ClosedForm,
                Parts = ["mass, kg", "centre, m", "axial, kg m^2", "transverse, kg m^2"],
                Expected = [6, 0.5, 12, 13.5],
                Tolerance = 1e-14,
                Compute = () =>
                {
                    MassProperties sum = MassAssembly.Sum([
                        new PointMass("p", 1, new(new(0, 0, 3))),
                        new PointMass("q", 2),
                        new RingMass("o", 3, 2, Vec3.UnitZ),
                    ]);
                    Mat3 inertia = sum.InertiaKilogramSquareMetres;
                    return [sum.MassKilograms, sum.CenterOfMassMetres.Z, inertia.Row2.Z, inertia.Row0.X];
                },
            },
        ];

    private static IEnumerable<OutsideCheck> Rotations() =>
        [
            new("RIG-08", "Quarter turn about z, then about x, as a quaternion")
            {
                Source = Sources.ClassicalMechanics + ", section 4.5: Hamilton's product",
                Origin = Origins.ClosedForm,
                Parts = ["w", "x", "y", "z"],
                Expected = [0.5, 0.5, -0.5, 0.5],
                Tolerance = 1e-15,
                Compute = () =>
                {
                    UnitQuaternion q =
                        UnitQuaternion.FromRotationVector(new(Math.PI / 2, 0, 0))
                        * UnitQuaternion.FromRotationVector(new(0, 0, Math.PI / 2));
                    return [q.W, q.X, q.Y, q.Z];
                },
            },
            new("RIG-09", "Image of x under a third of a turn about the diagonal")
            {
                Source = "Rodrigues' formula",
                Origin = Origins.ClosedForm,
                Parts = Axes,
                Expected = [0, 1, 0],
                Size = 1,
                Tolerance = 1e-15,
                Compute = () =>
                {
                    double part = 2 * Math.PI / 3 / Math.Sqrt(3);
                    return Scenes.Components(
                        UnitQuaternion.FromRotationVector(new(part, part, part)).Rotate(Vec3.UnitX)
                    );
                },
            },
            new(
                "RIG-11",
                "Flip of a free craft about its middle axis, adaptive steps",
                "inertias 1, 2, 3, half a period of 39.1057341972687 s"
            )
            {
                Source = Sources.Mechanics + ", section 37",
                Origin = Origins.ClosedForm,
                Parts = ["w_x", "w_y", "w_z"],
                Expected = [-0.01, -1, 0.01],
                Size = 1,
                Tolerance = 1e-11,
                Compute = () => Flipped(new() { Tolerance = 1e-12 }),
            },
            new(
                "RIG-13",
                "Flip of a free craft about its middle axis, structure-preserving steps",
                "inertias 1, 2, 3, steps of 0.05 s, order 6"
            )
            {
                Source = Sources.Mechanics + ", section 37",
                Origin = Origins.ClosedForm,
                Parts = ["w_x", "w_y", "w_z"],
                Expected = [-0.01, -1, 0.01],
                Size = 1,
                Tolerance = 1e-11,
                Compute = () => Flipped(new() { FixedStepSeconds = 0.05, Composition = CompositionScheme.Order6 }),
            },
            new(
                "RIG-12",
                "Tilt of a spun disc half a nutation after it was disturbed",
                "spin 3 rad/s, rate 0.01 rad/s: 2 asin(rate I1/L)"
            )
            {
                Source = Sources.ClassicalMechanics + ", section 5.6",
                Origin = Origins.ClosedForm,
                Expected = [0.00333333024691872427],
                Unit = "rad",
                Tolerance = 1e-10,
                Compute = () =>
                    [
                        Flight
                            .Fly(
                                ForceLaw.None.Setup(1, Mat3.Diagonal(1, 1, 2)),
                                new() { SpinRadiansPerSecond = 3, TiltRateXRadiansPerSecond = 0.01 },
                                new() { DurationSeconds = Math.PI / Math.Sqrt(1e-4 + 36) },
                                new() { Tolerance = 1e-13 }
                            )
                            .Final.State.TiltRadians,
                    ],
            },
        ];

    private static IEnumerable<OutsideCheck> Surfaces() =>
        [
            Surface(
                "MAS-01",
                "Deep paraboloid, mouth first",
                "f = 0.7 m, R = 2 m",
                () => new Paraboloid(0.7, 2, LaserSide.Mouth),
                17.662055282187856,
                -13.712112820597559,
                13.553408238710118,
                38.393915897673167
            ),
            Surface(
                "MAS-02",
                "Shallow paraboloid, vertex first",
                "f = 50 m, R = 0.3 m",
                () => new Paraboloid(50, 0.3, LaserSide.Vertex),
                0.28274397499463949,
                6.3617442086624957e-5,
                1.9085239782908928e-8,
                0.012723488417324991
            ),
            Surface(
                "MAS-03",
                "Frustum, vertex first",
                "35 deg, 0.4 m to 1.5 m",
                () => new Cone(1.5, Scenes.Degrees(35), LaserSide.Vertex, 0.4),
                11.447347258150126,
                10.726914574184658,
                12.143053057124051,
                13.794053446070902
            ),
            Surface(
                "MAS-04",
                "Frustum, mouth first",
                "35 deg, 0.4 m to 1.5 m",
                () => new Cone(1.5, Scenes.Degrees(35), LaserSide.Mouth, 0.4),
                11.447347258150126,
                7.2564422119484453,
                6.6910700518846809,
                13.794053446070902
            ),
            Surface(
                "MAS-05",
                "Cone, mouth first",
                "35 deg, 1.5 m",
                () => new Cone(1.5, Scenes.Degrees(35), LaserSide.Mouth),
                12.323699201357791,
                -17.600066450108518,
                28.277437296657648,
                13.864161601527515
            ),
            Surface(
                "MAS-06",
                "Cap deeper than a hemisphere, mouth first",
                "1.3 m, 110 deg",
                () => new SphericalCap(1.3, Scenes.Degrees(110), LaserSide.Mouth),
                14.250352506556075,
                -12.430769073638296,
                14.458030161338709,
                17.861969430120861
            ),
            Surface(
                "MAS-07",
                "Tabulated profile through the monotone cubic",
                "5 points, see the script",
                () => new Profile([0.2, 0.5, 1.0, 1.3, 2.0], [0.1, 0.4, 0.35, 0.9, 1.0]),
                15.27554306724633,
                11.216123552371582,
                9.329414106638906,
                28.687612962914606
            ),
        ];

    private static OutsideCheck Surface(
        string id,
        string what,
        string inputs,
        Func<SurfaceOfRevolution> shape,
        double area,
        double first,
        double second,
        double radial
    ) =>
        new(id, "Moments of a surface: " + what, inputs + "; m^2, m^3, m^4, m^4")
        {
            Source = "surface integrals; the profile as PchipInterpolator of SciPy",
            Origin = Origins.Mpmath,
            Parts = Moments,
            Expected = [area, first, second, radial],
            Tolerance = 1e-12,
            Compute = () =>
            {
                SurfaceMoments m = shape().Moments();
                return
                [
                    m.AreaSquareMetres,
                    m.AxialFirstMetresCubed,
                    m.AxialSecondMetresFourth,
                    m.RadialSecondMetresFourth,
                ];
            },
        };

    private static double[] Flipped(RideMethod method) =>
        Scenes.Components(
            Flight
                .Fly(
                    ForceLaw.None.Setup(1, Mat3.Diagonal(1, 2, 3)),
                    new()
                    {
                        TiltRateXRadiansPerSecond = 0.01,
                        TiltRateYRadiansPerSecond = 1,
                        SpinRadiansPerSecond = 0.01,
                    },
                    new() { DurationSeconds = 39.1057341972687209 / 2 },
                    method
                )
                .Final.BodyRate
        );

    private static PartMoments Shell(SurfaceOfRevolution shape) => new ThinShell("shell", shape, 0.3).BodyMoments;

    private static double Axial(PartMoments m) => m.InertiaKilogramSquareMetres.Row2.Z / m.MassKilograms;

    private static double Transverse(PartMoments m) => m.InertiaKilogramSquareMetres.Row0.X / m.MassKilograms;

    private static double[] Diagonal(MassPart part)
    {
        Mat3 m = part.BodyMoments.InertiaKilogramSquareMetres;
        return [m.Row0.X, m.Row1.Y, m.Row2.Z];
    }
}
