using System.Globalization;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Xunit;

namespace Lightkeel.Physics.Tests.Pressure;

/// <summary>
/// Force, torque and power against values of an independent program (NumPy, SciPy, mpmath; none of our code):
/// benchmarks/peers/oracles/oracle_values.py, whose own two routes agree to 7e-13.
/// </summary>
public sealed class OracleTests
{
    private static readonly string[][] Table =
    [
        .. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "Pressure", "oracle_values.csv"))
            .Where(line => line.Length > 0 && line[0] != '#')
            .Select(line => line.Split(',')),
    ];

    public static TheoryData<string> Cases => [.. Table.Skip(1).Select(row => row[0])];

    [Theory, MemberData(nameof(Cases))]
    public void Quadrature_OnAnOracleCase_AgreesToTenDigits(string id)
    {
        string[] row = Table.First(r => r[0] == id);
        string Text(string column) => row[Array.IndexOf(Table[0], column)];
        double Number(string column) => double.Parse(Text(column), CultureInfo.InvariantCulture);
        LaserSide side = Text("toward_laser") == "mouth" ? LaserSide.Mouth : LaserSide.Vertex;
        SurfaceOfRevolution shape = Text("shape") switch
        {
            "cone" => new Cone(Number("radius_m"), Number("half_angle_rad"), side),
            "cap" => new SphericalCap(Number("radius_m"), Number("half_angle_rad"), side),
            "paraboloid" => new Paraboloid(Number("focal_length_m"), Number("radius_m"), side),
            "sphere" => new Sphere(Number("radius_m")),
            _ => new Disc(Number("radius_m"), Number("inner_radius_m")),
        };
        IBeamProfile profile = Text("profile") switch
        {
            "gaussian" => new GaussianProfile(Number("waist_m")),
            "super-gaussian" => new SuperGaussianProfile(Number("waist_m"), Number("order")),
            "ring" => new RingProfile(Number("ring_radius_m"), Number("ring_width_m")),
            _ => new LaguerreGaussProfile(Number("waist_m"), (int)Number("lg_p"), (int)Number("lg_l")),
        };
        OpticalCoefficients optics = new(
            Number("specular"),
            Number("diffuse"),
            Number("absorbed"),
            Number("emissivity_lit"),
            Number("emissivity_back")
        );
        Vec3 center = new(Number("cm_x_m"), Number("cm_y_m"), Number("cm_z_m"));
        SurfaceQuadrature engine = new(
            Scenes.SingleSail(shape, center, optics),
            new(Number("power_W"), 1.064e-6, profile),
            1e-10
        );
        CraftPose pose = CraftPose.From(Number("x_m"), Number("y_m"), Number("tilt_x_rad"), Number("tilt_y_rad"));
        PressureReading r;
        try
        {
            r = engine.Evaluate(pose);
        }
        catch (PressureUnavailableException)
        {
            // The oracle follows no scattered light inside open shells; the engine refuses such films.
            Assert.Equal("local", Text("regime"));
            return;
        }
        Vec3 force = new(Number("force_x_N"), Number("force_y_N"), Number("force_z_N"));
        Vec3 torque = new(Number("torque_x_Nm"), Number("torque_y_Nm"), Number("torque_z_Nm"));
        double reach = center.Length + 2 * shape.MaximumRadiusMetres;
        Assert.Equal(0, (r.ForceNewtons - force).Length / force.Length, 1e-10);
        Assert.Equal(0, (r.TorqueNewtonMetres - torque).Length / (force.Length * reach), 1e-10);
        Assert.Equal(Number("intercepted_W"), r.InterceptedWatts, 1e-9 * r.InterceptedWatts);
    }
}
