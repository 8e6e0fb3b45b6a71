using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Check;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Map;
using Lightkeel.Studies.Models;
using Lightkeel.Studies.Probe;
using Lightkeel.Studies.Ride;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Whole studies, from the design file to the numbers that a user reads.</summary>
internal static class StudyChecks
{
    private const string Ball = """
        title = "ball"
        [beam]
        power = "1 MW"
        wavelength = "1 um"
        profile = "gaussian"
        waist = "1 m"
        [[sail]]
        name = "canopy"
        shape = "sphere"
        radius = "1 m"
        surface = "foil"
        areal_density = "2 g/m^2"
        [surface.foil]
        kind = "mirror"
        """;

    private const string Cone = """
        title = "cone"
        [beam]
        power = "1 MW"
        wavelength = "1 um"
        profile = "gaussian"
        waist = "1 m"
        [[sail]]
        name = "canopy"
        shape = "cone"
        radius = "1.5 m"
        half_angle = "65 deg"
        toward_laser = "mouth"
        surface = "foil"
        areal_density = "1 g/m^2"
        [surface.foil]
        kind = "mirror"
        """;

    private const string Measured = """

        [craft]
        mass = "1 g"
        center_of_mass = ["0 m", "0 m", "-2 m"]
        inertia = ["1e-3 kg m^2", "1e-3 kg m^2", "5e-4 kg m^2"]
        """;

    // So heavy to turn that its own instability has no time to show.
    private const string Plate = """
        title = "plate"
        [beam]
        power = "100 GW"
        wavelength = "1 um"
        profile = "gaussian"
        waist = "0.5 m"
        [[sail]]
        name = "plate"
        shape = "disc"
        radius = "5 m"
        surface = "foil"
        areal_density = "0 g/m^2"
        [surface.foil]
        kind = "mirror"
        [craft]
        mass = "1 g"
        center_of_mass = ["0 m", "0 m", "0 m"]
        inertia = ["1e17 kg m^2", "1e17 kg m^2", "1e17 kg m^2"]
        [ride]
        duration = "200 s"
        target_beta = 0.2
        """;

    private const string DropOut = """

        [[dropout]]
        at = "3 s"
        length = "2 s"
        return = "1 s"
        """;

    public static CheckModule Module() =>
        new("studies", "Whole studies", [.. Checked(), .. Probed(), .. Flown(), .. Mapped()]);

    private static IEnumerable<OutsideCheck> Checked() =>
        [
            OfBall(
                "STU-01",
                "0.5 m",
                [
                    0.00628318530717958648,
                    0.00104719755119659775,
                    0.00142139212471627186,
                    0.226221582720486446,
                    0.393469340287366576,
                    0.000673040040064614786,
                    0.327288327434772295,
                ]
            ),
            OfBall(
                "STU-02",
                "1 m",
                [
                    0.0251327412287183459,
                    0.0167551608191455639,
                    0.00378707086499358397,
                    0.150682762000757175,
                    0.864664716763387308,
                    0.00253522634989392815,
                    0.317605811282807634,
                ]
            ),
            OfBall(
                "STU-03",
                "2 m",
                [
                    0.100530964914873384,
                    0.268082573106329023,
                    0.00583765141168753361,
                    0.0580681923885907426,
                    0.999664537372097488,
                    0.00286134215372145917,
                    0.168707725749663742,
                ]
            ),
            new(
                "STU-04",
                "check: shell of a mirror cone, mouth first, in a Gaussian",
                "65 deg, 1.5 m, 1 g/m^2, 1 MW, w = 1 m"
            )
            {
                Source = Sources.InertiaTables + "; " + Sources.ElementForce,
                Origin = Origins.ClosedForm,
                Parts =
                [
                    "mass, kg",
                    "centre of mass, m",
                    "axial inertia, kg m^2",
                    "transverse inertia, kg m^2",
                    "thrust, N",
                ],
                Expected =
                [
                    0.00779931891977795622,
                    -0.466307658154998593,
                    0.00877423378475020075,
                    0.00459910514162620728,
                    0.00541887510664949486,
                ],
                Tolerance = 1e-10,
                Compute = () =>
                {
                    CheckResult r = Check(Cone);
                    return
                    [
                        r.MassKilograms,
                        r.CenterOfMassMetres[2],
                        r.InertiaKilogramSquareMetres[2][2],
                        r.InertiaKilogramSquareMetres[0][0],
                        r.ThrustNewtons,
                    ];
                },
            },
        ];

    private static OutsideCheck OfBall(string id, string radius, double[] expected) =>
        new(id, "check: mirror ball centred in a Gaussian", $"R = {radius}, 2 g/m^2, 1 MW, w = 1 m")
        {
            Source = Sources.BallKernel + "; " + Sources.InertiaTables,
            Origin = Origins.ClosedForm,
            Parts =
            [
                "mass, kg",
                "inertia, kg m^2",
                "thrust, N",
                "acceleration, m/s^2",
                "share met",
                "dF_x/dx, N/m",
                "growth, 1/s",
            ],
            Expected = expected,
            Tolerance = 1e-10,
            Compute = () =>
            {
                CheckResult r = Check(Ball, ("sail.canopy.radius", radius));
                return
                [
                    r.MassKilograms,
                    r.InertiaKilogramSquareMetres[0][0],
                    r.ThrustNewtons,
                    r.AccelerationMetresPerSecondSquared,
                    r.InterceptedFraction,
                    r.Jacobian[0][0],
                    r.GrowthPerSecond,
                ];
            },
        };

    private static IEnumerable<OutsideCheck> Probed()
    {
        const string Toml = """
            title = "probed cone"
            [beam]
            power = "300 MW"
            wavelength = "1.064 um"
            profile = "gaussian"
            waist = "1.5 m"
            [[sail]]
            name = "canopy"
            shape = "cone"
            radius = "1.5 m"
            half_angle = "45 deg"
            toward_laser = "vertex"
            surface = "foil"
            areal_density = "0 g/m^2"
            [surface.foil]
            kind = "mirror"
            [craft]
            mass = "1 g"
            center_of_mass = ["0 m", "0 m", "0.9 m"]
            inertia = ["1e-3 kg m^2", "1e-3 kg m^2", "1.5e-3 kg m^2"]
            """;
        string[] ids = ["cone-v45-gauss-offset", "cone-v45-gauss-tilted", "cone-v45-gauss-far"];
        PeerRow[] rows = [.. ids.Select(id => PeerRow.All().First(row => row.Id == id))];
        return
        [
            new("STU-05", "probe: force on a mirror cone at three states", string.Join(", ", ids))
            {
                Source = "element force integrated over the surface by an independent program",
                Origin = PeerChecks.Program,
                Parts = [.. ids.SelectMany(id => (string[])[id + " x", id + " y", id + " z"])],
                Expected = [.. rows.SelectMany(row => Scenes.Components(row.Force))],
                Unit = "N",
                Size = 1,
                Tolerance = 1e-10,
                Compute = () =>
                {
                    ProbeState[] states =
                    [
                        .. rows.Select(row => new ProbeState(
                            row.Number("x_m"),
                            row.Number("y_m"),
                            row.Number("tilt_x_rad"),
                            row.Number("tilt_y_rad")
                        )),
                    ];
                    ProbeResult r = new ProbeStudy().Run(new(Open(Toml).Model, states), Context());
                    return [.. r.States.SelectMany(s => s.ForceNewtons ?? [])];
                },
            },
        ];
    }

    private static IEnumerable<OutsideCheck> Flown() =>
        [
            new("STU-10", "ride: boost of a mirror plate to a fifth of the speed of light", "1 g, 100 GW")
            {
                Source = Sources.Boost,
                Origin = Origins.ClosedForm,
                Parts = ["time, s", "proper time, s", "emission, s", "distance, m", "energy at the source, J"],
                Expected =
                [
                    113.194613844016418,
                    112.344397342102205,
                    100.995308528865355,
                    3657259726.32160182,
                    10099530852886.5355,
                ],
                Tolerance = 1e-9,
                Compute = () =>
                {
                    SingleRideResult r = Fly(Plate);
                    return
                    [
                        r.TimeSeconds,
                        r.ProperTimeSeconds,
                        r.EmissionTimeSeconds,
                        r.DistanceMetres,
                        r.Energy.SourceJoules,
                    ];
                },
            },
            new("STU-11", "ride: energy and emission time of a boost that ends with the last light", "50 s of 100 GW")
            {
                Source = "power times time",
                Origin = Origins.ClosedForm,
                Parts = ["energy, J", "emission, s"],
                Expected = [5e12, 50],
                Tolerance = 1e-10,
                Compute = () => EnergyAndEmission(Fly(Plate, ("ride.emission", "50 s"))),
            },
            new(
                "STU-12",
                "ride: energy of a boost with a drop-out",
                "10 s of 100 GW less 2 s of darkness and half of 1 s of rise"
            )
            {
                Source = "power times time",
                Origin = Origins.ClosedForm,
                Parts = ["energy, J", "emission, s"],
                Expected = [7.5e11, 10],
                Tolerance = 1e-9,
                Compute = () => EnergyAndEmission(Fly(Plate + DropOut, ("ride.emission", "10 s"))),
            },
        ];

    private static IEnumerable<OutsideCheck> Mapped() =>
        [
            new(
                "STU-20",
                "map: boundary of riding of a wide mouth-first cone on a Gaussian, by the place of its mass",
                "70 deg, 6 m, w = 1 m"
            )
            {
                Source = Sources.Riding,
                Origin = Origins.ClosedForm,
                Expected = [-2.35342611245414924],
                Unit = "m",
                Tolerance = 1e-10,
                Compute = () =>
                {
                    OpenedDesign design = Open(Cone + Measured, ("sail.canopy.radius", "6 m"));
                    MapResult r = new MapStudy().Run(
                        new(
                            design,
                            DesignAxis.Read(design.Document, "--x", "sail.canopy.half_angle=66 deg..74 deg:3"),
                            DesignAxis.Read(design.Document, "--y", "craft.center_of_mass.z=-3.2 m..-1.6 m:3")
                        ),
                        Context()
                    );
                    return [PlaceAt(r, Scenes.Degrees(70))];
                },
            },
        ];

    // Where a traced boundary meets a column of the map.
    private static double PlaceAt(MapResult map, double x)
    {
        foreach (MapLine line in map.Boundaries)
        {
            for (int i = 0; i < line.X.Count; i++)
            {
                if (Math.Abs(line.X[i] - x) < 1e-12)
                {
                    return line.Y[i];
                }
            }
        }
        throw new ArithmeticException("No boundary meets that column.");
    }

    private static double[] EnergyAndEmission(SingleRideResult r) => [r.Energy.SourceJoules, r.EmissionTimeSeconds];

    private static CheckResult Check(string toml, params (string Path, string Value)[] changes) =>
        new CheckStudy().Run(new(Open(toml, changes), WithMargins: false), Context());

    private static SingleRideResult Fly(string toml, params (string Path, string Value)[] changes) =>
        (SingleRideResult)new RideStudy().Run(new(Open(toml, changes)) { WithConvergence = false }, Context());

    private static StudyContext Context() => new() { Threads = 1, Accuracy = 1e-10 };

    private static OpenedDesign Open(string toml, params (string Path, string Value)[] changes)
    {
        DesignDocument document = DesignDocument.Parse(toml);
        foreach ((string path, string value) in changes)
        {
            document = document.WithValue(path, value);
        }
        return OpenedDesign.From(document);
    }
}
