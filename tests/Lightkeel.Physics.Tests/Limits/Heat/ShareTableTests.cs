using CsCheck;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Limits.Heat;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Xunit;

namespace Lightkeel.Physics.Tests.Limits.Heat;

public sealed class ShareTableTests
{
    private static readonly OpticalCoefficients Foil = new(0.98, 0.0199, 1e-4, 0.05, 0.2);

    private static FilmHeat Heat(SurfaceOfRevolution shape, HeatLaw law, double power = 3e7) =>
        FilmHeat.Of(
            new(
                new("sail", shape, Foil, Vec3.Zero, Mat3.Identity),
                Vec3.Zero,
                new Beam(power, 1.064e-6, new RingProfile(1.05, 0.45)),
                CraftPose.OnAxis
            ),
            law
        );

    // A table that is read off A = A₀ e^(b (T − T₀)) at a few points is that law: straight in the logarithm.
    private static HeatLaw Tabled(double growth, double exponent = 0) =>
        new(0, exponent, 300)
        {
            Absorption = new(
                [20, 450, 900, 1300],
                [.. ((double[])[20, 450, 900, 1300]).Select(t => 1e-4 * Math.Exp(growth * (t - 300)))]
            ),
        };

    [Fact]
    public void Table_IsStraightInTheLogarithm_AndKeepsItsEnds()
    {
        ShareTable table = new([300, 500, 700], [0.01, 0.04, 0]);
        Assert.Equal(0.02, table.At(400), 1e-15);
        Assert.Equal(Math.Log(4) / 200, table.LogSlope(350), 1e-15);
        Assert.Equal(0.02, table.At(600), 1e-15);
        Assert.Equal(-1.0 / 100, table.LogSlope(600), 1e-12);
        Assert.Equal(0.01, table.At(10));
        Assert.Equal(0, table.At(800));
        Assert.False(table.Covers(299));
        Assert.Throws<ArgumentException>(() => new ShareTable([300, 300], [0.1, 0.2]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ShareTable([300, 400], [0.1, 1.2]));
    }

    // The closed form of exponential absorption: the turning point at T = 4/b, λ = ε σT⁴/(Q A) there.
    [Fact]
    public void Table_OfAnExponential_TurnsAtTheClosedForm()
    {
        FilmHeat heat = Heat(new Disc(1), Tabled(5e-3), 3e6);
        RunawayPoint turning = RunawayPoint.Of(heat);
        double light = heat.Hottest.LightWattsPerSquareMetre;
        double expected = 0.25 * 5.670374419184429e-8 * Math.Pow(800, 4) / (light * 1e-4 * Math.Exp(5e-3 * 500));
        Assert.Equal(800, turning.Kelvin!.Value, 1e-2);
        Assert.Equal(expected, turning.PowerFactor!.Value, 1e-12 * expected);
        // Ten times that power: the film has passed the point, wherever its table carries it; the same power factor in other words.
        FilmHeat beyond = Heat(new Disc(1), Tabled(5e-3), 3e7);
        Assert.Equal(0.1 * expected, RunawayPoint.Of(beyond).PowerFactor!.Value, 1e-12 * expected);
    }

    // Where absorption jumps its slope, the turning point is the kink itself: flat to 700 K, then e^(0.02 (T − 700)).
    [Fact]
    public void Table_WithAKink_TurnsThere()
    {
        HeatLaw law = new(0, 0, 300) { Absorption = new([300, 700, 900], [1e-4, 1e-4, 1e-4 * Math.Exp(4)]) };
        FilmHeat heat = Heat(new Disc(1), law);
        RunawayPoint turning = RunawayPoint.Of(heat);
        double expected =
            0.25 * 5.670374419184429e-8 * Math.Pow(700, 4) / (heat.Hottest.LightWattsPerSquareMetre * 1e-4);
        Assert.Equal(700, turning.Kelvin!.Value, 1e-6);
        Assert.Equal(expected, turning.PowerFactor!.Value, 1e-8 * expected);
        // A table that ends before says so, and claims no point.
        law = law with
        {
            Absorption = new([300, 700], [1e-4, 1e-4]),
        };
        turning = RunawayPoint.Of(Heat(new Disc(1), law));
        Assert.Null(turning.PowerFactor);
        Assert.Contains("700 K, where the table of shares ends", turning.Reason!, StringComparison.Ordinal);
        turning = RunawayPoint.Of(Heat(new Disc(1), law, 3e10));
        Assert.Contains("hotter than its table", turning.Reason!, StringComparison.Ordinal);
    }

    public static TheoryData<string> Shapes => ["ball", "cone", "disc"];

    private static SurfaceOfRevolution Shape(string name) =>
        name switch
        {
            "ball" => new Sphere(1.2),
            "cone" => new Cone(1.5, Scenes.Degrees(65), LaserSide.Mouth),
            _ => new Disc(1),
        };

    // The law and its table give the same film, hollow or not; and what is absorbed is radiated, to 1e-10.
    [Theory, MemberData(nameof(Shapes))]
    public void Table_OfTheLaw_IsTheLaw(string name)
    {
        FilmHeat law = Heat(Shape(name), new(4e-3, 0, 300), 3e6);
        FilmHeat table = Heat(Shape(name), Tabled(4e-3), 3e6);
        Assert.Equal(law.HottestKelvin!.Value, table.HottestKelvin!.Value, 1e-9 * law.HottestKelvin.Value);
        Assert.Equal(1, table.EmittedWatts / table.AbsorbedWatts, 1e-10);
        double factor = RunawayPoint.Of(law).PowerFactor!.Value;
        Assert.Equal(factor, RunawayPoint.Of(table).PowerFactor!.Value, 1e-7 * factor);
    }

    // Emissivities by table, each side its own: at every temperature the balance is that of the shares there, by hand.
    [Fact]
    public void EmissivityTables_AreThoseOfTheirSides() =>
        Gen.Select(Gen.Double[1e3, 1e7], Gen.Double[0.001, 0.5])
            .Sample(
                (light, absorbed) =>
                {
                    HeatLaw law = new(0, 0, 300)
                    {
                        EmissivityFront = new([300, 1500], [0.05, 0.2]),
                        EmissivityBack = new([300, 1500], [0.2, 0.1]),
                    };
                    FilmBalance film = FilmBalance.Of(
                        new OpticalCoefficients(1 - absorbed, 0, absorbed, 0.05, 0.2),
                        false,
                        law
                    );
                    double kelvin = film.Equilibrium(light, 0)!.Value;
                    double part = Math.Clamp((kelvin - 300) / 1200, 0, 1);
                    double sum = 0.05 * Math.Pow(4, part) + 0.2 * Math.Pow(0.5, part);
                    Assert.Equal(
                        absorbed * light,
                        sum * 5.670374419184429e-8 * Math.Pow(kelvin, 4),
                        1e-10 * absorbed * light
                    );
                },
                iter: 200
            );
}
