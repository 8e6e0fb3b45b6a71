using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Optics.Films;
using Lightkeel.Physics.Optics.Indices;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Pressure.Rays;
using Lightkeel.Physics.Shapes;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Pressure;

/// <summary>Light pressure on layered films.</summary>
public sealed class FilmPressureTests
{
    private const double Wavelength = 1.064e-6;

    private static readonly LayeredFilm Metallised = new([
        new(new ConstantIndex(1.45), 1e-7),
        new(new ConstantIndex(1.4, 9.9), 3e-8),
        new(new ConstantIndex(1.45), 2e-7),
    ]);

    private static readonly FilmOptics Film = new(Metallised, Wavelength, 0.1, 0.3);

    private static readonly CraftPose Leaning = CraftPose.From(0.2, -0.15, 0.06, 0.04);

    // Expected: adaptive quadrature of the element force with 2×2 matrices, SciPy 1.10, benchmarks/peers/oracles/film_cone.py.
    [Theory]
    [InlineData(1.0, 1.5670580139314985, 0.09185197350756599)]
    [InlineData(1.2, 1.5481592432551166, 0.09355668113658254)]
    public void Cone_UnderAMetallisedFilm_HasTheThrustOfTheIndependentSum(
        double stretch,
        double thrust,
        double absorbed
    )
    {
        SailCraft craft = Filmed(new Cone(1.5, Degrees(70), LaserSide.Mouth), default, Film);
        // D² = (1 − β)/(1 + β) is one over the square of the stretch, and scales the irradiance.
        double square = stretch * stretch;
        double beta = (square - 1) / (square + 1);
        CraftPose pose = CraftPose.OnAxis with { VelocityMetresPerSecond = new(0, 0, beta * C) };

        PressureReading reading = new SurfaceQuadrature(craft, UnitBeam(new GaussianProfile(1.2)), 1e-11).Evaluate(
            pose
        );

        Assert.Equal(thrust, square * reading.ForceNewtons.Z, 1e-9);
        Assert.Equal(absorbed, square * reading.AbsorbedWatts / C, 1e-9);
    }

    // F = 2 R I A/c for a free lossless film: balance of momentum, 1 + R − T.
    [Fact]
    public void Disc_OfAQuarterWaveFilm_IsPushedByTwiceWhatItReflects()
    {
        FilmOptics quarter = new(new([new(new ConstantIndex(2), Wavelength / 8)]), Wavelength);
        SailCraft craft = Filmed(new Disc(1), default, quarter);

        PressureReading reading = new SurfaceQuadrature(craft, UnitBeam(new GaussianProfile(0.7)), 1e-11).Evaluate(
            CraftPose.OnAxis
        );

        Assert.Equal(0.72 * reading.InterceptedWatts / C, reading.ForceNewtons.Z, 1e-11);
        Assert.Equal(0, reading.AbsorbedWatts);
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(0.15)]
    public void Engines_OnALeaningFilm_Agree(double beta)
    {
        SailCraft craft = Filmed(new SphericalCap(2, Degrees(35), LaserSide.Vertex), new(0, 0, -1), Film);
        Beam beam = UnitBeam(new GaussianProfile(0.9));
        CraftPose pose = Leaning with { VelocityMetresPerSecond = new(1e-3 * beta * C, 0, beta * C) };

        PressureReading fast = new SurfaceQuadrature(craft, beam, 1e-10).Evaluate(pose);
        PressureReading plain = new ReferencePressure(craft, beam).Evaluate(pose);
        PressureReading rays = new RayPressure(craft, beam, 1e-7).Evaluate(pose);

        Assert.True((fast.ForceNewtons - plain.ForceNewtons).Length < 1e-7 * fast.ForceNewtons.Length);
        Assert.True((fast.TorqueNewtonMetres - plain.TorqueNewtonMetres).Length < 1e-7 * fast.ForceNewtons.Length);
        Assert.Equal(plain.AbsorbedWatts, fast.AbsorbedWatts, 1e-6 * plain.AbsorbedWatts);
        // The film passes some thousandths, which rays follow to where they leave and quadrature lets go: both leave straight on.
        Assert.True((fast.ForceNewtons - rays.ForceNewtons).Length < 1e-6 * fast.ForceNewtons.Length);
    }

    [Fact]
    public void Derivatives_OnAFilm_AreThoseOfTheForce()
    {
        SailCraft craft = Filmed(new Cone(1, Degrees(68), LaserSide.Mouth), new(0, 0, -2), Film);
        SurfaceQuadrature engine = new(craft, UnitBeam(new GaussianProfile(0.9)), 1e-11);
        const double H = 1e-4;
        CraftPose Tilted(double by) =>
            Leaning with
            {
                BeamFromBody = Mat3.Rotation(Vec3.UnitY, by) * Leaning.BeamFromBody,
            };

        PressureDerivatives exact = engine.Differentiate(Leaning);
        Vec3 byTilt =
            1 / (2 * H) * (engine.Evaluate(Tilted(H)).ForceNewtons - engine.Evaluate(Tilted(-H)).ForceNewtons);

        Assert.True((byTilt - exact.ByTiltY.ForceNewtons).Length < 1e-7 * byTilt.Length);
    }

    [Fact]
    public void MetallisedFilm_LitFromItsBack_AnswersAsTheReversedFilm()
    {
        FilmOptics lopsided = new(
            new([new(new ConstantIndex(3, 0.2), 2e-7), new(new ConstantIndex(1.4, 9.9), 3e-8)]),
            Wavelength,
            0.2,
            0.2
        );
        double turned = lopsided.Reversed.At(0.8).Absorbed;

        Assert.Equal(lopsided.Film.Reversed.Answer(0.8, Wavelength).Unpolarised.Absorbed, turned, 1e-10);
        Assert.NotEqual(lopsided.At(0.8).Absorbed, turned, 1e-2);
        Assert.Equal(lopsided.At(0.8), lopsided.Reversed.Reversed.At(0.8));
    }

    // The exact transformation at small speeds, with the Doppler shift of the film's wavelength in it.
    [Fact]
    public void Damping_OfAFilm_IsTheSlopeOfTheExactForceByVelocity()
    {
        SailCraft craft = Filmed(new Cone(1, Degrees(68), LaserSide.Mouth), new(0, 0, -2), Film);
        Beam beam = UnitBeam(new GaussianProfile(0.9));
        SurfaceQuadrature engine = new(craft, beam, 1e-12);
        const double Speed = 1e-4;
        Vec3 Force(Vec3 v) => engine.Evaluate(Leaning with { VelocityMetresPerSecond = v }).ForceNewtons;

        RateDamping damping = RateDamping.At(craft, beam, Leaning, 1e-8);
        Vec3 along = 1 / (2 * Speed) * (Force(new(0, 0, Speed * C)) - Force(new(0, 0, -Speed * C)));
        Vec3 across = 1 / (2 * Speed) * (Force(new(Speed * C, 0, 0)) - Force(new(-Speed * C, 0, 0)));

        Mat3 d = C * damping.ForceByVelocity;
        Assert.True((along - d.Column2).Length < 1e-6 * along.Length);
        Assert.True((across - d.Column0).Length < 1e-5 * along.Length);
    }

    // A mirror of high contrast that reflects at every incidence leaves its band: the matrix itself says what it passes.
    [Fact]
    public void Ball_WhoseMirrorLeavesItsBandAtSpeed_IsRefusedThere()
    {
        FilmLayer high = new(new ConstantIndex(3.5), Wavelength / 4 / 3.5);
        FilmLayer low = new(new ConstantIndex(1.38), Wavelength / 4 / 1.38);
        LayeredFilm mirror = new([.. Enumerable.Range(0, 8).SelectMany(_ => new[] { high, low }), high]);
        FilmOptics optics = new(mirror, Wavelength);
        SurfaceQuadrature engine = new(
            Filmed(new Sphere(0.8), default, optics),
            UnitBeam(new GaussianProfile(0.9)),
            1e-8
        );
        const double Stretch = 1.6;
        const double Beta = (Stretch * Stretch - 1) / (Stretch * Stretch + 1);

        Assert.True(optics.Passed < 0.025);
        Assert.True(mirror.Answer(1, Stretch * Wavelength).Across.Passed > 0.1);
        Assert.True(engine.Evaluate(CraftPose.OnAxis).ForceNewtons.Z > 0);
        PressureUnavailableException e = Assert.Throws<PressureUnavailableException>(() =>
            engine.Evaluate(CraftPose.OnAxis with { VelocityMetresPerSecond = new(0, 0, Beta * C) })
        );
        Assert.Contains("lets light through", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Atlas_OfAFilm_IsRefused() =>
        Assert.False(
            Physics.Pressure.Atlases.PressureAtlas.CanServe(
                Filmed(new Cone(1, Degrees(68), LaserSide.Mouth), default, Film),
                UnitBeam(new GaussianProfile(0.9))
            )
        );

    private static SailCraft Filmed(SurfaceOfRevolution shape, Vec3 centerOfMass, SurfaceOptics optics) =>
        new(
            [new("sail", shape, optics, Vec3.Zero, Mat3.Identity)],
            new(1e-3, centerOfMass, Mat3.Diagonal(1e-3, 1e-3, 1.5e-3))
        );
}
