using Lightkeel.Physics.Motion.Wells;
using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Models;
using Lightkeel.Studies.Well;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Potential wells of balls, from the design file, against quadrature elsewhere.</summary>
internal static class WellChecks
{
    private const string Ball = """
        title = "ball"
        [beam]
        power = "300 MW"
        wavelength = "1.064 um"
        profile = "ring"
        radius = "1.05 m"
        width = "0.45 m"
        [[sail]]
        name = "canopy"
        shape = "sphere"
        radius = "1.2 m"
        surface = "foil"
        areal_density = "0 g/m^2"
        [surface.foil]
        kind = "mirror"
        [craft]
        mass = "2.4 g"
        center_of_mass = ["0 m", "0 m", "0 m"]
        inertia = ["1.4e-3 kg m^2", "1.4e-3 kg m^2", "1.4e-3 kg m^2"]
        """;

    private const string Inputs = "mirror ball of 1.2 m and 2.4 g in a ring of 1.05 m and 0.45 m, 300 MW";

    public static CheckModule Module()
    {
        Lazy<WellResult> ring = new(() => Measured(Ball));
        Lazy<WellResult> cross = new(() => Measured(Cross()));
        return new("wells", "Potential wells", [.. Ring(ring), .. Rays(), .. OnCross(cross)]);
    }

    private static IEnumerable<OutsideCheck> Ring(Lazy<WellResult> well) =>
        [
            OfRing("WEL-01", "Rim of a well", "m", 1e-9, 0.8387039041102644, () => well.Value.RimRadiusMetres),
            OfRing("WEL-02", "Depth of a well", "J", 1e-9, 0.06218270464905827, () => well.Value.DepthJoules),
            OfRing(
                "WEL-03",
                "Escape speed of a well",
                "m/s",
                1e-9,
                7.19853599983232,
                () => well.Value.EscapeSpeedMetresPerSecond
            ),
            OfRing(
                "WEL-04",
                "Frequency at the bottom of a well",
                "Hz",
                1e-9,
                2.3425025091345293,
                () => well.Value.FrequencyHertz
            ),
            OfRing(
                "WEL-05",
                "Potential far from the beam over that of the bottom",
                "J",
                1e-8,
                -0.10977740321405048,
                () => well.Value.FarPotentialJoules
            ),
        ];

    private static OutsideCheck OfRing(
        string id,
        string quantity,
        string unit,
        double tolerance,
        double expected,
        Func<double?> computed
    ) =>
        new(id, quantity, Inputs)
        {
            Source = Sources.BallKernel,
            Origin = Origins.Quadpack,
            Expected = [expected],
            Unit = unit,
            Tolerance = tolerance,
            Compute = () => [computed() ?? throw new ArithmeticException("The study found none.")],
        };

    private static IEnumerable<OutsideCheck> Rays() =>
        [
            new(
                "WEL-06",
                "Potential of a ball of film on the same ring",
                "specular 0.9, diffuse 0.06, absorbed 0.04, emissivities 0.05 and 0.2"
            )
            {
                Source =
                    "potential of a ball with the kernel (2/3) Rs q^3 + (1/3)(Rd + A e) q^2, docs/theory/map-and-well.md",
                Origin = Origins.Quadpack,
                Parts = ["at 0", "at 0.3 m", "at 0.7 m", "at 1.4 m"],
                Expected = [0.10187586682316879, 0.12009753407080508, 0.1553445960975864, 0.11209659232273383],
                Unit = "J",
                Tolerance = 1e-10,
                Compute = () =>
                {
                    string film = Ball.Replace(
                        "kind = \"mirror\"",
                        "kind = \"coefficients\"\nspecular = 0.9\ndiffuse = 0.06\nabsorbed = 0.04\nemissivity_lit = 0.05\nemissivity_back = 0.2",
                        StringComparison.Ordinal
                    );
                    WellRay ray = RayOf(film);
                    return [.. ((double[])[0, 0.3, 0.7, 1.4]).Select(r => ray.Work(r) - ray.Work(ray.LengthMetres))];
                },
            },
            new("WEL-08", "Frequency of swings of finite amplitude", Inputs)
            {
                Source = Sources.BallKernel + ", period of a swing",
                Origin = Origins.Quadpack,
                Parts = ["0.2 m", "0.5 m", "0.75 m"],
                Expected = [2.2198219850659373, 1.6738173401861092, 0.9897642890769142],
                Unit = "Hz",
                Tolerance = 1e-9,
                Compute = () =>
                {
                    WellRay ray = RayOf(Ball);
                    return
                    [
                        .. ((double[])[0.2, 0.5, 0.75]).Select(a =>
                            0.25 / (SwingPeriod.Quarter(r => -ray.Force(r), a, 2.4e-3) ?? double.NaN)
                        ),
                    ];
                },
            },
        ];

    private static IEnumerable<OutsideCheck> OnCross(Lazy<WellResult> well) =>
        [
            new(
                "WEL-07",
                "Lowest pass of a ball among four Gaussians on a cross lies on the diagonal",
                "ball of 0.6 m, waists of 1 m at 1.2 m, 1 MW"
            )
            {
                Source = Sources.BallKernel,
                Origin = ExpectedOrigin.Computed("NumPy 1.24.2, 120 by 512 nodes, and SciPy 1.10.1 root search"),
                Parts = ["rim, m", "depth, J", "angle off the axes, rad"],
                Expected = [0.833421106784313, 1.9500395909166937e-05, 0.7853981633974483],
                Tolerance = 1e-6,
                Compute = () =>
                {
                    WellResult r = well.Value;
                    double beyond = Math.Abs(Math.IEEERemainder(r.AngleRadians, Math.PI / 2));
                    return [r.RimRadiusMetres ?? double.NaN, r.DepthJoules ?? double.NaN, beyond];
                },
            },
        ];

    private static WellResult Measured(string text) =>
        new WellStudy().Run(
            new(OpenedDesign.From(DesignDocument.Parse(text)), Points: 25),
            new StudyContext { Threads = 1, Accuracy = 1e-10 }
        );

    private static WellRay RayOf(string text)
    {
        const double FarMetres = 4.5;
        DesignModel model = OpenedDesign.From(DesignDocument.Parse(text)).Model;
        IPressureEngine engine = EngineChoice.Build("auto", model, 1e-11);
        return WellRay.Follow(engine, CraftPose.OnAxis, 0, FarMetres);
    }

    private static string Cross()
    {
        string beam = """
            power = "1 MW"
            wavelength = "1.064 um"
            profile = "sum"
            """;
        foreach (string offset in (string[])["1.2 m, 0 m", "-1.2 m, 0 m", "0 m, 1.2 m", "0 m, -1.2 m"])
        {
            string[] parts = offset.Split(", ");
            beam +=
                $"\n[[beam.part]]\nprofile = \"gaussian\"\nwaist = \"1 m\"\nshare = 0.25\noffset = [\"{parts[0]}\", \"{parts[1]}\"]\n";
        }
        int start = Ball.IndexOf("power =", StringComparison.Ordinal);
        int end = Ball.IndexOf("[[sail]]", StringComparison.Ordinal);
        return (Ball[..start] + beam + Ball[end..]).Replace(
            "radius = \"1.2 m\"",
            "radius = \"60 cm\"",
            StringComparison.Ordinal
        );
    }
}
