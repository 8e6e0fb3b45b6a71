using System.Globalization;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>A row of benchmarks/peers/oracles/oracle_values.csv: a craft in a beam, its pose, and what an independent program found.</summary>
internal sealed class PeerRow(string[] header, string[] cells)
{
    private const string Resource = "peers/oracle_values.csv";

    public string Id => Text("id");

    /// <summary>False where light that an open shell would catch again is not followed.</summary>
    public bool IsExact => Text("regime") == "exact";

    public Vec3 Force => Vector("force_", "_N");

    public Vec3 Torque => Vector("torque_", "_Nm");

    /// <summary>Length by which torques are measured, m.</summary>
    public double ReachMetres => Vector("cm_", "_m").Length + 2 * Shape().MaximumRadiusMetres;

    public CraftPose Pose => CraftPose.From(Number("x_m"), Number("y_m"), Number("tilt_x_rad"), Number("tilt_y_rad"));

    public Beam Beam => new(Number("power_W"), 1.064e-6, Profile());

    public SailCraft Craft =>
        Scenes.SingleSail(
            Shape(),
            Vector("cm_", "_m"),
            new OpticalCoefficients(
                Number("specular"),
                Number("diffuse"),
                Number("absorbed"),
                Number("emissivity_lit"),
                Number("emissivity_back")
            )
        );

    public static IReadOnlyList<PeerRow> All()
    {
        using Stream stream =
            typeof(PeerRow).Assembly.GetManifestResourceStream(Resource)
            ?? throw new InvalidOperationException($"The resource {Resource} is not in the assembly.");
        using StreamReader reader = new(stream);
        List<PeerRow> rows = [];
        string[]? names = null;
        while (reader.ReadLine() is { } line)
        {
            if (line.Length == 0 || line[0] == '#')
            {
                continue;
            }
            string[] parts = line.Split(',');
            if (names is null)
            {
                names = parts;
            }
            else
            {
                rows.Add(new(names, parts));
            }
        }
        return rows;
    }

    public double Number(string column) => double.Parse(Text(column), CultureInfo.InvariantCulture);

    public SurfaceQuadrature Quadrature() => new(Craft, Beam, 1e-11);

    private string Text(string column) => cells[Array.IndexOf(header, column)];

    private Vec3 Vector(string before, string after) =>
        new(Number(before + "x" + after), Number(before + "y" + after), Number(before + "z" + after));

    private SurfaceOfRevolution Shape()
    {
        LaserSide side = Text("toward_laser") == "mouth" ? LaserSide.Mouth : LaserSide.Vertex;
        double radius = Number("radius_m");
        return Text("shape") switch
        {
            "cone" => new Cone(radius, Number("half_angle_rad"), side),
            "cap" => new SphericalCap(radius, Number("half_angle_rad"), side),
            "paraboloid" => new Paraboloid(Number("focal_length_m"), radius, side),
            "sphere" => new Sphere(radius),
            _ => new Disc(radius, Number("inner_radius_m")),
        };
    }

    private IBeamProfile Profile() =>
        Text("profile") switch
        {
            "gaussian" => new GaussianProfile(Number("waist_m")),
            "super-gaussian" => new SuperGaussianProfile(Number("waist_m"), Number("order")),
            "ring" => new RingProfile(Number("ring_radius_m"), Number("ring_width_m")),
            _ => new LaguerreGaussProfile(Number("waist_m"), (int)Number("lg_p"), (int)Number("lg_l")),
        };
}
