using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Limits.Heat;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using static Lightkeel.Studies.Verify.Checks.Scenes;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Radiation, balance, runaway and transients of films.</summary>
internal static class HeatChecks
{
    private const double Absorbed = 1e-4;
    private const double Outer = 0.05;
    private const double Inner = 0.2;
    private const double Irradiance = 1e8;

    public static CheckModule Module() => new("heat", "Heat of films", [.. Radiation(), .. Balance(), .. Runaway()]);

    private static IEnumerable<OutsideCheck> Radiation() =>
        [
            new("HEA-01", "Power that a black surface radiates", "1000 K")
            {
                Source = Sources.StefanBoltzmann,
                Origin = Origins.Mpmath,
                Expected = [56703.7441918442945],
                Unit = "W/m^2",
                Tolerance = 1e-14,
                Compute = () => [BlackBody.Exitance(1000)],
            },
            new("HEA-02", "Share of black radiation below a wavelength", "wavelength times temperature")
            {
                Source = Sources.HeatTransfer,
                Origin = Origins.Mpmath,
                Parts = ["2000 um K", "2897.771955 um K", "5800 um K"],
                Expected = [0.0667299401813855994, 0.250054546780691987, 0.720131276201476172],
                Tolerance = 1e-12,
                Compute = () =>
                    [
                        BlackBody.FractionBelow(2e-6, 1000),
                        BlackBody.FractionBelow(2.897771955e-6, 1000),
                        BlackBody.FractionBelow(5.8e-6, 1000),
                    ],
            },
            new("HEA-03", "The same shares as printed", "wavelength times temperature")
            {
                Source = Sources.HeatTransfer + ", table 12.1",
                Origin = ExpectedOrigin.FromMemory("printed digits, with an older second radiation constant"),
                Parts = ["2000 um K", "5800 um K"],
                Expected = [0.066728, 0.720158],
                Tolerance = 1e-4,
                Compute = () => [BlackBody.FractionBelow(2e-6, 1000), BlackBody.FractionBelow(5.8e-6, 1000)],
            },
            new("HEA-04", "Wavelengths below which a black surface radiates 5 % and 95 % of its power", "1000 K")
            {
                Source = Sources.HeatTransfer,
                Origin = Origins.Mpmath,
                Parts = ["5 %", "95 %"],
                Expected = [1.88446483375562485e-6, 1.24596307942650212e-5],
                Unit = "m",
                Tolerance = 1e-11,
                Compute = () => [BlackBody.WavelengthBelow(0.05, 1000), BlackBody.WavelengthBelow(0.95, 1000)],
            },
            new(
                "HEA-05",
                "Share of what a hollow radiates that returns to it",
                "cone of half-angle 0.7 rad; hemisphere; ball"
            )
            {
                Source = Sources.HeatTransfer,
                Origin = Origins.ClosedForm,
                Parts = ["cone", "hemisphere", "ball"],
                Expected = [0.355782312762308946, 0.5, 1],
                Tolerance = 1e-14,
                Compute = () =>
                    [
                        SelfView.Of(new Cone(1.3, 0.7, LaserSide.Mouth)),
                        SelfView.Of(new SphericalCap(2, Math.PI / 2, LaserSide.Mouth)),
                        SelfView.Of(new Sphere(2)),
                    ],
            },
        ];

    private static IEnumerable<OutsideCheck> Balance() =>
        [
            new(
                "HEA-06",
                "Equilibrium temperature in 1361 W/m^2",
                "black: ball on average; plate, one side; plate, both sides"
            )
            {
                Source = Sources.StefanBoltzmann,
                Origin = Origins.Mpmath,
                Parts = ["ball", "one side", "both sides"],
                Expected = [278.321399356137344, 393.605897668107836, 330.981788371832279],
                Unit = "K",
                Tolerance = 1e-13,
                Compute = () =>
                    [
                        new FilmBalance(1, 1, 0, HeatLaw.Constant).Equilibrium(1361.0 / 4, 0)!.Value,
                        new FilmBalance(1, 1, 0, HeatLaw.Constant).Equilibrium(1361, 0)!.Value,
                        new FilmBalance(1, 1, 1, HeatLaw.Constant).Equilibrium(1361, 0)!.Value,
                    ],
            },
            new(
                "HEA-07",
                "Temperatures of a ball that heats itself from inside",
                "even light of 1e8 W/m^2, absorbed 1e-4, emissivity 0.05 outside and 0.2 inside"
            )
            {
                Source = Sources.HeatTheory + ": the inside as an integrating sphere",
                Origin = Origins.ClosedForm,
                Parts = ["hottest", "mean"],
                Expected = [1089.85711200866971, 969.035231084750689],
                Unit = "K",
                Tolerance = 1e-11,
                Compute = () =>
                {
                    FilmHeat ball = Heated(new Sphere(1), HeatLaw.Constant);
                    return [ball.HottestKelvin!.Value, ball.MeanKelvin!.Value];
                },
            },
            new("HEA-08", "Power radiated over power absorbed, absorption growing by 4e-4 1/K")
            {
                Source = "conservation of energy",
                Origin = Origins.ClosedForm,
                Parts = ["disc", "ball", "cone", "cap", "paraboloid"],
                Expected = [1, 1, 1, 1, 1],
                Tolerance = 1e-10,
                Compute = () =>
                    [
                        .. (
                            (SurfaceOfRevolution[])
                                [
                                    new Disc(1),
                                    new Sphere(1),
                                    new Cone(1, Degrees(65), LaserSide.Mouth),
                                    new SphericalCap(2, 0.4, LaserSide.Mouth),
                                    new Paraboloid(1.5, 1, LaserSide.Vertex),
                                ]
                        )
                            .Select(s => Heated(s, new HeatLaw(4e-4, 0, 300)))
                            .Select(h => h.EmittedWatts / h.AbsorbedWatts),
                    ],
            },
            new("HEA-09", "Light that a receding film absorbs over that at rest", "beta = 0.2: (1 - b)/(1 + b)")
            {
                Source = Sources.Relativity,
                Origin = Origins.ClosedForm,
                Expected = [2.0 / 3],
                Tolerance = 1e-12,
                Compute = () =>
                    [
                        Heated(new Disc(1), HeatLaw.Constant, 0.2).AbsorbedWatts
                            / Heated(new Disc(1), HeatLaw.Constant).AbsorbedWatts,
                    ],
            },
            new(
                "HEA-10",
                "Time to cool from 1000 K to 500 K by radiation",
                "1 um of aluminium, 2.43 J/(m^2 K), emissivity 0.05 on both sides"
            )
            {
                Source = Sources.HeatTransfer,
                Origin = Origins.ClosedForm,
                Expected = [0.999933969230821391],
                Unit = "s",
                Tolerance = 1e-11,
                Compute = () =>
                    [HeatTransient.Seconds(new(0, 0.05, 0.05, HeatLaw.Constant), 2.43, 0, 0, 1000, 500)!.Value],
            },
            new("HEA-11", "Time constant of that film about 600 K", "C/(4 e s T^3)")
            {
                Source = Sources.HeatTransfer,
                Origin = Origins.ClosedForm,
                Expected = [0.495998992674018547],
                Unit = "s",
                Tolerance = 1e-13,
                Compute = () =>
                    [HeatTransient.TimeConstantSeconds(new(0, 0.05, 0.05, HeatLaw.Constant), 2.43, 0, 600)!.Value],
            },
            new(
                "HEA-12",
                "Drop of temperature from middle to edge that would carry an even heating away",
                "0.1 W/m^2, 1 m, 30 W/(m K), 1 um: q a^2/(4 k h)"
            )
            {
                Source = "Conduction of Heat in Solids (2nd ed. 1959), chapter 7",
                Origin = Origins.ClosedForm,
                Expected = [833.333333333333333],
                Unit = "K",
                Tolerance = 1e-14,
                Compute = () => [FilmConduction.DropKelvin(0.1, 1, 30, 1e-6)],
            },
        ];

    private static IEnumerable<OutsideCheck> Runaway() =>
        [
            new(
                "HEA-13",
                "Cold balance of a film whose absorption grows exponentially",
                "1e6 W/m^2, 1e-4 e^(0.005 (T - 300)), emissivities 0.25 in all"
            )
            {
                Source = Sources.HeatTheory,
                Origin = Origins.Mpmath,
                Expected = [284.109360277425288],
                Unit = "K",
                Tolerance = 1e-13,
                Compute = () => [new FilmBalance(Absorbed, Outer, Inner, new(5e-3, 0, 300)).Equilibrium(1e6, 0)!.Value],
            },
            new(
                "HEA-14",
                "Runaway of that film: temperature and light at the turning point",
                "4/b, and e s T^4/(A e^(b (T - 300))) there"
            )
            {
                Source = Sources.HeatTheory + ": closed form of exponential absorption",
                Origin = Origins.ClosedForm,
                Parts = ["temperature, K", "light, W/m^2"],
                Expected = [800, 4766235.40629242697],
                Tolerance = 1e-12,
                Compute = () => Turning(new(5e-3, 0, 300)),
            },
            new("HEA-15", "The same with the law as a table of four points")
            {
                Source = Sources.HeatTheory + ": closed form of exponential absorption",
                Origin = Origins.ClosedForm,
                Parts = ["light, W/m^2"],
                Expected = [4766235.40629242697],
                Tolerance = 1e-12,
                Compute = () =>
                {
                    double[] at = [20, 450, 900, 1300];
                    double[] shares = [.. at.Select(t => Absorbed * Math.Exp(5e-3 * (t - 300)))];
                    return [Turning(new(0, 0, 300) { Absorption = new(at, shares) })[1]];
                },
            },
        ];

    private static IReadOnlyList<double> Turning(HeatLaw law)
    {
        FilmHeat film = Heated(new Disc(1), law, irradiance: 1e6);
        RunawayPoint point = RunawayPoint.Of(film);
        return [point.Kelvin!.Value, point.PowerFactor!.Value * film.Hottest.LightWattsPerSquareMetre];
    }

    private static FilmHeat Heated(
        SurfaceOfRevolution shape,
        HeatLaw law,
        double beta = 0,
        double irradiance = Irradiance
    )
    {
        OpticalCoefficients optics = new(1 - Absorbed, 0, Absorbed, Outer, Inner);
        CraftPose pose = CraftPose.OnAxis with { VelocityMetresPerSecond = new(0, 0, beta * LightSpeed) };
        SurfaceLighting lighting = new(
            new("sail", shape, optics, Vec3.Zero, Mat3.Identity),
            Vec3.Zero,
            UniformBeam(irradiance),
            pose
        );
        return FilmHeat.Of(lighting, law);
    }
}
