using Lightkeel.Physics.Limits;
using Lightkeel.Physics.Limits.FilmModes;
using Lightkeel.Physics.Shapes;
using Xunit;

namespace Lightkeel.Physics.Tests.Limits.FilmModes;

public sealed class RevolvedMembraneModesTests
{
    private const double Spin = 3;

    // A film of revolution that only spins: hoop tension σΩ²r² and none along the meridian.
    private static RevolvedMembrane Spun(SurfaceOfRevolution shape, double stretching, double start = 0) =>
        new()
        {
            Pieces = [(Math.Max(start, shape.Pieces[0].Start), shape.Pieces[0].End)],
            At = (piece, u) => Place(shape, piece, u, (0, 0.2 * Spin * Spin)),
            ArealDensityKilogramsPerSquareMetre = 0.2,
            StretchingNewtonsPerMetre = stretching,
            PoissonRatio = 0.3,
            SpinRadiansPerSecond = Spin,
        };

    private static FilmPoint Place(
        SurfaceOfRevolution shape,
        int piece,
        double u,
        (double Along, double PerSquare) load
    )
    {
        MeridianPoint m = shape.At(piece, u);
        double hoop = load.PerSquare * m.RadiusMetres * m.RadiusMetres;
        return new(m.RadiusMetres, -m.NormalAxial, m.NormalRadial, m.ArcRate, load.Along, hoop);
    }

    // Proceedings of the Royal Society A 99, 272 (1921), doi:10.1098/rspa.1921.0042: the flat disc with its in-plane motion free too.
    [Theory]
    [InlineData(0.3, 2)]
    [InlineData(0.3, 3)]
    [InlineData(0.45, 4)]
    public void SpinningDisc_MeetsThePublishedFormula(double nu, int n)
    {
        RevolvedMembrane film = new()
        {
            Pieces = [(0, 1.7)],
            At = (_, r) =>
            {
                FilmTension t = SpunFilm.Disc(0.2, Spin, 1.7, 0, r, nu);
                return new(r, 1, 0, 1, t.MeridionalNewtonsPerMetre, t.HoopNewtonsPerMetre);
            },
            ArealDensityKilogramsPerSquareMetre = 0.2,
            StretchingNewtonsPerMetre = 1e6,
            PoissonRatio = nu,
            SpinRadiansPerSecond = Spin,
        };
        IReadOnlyList<FilmFrequency> found = RevolvedMembraneModes.Lowest(film, n, 2)!;
        double expected = Spin * Math.Sqrt(MembraneForms.SpinningDiscRatio(nu, n, 0));
        Assert.Equal(expected, Math.Abs(found[0].RadiansPerSecond), 1e-7 * expected);
        Assert.Equal(expected, Math.Abs(found[1].RadiansPerSecond), 1e-7 * expected);
    }

    // Rayleigh's quotient by hand on the exact bending without stretching of a cone: −n and n (Q − 3)/(Q + 1), Q = n²/cos²α.
    [Theory]
    [InlineData(30, 2)]
    [InlineData(60, 2)]
    [InlineData(60, 3)]
    public void SpinningCone_MeetsItsClosedForm(double degrees, int n)
    {
        double angle = degrees * Math.PI / 180;
        double q = n * n / Math.Pow(Math.Cos(angle), 2);
        Cone cone = new(1.3, angle, LaserSide.Mouth);
        double ratio = SpunShellForms.WithSpinRatio(cone, n)!.Value;
        Assert.Equal(n * (q - 3) / (q + 1), ratio, 1e-12);
        AssertSlow(cone, n, ratio, 1e-4);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(4)]
    public void SpinningParaboloidAndCap_MeetTheirClosedForms(int n)
    {
        foreach (
            SurfaceOfRevolution shape in (SurfaceOfRevolution[])
                [
                    new Paraboloid(1, 1.3, LaserSide.Mouth),
                    new SphericalCap(1.3, 0.9, LaserSide.Vertex),
                    new SphericalCap(1.3, 1.9, LaserSide.Mouth),
                ]
        )
        {
            AssertSlow(shape, n, SpunShellForms.WithSpinRatio(shape, n)!.Value, 1e-4);
        }
    }

    private static void AssertSlow(SurfaceOfRevolution shape, int n, double ratio, double tolerance)
    {
        IReadOnlyList<FilmFrequency> found = RevolvedMembraneModes.Lowest(Spun(shape, 1e6), n, 1)!;
        double with = found.Single(f => f.RadiansPerSecond > 0).RadiansPerSecond;
        double against = found.Single(f => f.RadiansPerSecond < 0).RadiansPerSecond;
        Assert.Equal(ratio, with / Spin, tolerance * ratio);
        Assert.Equal(-n, against / Spin, tolerance * n);
    }

    // Zeros of Bessel functions: a film so slack along itself that only its tension counts, and no bulge.
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(3)]
    public void Drum_HasTheZerosOfBesselFunctions(int n)
    {
        RevolvedMembrane film = new()
        {
            Pieces = [(0, 1)],
            At = (_, r) => new(r, 1, 0, 1, 1, 1),
            ArealDensityKilogramsPerSquareMetre = 1e-3,
            StretchingNewtonsPerMetre = 1e4,
            PoissonRatio = 0.3,
            IsRimHeld = true,
        };
        IReadOnlyList<FilmFrequency> found = RevolvedMembraneModes.Lowest(film, n, 2)!;
        for (int s = 1; s <= 2; s++)
        {
            double expected = 2 * Math.PI * MembraneForms.DrumFrequency(1, 1, 1e-3, n, s);
            Assert.Equal(expected, found[s - 1].RadiansPerSecond, 1e-7 * expected);
        }
    }

    // Proceedings of the London Mathematical Society 14, 50 (1882) without pressure; with it the closed form of this project.
    [Theory]
    [InlineData(0, 2)]
    [InlineData(0, 4)]
    [InlineData(40, 2)]
    [InlineData(40, 3)]
    [InlineData(4000, 5)]
    public void Ball_MeetsItsClosedForm(double pressure, int n)
    {
        Sphere sphere = new(1.2);
        double tension = 0.5 * pressure * 1.2;
        RevolvedMembrane film = new()
        {
            Pieces = [(0, Math.PI)],
            At = (piece, u) => Place(sphere, piece, u, (tension, 0)) with { HoopNewtonsPerMetre = tension },
            ArealDensityKilogramsPerSquareMetre = 1e-3,
            StretchingNewtonsPerMetre = 5000,
            PoissonRatio = 0.3,
            PressurePascals = pressure,
        };
        double expected =
            2 * Math.PI * MembraneForms.PressurisedSphereFrequency(1.2, 5e9, 1000, 0.3, 1e-6, pressure, n);
        FilmFrequency found = RevolvedMembraneModes.Lowest(film, n, 1)![0];
        Assert.Equal(expected, found.RadiansPerSecond, 1e-6 * expected);
        Assert.True(found.RelativeChange < 1e-5);
    }

    // The string of docs/theory: out of plane √(n(2n − 1)); here a narrow check that a pressed film is refused, not answered.
    [Fact]
    public void PressedFilm_HasNoFrequencies()
    {
        RevolvedMembrane film = new()
        {
            Pieces = [(0, 1)],
            At = (_, r) => new(r, 1, 0, 1, -1, -1),
            ArealDensityKilogramsPerSquareMetre = 1e-3,
            StretchingNewtonsPerMetre = 1e4,
            PoissonRatio = 0.3,
            IsRimHeld = true,
        };
        Assert.Null(RevolvedMembraneModes.Lowest(film, 2, 1));
    }
}
