using Lightkeel.Physics.Limits.FilmModes;
using Xunit;

namespace Lightkeel.Physics.Tests.Limits.FilmModes;

public sealed class MembraneModesTests
{
    // Proceedings of the Royal Society A 99, 272 (1921), doi:10.1098/rspa.1921.0042: [(3 + ν)(n + 2s)(n + 2s + 2) − n²(1 + 3ν)]/8.
    [Theory]
    [InlineData(0.3, 0, 0, 0)]
    [InlineData(0.3, 1, 0, 1)]
    [InlineData(0.3, 2, 0, 2.35)]
    [InlineData(0.3, 3, 0, 4.05)]
    [InlineData(0.33, 2, 0, 2.335)]
    public void SpinningDisc_HasThePublishedRatios(double nu, int n, int s, double expected) =>
        Assert.Equal(expected, MembraneForms.SpinningDiscRatio(nu, n, s), 1e-12);

    // The finite elements against that formula, far inside the 1e-4 asked for.
    [Theory]
    [InlineData(0.3, 0)]
    [InlineData(0.3, 1)]
    [InlineData(0.3, 2)]
    [InlineData(0.17, 3)]
    [InlineData(0.45, 5)]
    public void SpinningDisc_ByFiniteElements_MeetsTheFormula(double nu, int n)
    {
        double[] found = MembraneModes.AngularSquares(FlatMembrane.Spinning(1.7, 2e-4, nu, 3), n);
        for (int s = 0; s < 4; s++)
        {
            double expected = 9 * MembraneForms.SpinningDiscRatio(nu, n, s);
            Assert.Equal(expected, found[s], 1e-8 * (1 + expected));
        }
    }

    // A ring with free edges, inner radius 0.4: Chebyshev collocation of the same equation by NumPy and SciPy, the roots that settle.
    [Theory]
    [InlineData(0, 3.2999999999999)]
    [InlineData(1, 4.9667550210685)]
    [InlineData(2, 9.0212475098505)]
    [InlineData(3, 13.6055560938015)]
    public void SpinningRing_ByFiniteElements_MeetsCollocation(int n, double expected)
    {
        double[] found = MembraneModes.AngularSquares(FlatMembrane.SpinningRing(0.4, 1, 2e-4, 0.3, 1), n);
        Assert.Equal(expected, found[1], 1e-7 * expected);
    }

    // Zeros of Bessel functions: Digital Library of Mathematical Functions 10.21, by mpmath 1.2.1.
    [Fact]
    public void Drum_HasTheZerosOfBesselFunctions()
    {
        Assert.Equal(2.4048255576957729, MembraneForms.BesselZero(0, 1), 1e-13);
        Assert.Equal(3.8317059702075125, MembraneForms.BesselZero(1, 1), 1e-13);
        Assert.Equal(5.1356223018406828, MembraneForms.BesselZero(2, 1), 1e-13);
        Assert.Equal(5.5200781102863106, MembraneForms.BesselZero(0, 2), 1e-13);
        Assert.Equal(15.700174079711671, MembraneForms.BesselZero(5, 3), 1e-13);
        Assert.Equal(12.103297556756, MembraneForms.DrumFrequency(1, 1, 1e-3, 0, 1), 1e-10);
    }

    [Fact]
    public void Drum_ByFiniteElements_MeetsThem()
    {
        for (int n = 0; n < 4; n++)
        {
            double[] found = MembraneModes.AngularSquares(FlatMembrane.Drum(1, 1e-3, 1), n);
            for (int s = 1; s <= 3; s++)
            {
                double expected = 2 * Math.PI * MembraneForms.DrumFrequency(1, 1, 1e-3, n, s);
                Assert.Equal(1, Math.Sqrt(found[s - 1]) / expected, 1e-8);
            }
        }
    }

    // n = 0: breathing, w = 2/(1 − ν); n = 1: rest; n = 2, ν = 0.3: roots of the quadratic by NumPy.
    [Fact]
    public void Sphere_HasItsMembraneFrequencies()
    {
        (double low, double high) = MembraneForms.SphereFrequencies(1, 1, 1, 0.3, 0);
        Assert.Equal(Math.Sqrt(2 / 0.7) / (2 * Math.PI), high, 1e-14);
        Assert.Equal(0, low);
        Assert.Equal(0, MembraneForms.SphereFrequencies(1, 1, 1, 0.3, 1).Lower);
        (low, high) = MembraneForms.SphereFrequencies(1, 1, 1, 0.3, 2);
        Assert.Equal(Math.Sqrt(0.5399068998854368) / (2 * Math.PI), low, 1e-14);
        Assert.Equal(Math.Sqrt(8.141411781433245) / (2 * Math.PI), high, 1e-13);
    }

    // √(n(2n − 1)): the Legendre polynomials of odd degree.
    [Fact]
    public void SpinningString_HasItsRatios()
    {
        Assert.Equal(1, MembraneForms.SpinningStringRatio(1));
        Assert.Equal(2.4494897427832, MembraneForms.SpinningStringRatio(2), 1e-12);
        Assert.Equal(3.8729833462074, MembraneForms.SpinningStringRatio(3), 1e-12);
    }
}
