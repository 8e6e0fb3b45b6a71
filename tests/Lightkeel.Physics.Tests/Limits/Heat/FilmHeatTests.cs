using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Limits.Heat;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Xunit;

namespace Lightkeel.Physics.Tests.Limits.Heat;

public sealed class FilmHeatTests
{
    private static readonly OpticalCoefficients Foil = new(0.98, 0.0199, 1e-4, 0.05, 0.2);
    private static readonly HeatLaw Growing = new(2e-3, 0.5, 300);
    private const double Power = 3e7;

    public static TheoryData<string> Shapes => ["ball", "cone", "vertex", "cap", "dish", "disc", "frustum"];

    private static SurfaceOfRevolution Shape(string name) =>
        name switch
        {
            "ball" => new Sphere(1.2),
            "cone" => new Cone(1.5, Scenes.Degrees(65), LaserSide.Mouth),
            "vertex" => new Cone(1.5, Scenes.Degrees(50), LaserSide.Vertex),
            "cap" => new SphericalCap(2, 0.4, LaserSide.Mouth),
            "dish" => new Paraboloid(1.5, 1, LaserSide.Vertex),
            "frustum" => new Cone(1, Scenes.Degrees(50), LaserSide.Vertex, 0.4),
            _ => new Disc(1),
        };

    private static SurfaceLighting Lit(SurfaceOfRevolution shape, CraftPose pose, IBeamProfile? profile = null) =>
        new(
            new("sail", shape, Foil, Vec3.Zero, Mat3.Identity),
            Vec3.Zero,
            new(Power, 1.064e-6, profile ?? new RingProfile(1.05, 0.45)),
            pose
        );

    // The law asked for: at equilibrium the film radiates to space what it absorbs, to 1e-10.
    [Theory, MemberData(nameof(Shapes))]
    public void AbsorbedPower_IsRadiated(string name)
    {
        foreach (HeatLaw law in (HeatLaw[])[HeatLaw.Constant, Growing])
        {
            foreach (CraftPose pose in (CraftPose[])[CraftPose.OnAxis, CraftPose.From(0.1, 0.05, 0.02, -0.1)])
            {
                FilmHeat heat = FilmHeat.Of(Lit(Shape(name), pose), law);
                Assert.NotNull(heat.HottestKelvin);
                Assert.Equal(1, heat.EmittedWatts / heat.AbsorbedWatts, 1e-10);
            }
        }
    }

    // The light that heats is the light that pushes: the pressure engine's absorbed power, which is tested against closed forms.
    [Theory, MemberData(nameof(Shapes))]
    public void AbsorbedPower_IsThatOfThePressureEngine(string name)
    {
        SurfaceOfRevolution shape = Shape(name);
        Beam beam = new(Power, 1.064e-6, new RingProfile(1.05, 0.45));
        SurfaceQuadrature engine = Scenes.Quadrature(shape, beam, optics: Foil, accuracy: 1e-11);
        double on = engine.Evaluate(CraftPose.OnAxis).AbsorbedWatts;
        Assert.Equal(1, FilmHeat.Of(Lit(shape, CraftPose.OnAxis), HeatLaw.Constant).AbsorbedWatts / on, 1e-9);
        CraftPose off = CraftPose.From(0.1, 0.05, 0.02, -0.03, velocityMetresPerSecond: new(0, 0, 3e7));
        double there = engine.Evaluate(off).AbsorbedWatts;
        double tolerance = name == "ball" ? 2e-3 : 1e-6; // the terminator cuts the even rule of a shifted ball
        Assert.Equal(1, FilmHeat.Of(Lit(shape, off), HeatLaw.Constant).AbsorbedWatts / there, tolerance);
    }

    // A mirror ball in even light: inside, an integrating sphere. ⟨q⟩ = A I/4, all of it leaves by the outside, so the mean of σT⁴ is
    // A I/(4 ε_out) and the hottest point (q = A I) has σT⁴ = (A I + ε_in A I/(4 ε_out))/(ε_out + ε_in). By hand.
    [Fact]
    public void Ball_HeatsItselfFromInside()
    {
        Beam even = Scenes.UniformBeam();
        double irradiance = even.Irradiance(0, 0);
        SurfaceLighting light = new(
            new("s", new Sphere(1), Foil, Vec3.Zero, Mat3.Identity),
            Vec3.Zero,
            even,
            CraftPose.OnAxis
        );
        FilmHeat heat = FilmHeat.Of(light, HeatLaw.Constant);
        double q = 1e-4 * irradiance;
        double hottest = BlackBody.Temperature((q + 0.2 * q / (4 * 0.05)) / 0.25);
        Assert.Equal(hottest, heat.HottestKelvin!.Value, 1e-9 * hottest);
        double mean = BlackBody.Temperature(q / (4 * 0.05));
        Assert.Equal(mean, heat.MeanKelvin!.Value, 1e-9 * mean);
        // Twice as hot on the dark side as both sides radiating to space would have it: not zero.
        double dark = heat.KelvinAt(new(0, 3, 0))!.Value;
        Assert.Equal(BlackBody.Temperature(0.2 * q / (4 * 0.05) / 0.25), dark, 1e-9 * dark);
    }

    // View factors: cone 1 − sin a; hemisphere 1/2; closed sphere 1 (reciprocity, any text); frustum by SciPy tplquad over the two openings.
    [Fact]
    public void SelfView_MeetsReciprocity()
    {
        Assert.Equal(1 - Math.Sin(0.7), SelfView.Of(new Cone(1.3, 0.7, LaserSide.Mouth)), 1e-14);
        Assert.Equal(0.5, SelfView.Of(new SphericalCap(2, Math.PI / 2, LaserSide.Mouth)), 1e-14);
        Assert.Equal(1, SelfView.Of(new Sphere(2)));
        Assert.Equal(0, SelfView.Of(new Disc(2)));
        Assert.Equal(0.16845972553231503, SelfView.Of(Shape("frustum")), 1e-9);
    }

    // On a ball under a ring the light is I(ρ) √(1 − ρ²/R²); its top by SciPy is not needed: any finer grid must stay below the spot.
    [Theory, MemberData(nameof(Shapes))]
    public void HotSpot_IsTheTop(string name)
    {
        foreach (CraftPose pose in (CraftPose[])[CraftPose.OnAxis, CraftPose.From(0.3, -0.1, 0.05, 0.1)])
        {
            SurfaceLighting light = Lit(Shape(name), pose);
            HotSpot spot = HotSpot.Of(light);
            Assert.Equal(spot.LightWattsPerSquareMetre, light.LightAt(spot.Place));
            MeridianPiece piece = light.Surface.Shape.Pieces[0];
            for (int i = 0; i <= 997; i++)
            {
                for (int k = 0; k < 97; k++)
                {
                    double u = piece.Start + (piece.End - piece.Start) * i / 997;
                    double there = light.LightAt(new SurfacePlace(0, u, 2 * Math.PI * k / 97));
                    Assert.True(there <= spot.LightWattsPerSquareMetre * (1 + 1e-12));
                }
            }
        }
    }

    // Top of exp(−2(ρ − r)²/s²)√(1 − ρ²/R²) by SciPy 1.10 minimize_scalar; r = 1.05, s = 0.45, R = 1.2.
    [Fact]
    public void HotSpot_OfTheBallUnderARing_IsExact()
    {
        SurfaceLighting light = Lit(Shape("ball"), CraftPose.OnAxis);
        double factor =
            Power * new RingProfile(1.05, 0.45).UnitIrradiance(new Numerics.Scalars.F64(1.05), new(0)).Value;
        Assert.Equal(0.5539231673241719, HotSpot.Of(light).LightWattsPerSquareMetre / factor, 1e-11);
    }

    // Flat film: closed turning point. Ball: exchange brings it down; at it, and not beyond, a balance stands.
    [Fact]
    public void Runaway_IsTheLastBalance()
    {
        HeatLaw law = new(5e-3, 0, 300);
        FilmHeat disc = FilmHeat.Of(Lit(Shape("disc"), CraftPose.OnAxis), law);
        RunawayPoint flat = RunawayPoint.Of(disc);
        Assert.Equal(800, flat.Kelvin!.Value, 1e-9);
        Assert.Equal(4766235.406292426 / disc.Hottest.LightWattsPerSquareMetre, flat.PowerFactor!.Value, 1e-9);
        FilmHeat ball = FilmHeat.Of(Lit(Shape("ball"), CraftPose.OnAxis), law);
        RunawayPoint round = RunawayPoint.Of(ball);
        FilmHeat Scaled(double factor) =>
            FilmHeat.Of(
                new(
                    new("sail", Shape("ball"), Foil, Vec3.Zero, Mat3.Identity),
                    Vec3.Zero,
                    new(Power * factor, 1.064e-6, new RingProfile(1.05, 0.45)),
                    CraftPose.OnAxis
                ),
                law
            );
        double at = round.PowerFactor!.Value;
        Assert.InRange(round.Kelvin!.Value, 800, 850);
        Assert.NotNull(Scaled(at * (1 - 1e-6)).HottestKelvin);
        Assert.Null(Scaled(at * (1 + 1e-6)).HottestKelvin);
        Assert.Null(RunawayPoint.Of(FilmHeat.Of(Lit(Shape("ball"), CraftPose.OnAxis), HeatLaw.Constant)).PowerFactor);
    }

    // A cone of half-angle a throws light to its axis at 180° − 2a from its own axis: from (ρ, ρ cot a) before the vertex the crossing is
    // ρ (cot a + cot(π − 2a)) before it; all of what it meets crosses. A paraboloid, its focus.
    [Fact]
    public void ReflectedLight_CrossesTheAxisByTheLawOfReflection()
    {
        SurfaceLighting cone = Lit(Shape("cone"), CraftPose.OnAxis);
        double a = Scenes.Degrees(65);
        double expected = -(1 / Math.Tan(a) + 1 / Math.Tan(Math.PI - 2 * a));
        Assert.Equal(expected, ReflectedLight.Crossing(cone, 0, 1)!.Value, 1e-12);
        double met = Scenes
            .Quadrature(Shape("cone"), new(Power, 1.064e-6, new RingProfile(1.05, 0.45)), optics: Foil)
            .Evaluate(CraftPose.OnAxis)
            .InterceptedWatts;
        Assert.Equal(0.98 * met, ReflectedLight.WattsOntoAxis(cone, -10, 0), 1e-8 * met);
        // Between two stations, what the rings between the two radii meet.
        double half =
            ReflectedLight.WattsOntoAxis(cone, expected, 0) + ReflectedLight.WattsOntoAxis(cone, -10, expected);
        Assert.Equal(0.98 * met, half, 1e-8 * met);
        SurfaceLighting dish = Lit(new Paraboloid(1.5, 1, LaserSide.Mouth), CraftPose.OnAxis);
        Assert.Equal(-1.5, ReflectedLight.Crossing(dish, 0, 0.5)!.Value, 1e-12);
        Assert.Equal(0, ReflectedLight.WattsOntoAxis(Lit(Shape("ball"), CraftPose.OnAxis), -10, 10));
    }
}
