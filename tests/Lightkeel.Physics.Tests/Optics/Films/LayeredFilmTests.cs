using System.Numerics;
using CsCheck;
using Lightkeel.Physics.Optics.Films;
using Lightkeel.Physics.Optics.Indices;
using Xunit;

namespace Lightkeel.Physics.Tests.Optics.Films;

public sealed class LayeredFilmTests
{
    private static readonly Gen<FilmLayer> AnyLayer = Gen.Select(
            Gen.Double[0.05, 4.5],
            Gen.OneOf(Gen.Const(0.0), Gen.Double[0, 8]),
            Gen.Double[1e-9, 3e-6]
        )
        .Select((n, k, d) => new FilmLayer(new ConstantIndex(n, k), d));

    // Expected: recursion of amplitude reflectances (another method), mpmath 1.2 at 30 digits, benchmarks/peers/oracles/film_recursion.py.
    [Theory]
    [InlineData(0, 0.372732088391394932, 0.226044912470792816, 0.37016110373044937, 0.228243743141320058)]
    [InlineData(1, 0.92375463682443573, 0.0762453631755642702, 0.00302054903904020107, 0.996979450960959799)]
    [InlineData(2, 0.972865657648427931, 0.00908634553586646817, 0.884814070394348988, 0.0710109898590981174)]
    public void Film_OfSeveralLayers_AgreesWithTheRecursion(int which, double rs, double ts, double rp, double tp)
    {
        (LayeredFilm film, double angle, double wavelength) = which switch
        {
            0 => (Of([(2, 4, 2), (3, 0.3, 3)], behind: new ConstantIndex(1, 0.1)), 0.1, 100e-6),
            1 => (Of([(2, 0, 0.15), (1.45, 0, 0.2), (2, 0, 0.13)]), 70 * Math.PI / 180, 1.1e-6),
            _ => (Of([(2.1, 0.01, 0.15), (1.4, 0, 0.2), (0.2, 7.6, 0.02)]), 50 * Math.PI / 180, 1.064e-6),
        };

        FilmAnswer answer = film.Answer(Math.Cos(angle), wavelength);

        Assert.Equal(rs, answer.Across.Reflected, 1e-13);
        Assert.Equal(ts, answer.Across.Passed, 1e-13);
        Assert.Equal(rp, answer.Along.Reflected, 1e-13);
        Assert.Equal(tp, answer.Along.Passed, 1e-13);
    }

    [Fact]
    public void AnyFilm_AtAnyIncidence_KeepsTheEnergy()
    {
        Gen.Select(AnyLayer.Array[0, 9], Gen.Double[0, 1], Gen.Double[0.3e-6, 3e-6])
            .Sample(
                (layers, cosine, wavelength) =>
                {
                    FilmAnswer answer = new LayeredFilm(layers).Answer(cosine, wavelength);
                    foreach (FilmShares s in new[] { answer.Across, answer.Along })
                    {
                        Assert.Equal(1, s.Reflected + s.Passed + s.Absorbed, 1e-12);
                        Assert.InRange(s.Reflected, 0, 1 + 1e-12);
                        Assert.InRange(s.Passed, 0, 1 + 1e-12);
                        Assert.InRange(s.Absorbed, 0, 1 + 1e-12);
                    }
                },
                iter: 500
            );
    }

    // Reciprocity: Principles of Optics (Cambridge, 7th ed. 1999), section 1.6; what passes is the same from both sides.
    [Fact]
    public void AnyFilm_MetFromItsOtherSide_PassesTheSameShare()
    {
        Gen.Select(AnyLayer.Array[1, 6], Gen.Double[0.01, 1], Gen.Double[0.3e-6, 3e-6])
            .Sample(
                (layers, cosine, wavelength) =>
                {
                    LayeredFilm film = new(layers);
                    FilmAnswer front = film.Answer(cosine, wavelength);
                    FilmAnswer back = film.Reversed.Answer(cosine, wavelength);
                    Assert.Equal(front.Across.Passed, back.Across.Passed, 1e-12);
                    Assert.Equal(front.Along.Passed, back.Along.Passed, 1e-12);
                },
                iter: 300
            );
    }

    // Absorption as the integral of 2 n k (2π/λ) |E|² over a thin slice, from the fields themselves: a layer cut in two absorbs the same.
    [Fact]
    public void AbsorbingLayer_CutIntoTwo_AnswersTheSame()
    {
        LayeredFilm whole = Of([(1.8, 0.3, 0.4)]);
        LayeredFilm cut = Of([(1.8, 0.3, 0.15), (1.8, 0.3, 0.25)]);

        FilmAnswer a = whole.Answer(0.6, 1.064e-6);
        FilmAnswer b = cut.Answer(0.6, 1.064e-6);

        Assert.Equal(a.Across.Absorbed, b.Across.Absorbed, 1e-14);
        Assert.Equal(a.Along.Reflected, b.Along.Reflected, 1e-14);
    }

    [Fact]
    public void ThickAbsorbingLayer_PassesNothing_WithoutOverflow()
    {
        FilmAnswer answer = Of([(1.4, 9.9, 5000)]).Answer(0.8, 1.064e-6);

        Assert.Equal(0, answer.Across.Passed);
        Assert.True(answer.Across.Reflected > 0.9 && double.IsFinite(answer.Along.Absorbed));
    }

    // Total reflection inside glass beyond asin(1/n): Principles of Optics, section 1.5.4.
    [Fact]
    public void LightInsideGlass_BeyondTheCriticalAngle_IsReflectedWholly()
    {
        LayeredFilm surface = new([], new ConstantIndex(1.5));
        double beyond = Math.Cos(Math.Asin(1 / 1.5) + 1e-3);

        FilmAnswer answer = surface.Answer(beyond, 1e-6);

        Assert.Equal(1, answer.Across.Reflected, 1e-14);
        Assert.Equal(0, answer.Along.Passed);
    }

    [Fact]
    public void AnyFilm_AtGrazingIncidence_ReflectsEverything()
    {
        FilmAnswer answer = Of([(2, 0, 0.2), (1.4, 0.02, 0.3)]).Answer(0, 1.064e-6);

        Assert.Equal(new FilmShares(1, 0, 0), answer.Across);
        Assert.Equal(new FilmShares(1, 0, 0), answer.Along);
    }

    [Fact]
    public void LightAlongALayer_AtItsCriticalAngle_StaysFinite()
    {
        // sin θ = n of the second layer: the wave runs along it and its admittance vanishes.
        LayeredFilm film = Of([(2, 0, 0.2), (0.6, 0, 0.3)]);
        double exact = Math.Sqrt(1 - 0.36);

        FilmAnswer at = film.Answer(exact, 1.064e-6);
        FilmAnswer near = film.Answer(exact * (1 - 1e-9), 1.064e-6);

        Assert.Equal(near.Across.Reflected, at.Across.Reflected, 1e-7);
        Assert.Equal(near.Along.Reflected, at.Along.Reflected, 1e-7);
    }

    [Fact]
    public void Film_OutsideTheKnownWavelengths_IsRefusedWithTheRange()
    {
        TabulatedIndex index = new([new(1e-6, 1.5, 0), new(1.2e-6, 1.4, 0)]);

        ArgumentOutOfRangeException e = Assert.Throws<ArgumentOutOfRangeException>(() =>
            new LayeredFilm([new(index, 1e-7)]).Answer(1, 1.3e-6)
        );

        Assert.Contains("from 1 to 1.2 um, not at 1.3 um", e.Message, StringComparison.Ordinal);
    }

    internal static LayeredFilm Of(
        (double N, double K, double Micrometres)[] layers,
        RefractiveIndex? before = null,
        RefractiveIndex? behind = null
    ) => new(layers.Select(l => new FilmLayer(new ConstantIndex(l.N, l.K), 1e-6 * l.Micrometres)), before, behind);
}
