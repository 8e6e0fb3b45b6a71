using Lightkeel.Physics.Limits;
using Lightkeel.Physics.Limits.Hazard;
using Lightkeel.Physics.Limits.Mission;
using Lightkeel.Physics.Limits.Strength;
using Lightkeel.Physics.Motion;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Stress, buckling and bending of films, plates and booms, and the straight boost.</summary>
internal static class StrengthChecks
{
    private static readonly Tube Aluminium = new(2, 5e-3, 0.5e-3);

    public static CheckModule Module() =>
        new("strength", "Strength and mission", [.. Films(), .. Plates(), .. Booms(), .. Missions()]);

    private static IEnumerable<OutsideCheck> Films() =>
        [
            new("STC-01", "Stress of a pressurised thin sphere", "3.3 Pa, R = 2 m, 1 um: p R/(2 t)")
            {
                Source = Sources.PlatesAndShells,
                Origin = Origins.ClosedForm,
                Expected = [3.3e6],
                Unit = "Pa",
                Tolerance = 1e-14,
                Compute = () => [ThinShellForms.PressurisedSphereStress(3.3, 2, 1e-6)],
            },
            new("STC-02", "Sag of a flat film under tension", "1 Pa, a = 1 m, 10 N/m: p a^2/(4 T)")
            {
                Source = Sources.PlatesAndShells,
                Origin = Origins.ClosedForm,
                Expected = [0.025],
                Unit = "m",
                Tolerance = 1e-14,
                Compute = () => [ThinShellForms.FlatFilmSag(1, 1, 10)],
            },
            new("STC-03", "Spinning solid disc, stress over density times (rate times radius) squared", "nu = 0.3")
            {
                Source = Sources.Elasticity,
                Origin = Origins.ClosedForm,
                Parts = ["middle", "rim, around"],
                Expected = [0.4125, 0.175],
                Tolerance = 1e-14,
                Compute = () =>
                    [
                        ThinShellForms.SpinningDiscStress(1, 0.3, 1, 1, 0).Radial,
                        ThinShellForms.SpinningDiscStress(1, 0.3, 1, 1, 1).Hoop,
                    ],
            },
            new(
                "STC-04",
                "Flat membrane that bulges under even load, rim held",
                "nu = 0.3: 4 N0/(E h q^2 a^2)^(1/3), w0/(q a^4/(E h))^(1/3)"
            )
            {
                Source = Sources.FlatMembrane,
                Origin = Origins.Scipy,
                Parts = ["tension", "deflection"],
                Expected = [1.7244040644, 0.6534433447],
                Tolerance = 1e-8,
                Compute = () =>
                {
                    HenckyMembrane membrane = new(0.3);
                    return [membrane.CenterTension, membrane.CenterDeflection];
                },
            },
            new(
                "STC-05",
                "Stress of a film held all around as it cools",
                "250 GPa, 2.3e-6 1/K, 300 K, nu = 0.23: E a dT/(1 - nu)"
            )
            {
                Source = Sources.Elasticity,
                Origin = Origins.ClosedForm,
                Expected = [224025974.025974026],
                Unit = "Pa",
                Tolerance = 1e-14,
                Compute = () => [ThinShellForms.HeldFilmStress(250e9, 0.23, 2.3e-6, 300)],
            },
            new("STC-06", "Classical buckling stress of a thin shell over E t/R", "nu = 0.3: 1/sqrt(3 (1 - nu^2))")
            {
                Source = Sources.ElasticStability,
                Origin = Origins.ClosedForm,
                Expected = [0.605227532668802420],
                Tolerance = 1e-14,
                Compute = () => [ThinShellForms.ShellBucklingStress(1, 0.3, 1, 1, 1)],
            },
        ];

    private static IEnumerable<OutsideCheck> Plates() =>
        [
            Frequencies(
                "STC-07",
                "Clamped circular plate, w a^2 sqrt(s/D)",
                PlateRim.Clamped,
                0.3,
                [(0, 0), (1, 0), (2, 0), (0, 1)],
                [10.2158262298672792, 21.2603976946145977, 34.8770354203196609, 39.7711482364570819]
            ),
            Frequencies(
                "STC-08",
                "Free circular plate, w a^2 sqrt(s/D), nu = 0.33",
                PlateRim.Free,
                0.33,
                [(2, 0), (0, 1), (3, 0), (1, 1)],
                [5.26203696029707221, 9.06889866178618145, 12.2438942579542100, 20.5130869056764831]
            ),
            Frequencies(
                "STC-09",
                "Simply supported circular plate, w a^2 sqrt(s/D), nu = 0.3",
                PlateRim.Supported,
                0.3,
                [(0, 0), (1, 0), (2, 0)],
                [4.93514904257490573, 13.8981650730487400, 25.6132967208000398]
            ),
            new("STC-10", "Deflection of a circular plate under even load over q a^4/D", "nu = 0.3")
            {
                Source = Sources.PlatesAndShells,
                Origin = Origins.ClosedForm,
                Parts = ["clamped", "supported"],
                Expected = [0.015625, 0.0637019230769230769],
                Tolerance = 1e-14,
                Compute = () =>
                {
                    CircularPlate plate = new(1.5, 2e-3, 70e9, 0.3);
                    double scale = plate.BendingStiffness / Math.Pow(1.5, 4);
                    return
                    [
                        scale * plate.MiddleDeflection(PlateRim.Clamped, 1),
                        scale * plate.MiddleDeflection(PlateRim.Supported, 1),
                    ];
                },
            },
            new("STC-11", "Load that buckles a circular plate from its rim, over D/a^2", "nu = 0.3")
            {
                Source = Sources.ElasticStability,
                Origin = Origins.Mpmath,
                Parts = ["clamped", "supported"],
                Expected = [14.6819706421238933, 4.19778715696438228],
                Tolerance = 1e-13,
                Compute = () =>
                {
                    CircularPlate plate = new(1.5, 2e-3, 70e9, 0.3);
                    double scale = 1.5 * 1.5 / plate.BendingStiffness;
                    return
                    [
                        scale * plate.BucklingNewtonsPerMetre(PlateRim.Clamped),
                        scale * plate.BucklingNewtonsPerMetre(PlateRim.Supported),
                    ];
                },
            },
        ];

    private static OutsideCheck Frequencies(
        string id,
        string quantity,
        PlateRim rim,
        double nu,
        (int Diameters, int Circles)[] modes,
        double[] expected
    ) =>
        new(id, quantity)
        {
            Source = Sources.PlateVibration,
            Origin = Origins.Mpmath,
            Parts = [.. modes.Select(m => FormattableString.Invariant($"({m.Diameters}, {m.Circles})"))],
            Expected = expected,
            Tolerance = 1e-12,
            Compute = () => [.. modes.Select(m => CircularPlate.FrequencyParameter(rim, m.Diameters, m.Circles, nu))],
        };

    private static IEnumerable<OutsideCheck> Booms() =>
        [
            new(
                "STC-12",
                "Euler load of a tube, one end clamped, one free",
                "2 m, 5 mm, wall 0.5 mm, 70 GPa: pi^2 E I/(4 L^2)"
            )
            {
                Source = Sources.ElasticStability,
                Origin = Origins.ClosedForm,
                Expected = [7.28920018090681222],
                Unit = "N",
                Tolerance = 1e-13,
                Compute = () => [Aluminium.BucklingLoad(70e9)],
            },
            new("STC-13", "Weight under which such a column buckles by itself, over E I/L^2")
            {
                Source = Sources.ElasticStability + "; the first zero of J of order -1/3",
                Origin = Origins.Mpmath,
                Expected = [7.83734743894348389],
                Tolerance = 1e-7,
                Compute = () => [Math.PI * Math.PI / 4 / Tube.OwnWeightShare],
            },
            new("STC-14", "Roots of bending beams", "cantilever 1, 2; free at both ends 1, 2")
            {
                Source = Sources.Beams,
                Origin = Origins.Mpmath,
                Parts = ["cantilever 1", "cantilever 2", "free 1", "free 2"],
                Expected = [1.87510406871196117, 4.69409113297417458, 4.73004074486270403, 7.85320462409583756],
                Tolerance = 1e-13,
                Compute = () => [Tube.CantileverRoot(0), Tube.CantileverRoot(0, 2), Tube.FreeRoot(1), Tube.FreeRoot(2)],
            },
            new("STC-15", "Roots of a cantilever with a body on its tip", "body as heavy as the beam; forty times")
            {
                Source = Sources.Beams,
                Origin = Origins.Mpmath,
                Parts = ["1: first", "1: second", "40: first", "40: second"],
                Expected = [1.24791740960646946, 4.03113943671495962, 0.522549308341186696, 3.92960172490308398],
                Tolerance = 1e-13,
                Compute = () =>
                    [
                        Tube.CantileverRoot(1),
                        Tube.CantileverRoot(1, 2),
                        Tube.CantileverRoot(40),
                        Tube.CantileverRoot(40, 2),
                    ],
            },
            new("STC-16", "Boom bent far by a force on its tip, over its length", "P L^2/(E I) = 0.1, 1, 5")
            {
                Source = Sources.Elastica,
                Origin = Origins.Scipy,
                Parts = ["0.1: across", "0.1: along", "1: across", "1: along", "5: across", "5: along"],
                Expected =
                [
                    0.03329531926817437,
                    0.000665399963047264,
                    0.3017207737998132,
                    0.0564332362833766,
                    0.7137915236119136,
                    0.38762836072442985,
                ],
                Tolerance = 1e-10,
                Compute = () =>
                    [
                        .. ((double[])[0.1, 1, 5])
                            .Select(BentBoom.Under)
                            .SelectMany(b => (double[])[b.DeflectionShare, b.ShorteningShare]),
                    ],
            },
        ];

    private static IEnumerable<OutsideCheck> Missions() =>
        [
            new(
                "STC-17",
                "Straight boost in even light",
                "perfect mirror, 300 MW, 2.4 g, 1e7 s at the source: e^rapidity = 1 + F t/(m c)"
            )
            {
                Source = Sources.Boost,
                Origin = Origins.Mpmath,
                Parts = ["beta", "time, s", "time on the craft, s", "distance, m", "energy, J"],
                Expected = [0.997594350606138099, 1438654327.04432755, 149081257.006702304, 428299792336954832, 3e15],
                Tolerance = 1e-9,
                Compute = () =>
                {
                    const double Power = 3e8;
                    AxialBoost boost = new(
                        2.4e-3,
                        Power,
                        _ => 2 * Power / Scenes.LightSpeed,
                        _ => 1,
                        PowerSchedule.Constant,
                        null
                    );
                    BoostInstant end = boost.Fly(0, new(1438654327.04432755, null, null)).Instants[^1];
                    return [end.Beta, end.TimeSeconds, end.ProperSeconds, end.DistanceMetres, end.SourceJoules];
                },
            },
            new(
                "STC-18",
                "Nominal hazard distances, formulas alone",
                "300 MW, director of 4 m at 1064 nm; mirror ball of 1.2 m in 1e8 W/m^2; limit 50 W/m^2"
            )
            {
                Source =
                    "irradiance 2P/(pi (theta L)^2) of a Gaussian far away, Lasers (University Science Books, 1986), chapter 17; a mirror ball spreads evenly",
                Origin = Origins.ClosedForm,
                Parts = ["direct beam", "reflected"],
                Expected = [11541278661.0506221, 848.528137423857029],
                Unit = "m",
                Tolerance = 1e-13,
                Compute = () =>
                    [
                        EyeHazard.DirectMetres(3e8, 2 * 1.064e-6 / (Math.PI * 4), 50),
                        EyeHazard.ReflectedByBallMetres(1.2, 1e8, 50),
                    ],
            },
        ];
}
