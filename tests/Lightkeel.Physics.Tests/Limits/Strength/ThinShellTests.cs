using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Limits.Heat;
using Lightkeel.Physics.Limits.Strength;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Xunit;

namespace Lightkeel.Physics.Tests.Limits.Strength;

public sealed class ThinShellTests
{
    // Standard forms, numbers by hand: pR/(2t); p a²/(4T); (3 + ν)/8 and (1 − ν)/4 of ρΩ²a² (Theory of Elasticity, 3rd ed., section
    // 32); E α ΔT/(1 − ν).
    [Fact]
    public void ClosedForms_MeetTheTextbook()
    {
        Assert.Equal(3.3e6, ThinShellForms.PressurisedSphereStress(3.3, 2, 1e-6), 1e-6);
        Assert.Equal(0.025, ThinShellForms.FlatFilmSag(1, 1, 10), 1e-16);
        Assert.Equal(10, ThinShellForms.FlatFilmTension(1, 1, 0.025), 1e-13);
        (double radial, double hoop) = ThinShellForms.SpinningDiscStress(1000, 0.3, 2, 1, 0);
        Assert.Equal(0.4125 * 4000, radial, 1e-10);
        Assert.Equal(radial, hoop);
        (radial, hoop) = ThinShellForms.SpinningDiscStress(1000, 0.3, 2, 1, 1);
        Assert.Equal(0, radial);
        Assert.Equal(0.175 * 4000, hoop, 1e-10);
        Assert.Equal(224025974.02597, ThinShellForms.HeldFilmStress(250e9, 0.23, 2.3e-6, 300), 1e-5);
        Assert.Equal(1e9 * 1e-6 / Math.Sqrt(3 * 0.91), ThinShellForms.ShellBucklingStress(1e9, 0.3, 1e-6, 1, 1), 1e-9);
    }

    // b0 by shooting f″ = −8/f² − 3f′/r with SciPy 1.10 solve_ivp (rtol 1e-12) and w0 by quad; the literature prints b0 = 1.7244 for
    // ν = 0.3 (from memory), and 0.65344 for w0.
    [Theory]
    [InlineData(0.2, 1.68273236173774, 0.6774353258045668)]
    [InlineData(0.3, 1.72440406443884, 0.6534433446927025)]
    [InlineData(0.4, 1.77687063578553, 0.6262550793641556)]
    public void HeldFilm_BulgesByItsOwnTension(double nu, double tension, double deflection)
    {
        HenckyMembrane film = new(nu);
        Assert.Equal(tension, film.CenterTension, 1e-11);
        Assert.Equal(deflection, film.CenterDeflection, 1e-11);
        double unit = Math.Cbrt(5e9 * 1e-6 * 0.25 * 4);
        Assert.Equal(0.25 * tension * unit / 1e-6, film.GreatestStress(5e9, 1e-6, -0.5, 2), 1e-9 * unit / 1e-6);
    }

    private static ShellLoads Loads(SurfaceOfRevolution shape, Beam beam, OpticalCoefficients optics) =>
        new()
        {
            Lighting = new(new("s", shape, optics, Vec3.Zero, Mat3.Identity), Vec3.Zero, beam, CraftPose.OnAxis),
            ArealDensityKilogramsPerSquareMetre = 1e-4,
            AccelerationMetresPerSecondSquared = 0,
        };

    private static Beam Dark => new(1e-20, 1e-6, new GaussianProfile(1));

    // Inner pressure alone: pR/2 in both directions, everywhere.
    [Fact]
    public void Sphere_UnderPressure_HasEvenTension()
    {
        ShellLoads loads = Loads(new Sphere(2), Dark, OpticalCoefficients.Mirror) with { PressurePascals = 3.3 };
        IReadOnlyList<ShellStation> stations = MembraneShell.Stations(loads);
        Assert.All(stations, s => Assert.Equal(3.3, s.MeridionalNewtonsPerMetre, 1e-7));
        Assert.All(stations, s => Assert.Equal(3.3, s.HoopNewtonsPerMetre, 1e-7));
    }

    // Own weight of a spherical dome hung from its pole or stood on its rim: N_s = ∓ σ a R/(1 + cos ψ), N_θ as
    // ± σ a R (1/(1 + cos ψ) − cos ψ) (Theory of Plates and Shells, 2nd ed., section 105).
    [Fact]
    public void Dome_UnderItsWeight_MeetsTheTextbook()
    {
        ShellLoads loads = Loads(new SphericalCap(2, 1, LaserSide.Vertex), Dark, OpticalCoefficients.Mirror) with
        {
            AccelerationMetresPerSecondSquared = 5,
            Hold = ShellHold.Rim,
        };
        const double Load = 1e-4 * 5 * 2;
        foreach (ShellStation s in MembraneShell.Stations(loads))
        {
            double cosine = Math.Sqrt(1 - s.RadiusMetres * s.RadiusMetres / 4);
            // The pole looks at the laser and the inertia presses the dome towards it: it hangs from its rim, in tension.
            Assert.Equal(Load / (1 + cosine), s.MeridionalNewtonsPerMetre, 1e-9);
            Assert.Equal(-Load * (1 / (1 + cosine) - cosine), s.HoopNewtonsPerMetre, 1e-9);
        }
    }

    // Spin alone: hoop tension σΩ²r², nothing along the meridian (thin ring).
    [Fact]
    public void Cone_UnderSpin_HasTheHoopOfARing()
    {
        ShellLoads loads = Loads(new Cone(1, 1, LaserSide.Vertex), Dark, OpticalCoefficients.Mirror) with
        {
            SpinRadiansPerSecond = 10,
        };
        foreach (ShellStation s in MembraneShell.Stations(loads))
        {
            Assert.Equal(0, s.MeridionalNewtonsPerMetre, 1e-12);
            Assert.Equal(1e-2 * s.RadiusMetres * s.RadiusMetres, s.HoopNewtonsPerMetre, 1e-10);
        }
    }

    // Light on a mirror cone, half-angle a, mouth first: normal load p = 2 (I/c) sin²a, axial load of the part inside r: p π r²
    // (2 (I/c) sin² a per area of the opening); held at the rim N_s = p π r²/(2π r cos a) = p r/(2 cos a) in tension, hoop
    // p r/cos a. Held at the vertex the sign turns. By hand.
    [Fact]
    public void MouthFirstCone_IsAParachute_WhenItsRimIsHeld()
    {
        const double A = 1.1;
        double p = 2 * Math.Sin(A) * Math.Sin(A);
        ShellLoads loads = Loads(new Cone(1, A, LaserSide.Mouth), Scenes.UniformBeam(), OpticalCoefficients.Mirror) with
        {
            Hold = ShellHold.Rim,
        };
        foreach (ShellStation s in MembraneShell.Stations(loads))
        {
            Assert.Equal(p * s.RadiusMetres / (2 * Math.Cos(A)), s.MeridionalNewtonsPerMetre, 1e-9);
            Assert.Equal(p * s.RadiusMetres / Math.Cos(A), s.HoopNewtonsPerMetre, 1e-9);
        }
        Assert.All(
            MembraneShell.Stations(loads with { Hold = ShellHold.Inner }),
            s => Assert.True(s.MeridionalNewtonsPerMetre < 0)
        );
        Assert.Equal(p * Math.PI, MembraneShell.HandedOverNewtons(loads), 1e-9);
    }

    [Fact]
    public void FlatFilm_HasNoMembraneSolution() =>
        Assert.Empty(MembraneShell.Stations(Loads(new Disc(1), Scenes.UniformBeam(), OpticalCoefficients.Mirror)));
}
