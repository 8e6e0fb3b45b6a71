using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Limits;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Shapes;
using Xunit;

namespace Lightkeel.Physics.Tests.Limits;

/// <summary>Tension of spun films: handbook values, and the equations of equilibrium by differences.</summary>
public sealed class SpunFilmTests
{
    // Theory of Elasticity (McGraw-Hill, 3rd ed. 1970), section 32, Poisson's ratio 0.3: 0.4125 at the centre, 0.175 along the rim, and
    // the limit of a vanishing hole, (3 + nu)/4, all over mu W² a².
    [Fact]
    public void SolidDisc_HasTheHandbookTensions()
    {
        FilmTension centre = SpunFilm.Disc(2e-3, 30, 1.5, 0, 0);
        FilmTension rim = SpunFilm.Disc(2e-3, 30, 1.5, 0, 1.5);
        double unit = 2e-3 * 30 * 30 * 1.5 * 1.5;

        Assert.Equal(0.4125, centre.HoopNewtonsPerMetre / unit, 1e-12);
        Assert.Equal(0.4125, centre.MeridionalNewtonsPerMetre / unit, 1e-12);
        Assert.Equal(0.175, rim.HoopNewtonsPerMetre / unit, 1e-12);
        Assert.Equal(0, rim.MeridionalNewtonsPerMetre, 1e-12);
    }

    [Fact]
    public void Ring_WithAPinhole_HasTwiceTheHoopTensionOfTheSolidDisc()
    {
        double solid = SpunFilm.Disc(1, 1, 1, 0, 0).HoopNewtonsPerMetre;
        double pinhole = SpunFilm.Disc(1, 1, 1, 1e-6, 1e-6).HoopNewtonsPerMetre;

        Assert.Equal(2, pinhole / solid, 1e-9);
        Assert.Equal((3 + 0.3) / 4, pinhole, 1e-9);
    }

    [Fact]
    public void Ring_ThatIsThin_CarriesItselfAsAHoop() =>
        Assert.Equal(1, SpunFilm.Disc(1, 1, 1, 0.9999, 1).HoopNewtonsPerMetre, 2e-4);

    [Theory]
    [InlineData(0), InlineData(0.3)]
    public void Disc_Everywhere_IsInEquilibriumAndCompatible(double hole)
    {
        // (r N_r)' − N_θ + μW² r² = 0 and (r (N_θ − ν N_r))' = N_r − ν N_θ, by central differences.
        const double Nu = 0.25;
        const double H = 1e-4;
        FilmTension At(double r) => SpunFilm.Disc(1, 1, 1, hole, r, Nu);
        foreach (double r in (double[])[0.4, 0.6, 0.9])
        {
            (FilmTension low, FilmTension at, FilmTension high) = (At(r - H), At(r), At(r + H));
            double force =
                ((r + H) * high.MeridionalNewtonsPerMetre - (r - H) * low.MeridionalNewtonsPerMetre) / (2 * H)
                - at.HoopNewtonsPerMetre
                + r * r;
            double Strain(FilmTension t) => t.HoopNewtonsPerMetre - Nu * t.MeridionalNewtonsPerMetre;
            double fit =
                ((r + H) * Strain(high) - (r - H) * Strain(low)) / (2 * H)
                - (at.MeridionalNewtonsPerMetre - Nu * at.HoopNewtonsPerMetre);
            Assert.Equal(0, force, 1e-6);
            Assert.Equal(0, fit, 1e-6);
        }
    }

    [Fact]
    public void Sphere_AtItsEquator_CarriesTheHoopTensionOfAFreeRing()
    {
        // A free thin ring at speed v carries the stress rho v² (standard; Theory of Elasticity as above, the limit of a thin ring).
        PlacedSurface ball = new("ball", new Sphere(1.2), OpticalCoefficients.Mirror, Vec3.Zero, Mat3.Identity);
        SpunSail sail = SpunFilm.Of(ball, new(1, Vec3.Zero, Mat3.Diagonal(1, 1, 1)), 1e-4, 12);

        Assert.Equal(1e-4 * Math.Pow(12 * 1.2, 2), sail.Tension!.Value.LargestNewtonsPerMetre, 1e-12);
    }

    [Fact]
    public void Sail_OffTheSpinAxis_HasNoClosedFormAndSaysSo()
    {
        PlacedSurface aside = new("fin", new Disc(0.2), OpticalCoefficients.Mirror, new(1, 0, 0), Mat3.Identity);
        SpunSail sail = SpunFilm.Of(aside, new(1, Vec3.Zero, Mat3.Diagonal(1, 1, 1)), 1e-4, 12);

        Assert.Null(sail.Tension);
        Assert.Contains("no closed form", sail.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Disc_WithImpossibleNumbers_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => SpunFilm.Disc(-1, 1, 1, 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => SpunFilm.Disc(1, 1, 1, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => SpunFilm.Disc(1, 1, 1, 0, 2));
        Assert.Throws<ArgumentOutOfRangeException>(() => SpunFilm.Disc(1, 1, 1, 0, 0, 0.7));
    }
}
