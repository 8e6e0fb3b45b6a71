using CsCheck;
using Lightkeel.Physics.Materials;
using Lightkeel.Physics.Optics.Films;
using Xunit;

namespace Lightkeel.Physics.Tests.Optics.Films;

public sealed class FilmTableTests
{
    // The characteristic matrix itself at places that were not fitted.
    [Fact]
    public void Table_OfAnyThinFilm_AgreesWithTheMatrixEverywhere()
    {
        Gen.Select(Gen.Double[1.3, 3.6], Gen.OneOf(Gen.Const(0.0), Gen.Double[0, 0.5]), Gen.Double[0.02, 0.6])
            .Array[1, 4]
            .Select(Gen.Double[0, 1].Array[3], Gen.Double[1, 1.3])
            .Sample(
                (layers, cosines, stretch) =>
                {
                    LayeredFilm film = LayeredFilmTests.Of(layers);
                    FilmTable table = new(film, 1.064e-6);
                    FilmCurve curve = table.At(stretch);
                    foreach (double mu in cosines)
                    {
                        FilmAnswer exact = film.Answer(mu, stretch * 1.064e-6);
                        Assert.Equal(exact.Unpolarised.Reflected, curve.Unpolarised(mu).Reflected, 1e-10 / (mu + 1e-3));
                        Assert.Equal(exact.Unpolarised.Absorbed, curve.Unpolarised(mu).Absorbed, 1e-10 / (mu + 1e-3));
                        Assert.Equal(exact.Along.Reflected, curve.Along(mu).Reflected, 1e-10 / (mu + 1e-3));
                        Assert.Equal(exact.Across.Passed, curve.Across(mu).Passed, 1e-10 / (mu + 1e-3));
                    }
                },
                iter: 30
            );
    }

    [Fact]
    public void Table_OfAQuarterWaveMirror_AgreesWithTheMatrixAtTheEdgeOfItsBand()
    {
        (double, double, double) high = (2.3, 0, 1.064 / 4 / 2.3);
        (double, double, double) low = (1.38, 0, 1.064 / 4 / 1.38);
        LayeredFilm film = LayeredFilmTests.Of([.. Enumerable.Range(0, 8).SelectMany(_ => new[] { high, low }), high]);
        FilmCurve curve = new FilmTable(film, 1.064e-6).At(1.19);

        for (int i = 0; i <= 200; i++)
        {
            double mu = i / 200.0;
            FilmAnswer exact = film.Answer(mu, 1.19 * 1.064e-6);
            Assert.Equal(exact.Across.Reflected, curve.Across(mu).Reflected, 1e-10);
            Assert.Equal(exact.Along.Reflected, curve.Along(mu).Reflected, 1e-10);
        }
    }

    // Rows of a measured index are corners in wavelength: the table must not smooth them.
    [Fact]
    public void Table_OfAMeasuredMetal_AgreesWithTheMatrixAcrossItsRows()
    {
        LayeredFilm film = new([
            new(IndexTable.Find("fused-silica")!.Index, 2e-7),
            new(IndexTable.Find("aluminium")!.Index, 3e-8),
        ]);
        FilmTable table = new(film, 1.064e-6);

        for (double stretch = 1; stretch < 1.3; stretch += 0.0113)
        {
            FilmAnswer exact = film.Answer(0.35, stretch * 1.064e-6);
            Assert.Equal(exact.Unpolarised.Absorbed, table.At(stretch).Unpolarised(0.35).Absorbed, 1e-11);
        }
    }

    [Fact]
    public void Table_OfAThickMetal_AnswersAsItsSurface()
    {
        LayeredFilm thick = LayeredFilmTests.Of([(1.4, 9.9, 5000)]);

        Assert.Equal(
            thick.Answer(0.5, 1.064e-6).Along.Reflected,
            new FilmTable(thick, 1.064e-6).At(1).Along(0.5).Reflected,
            1e-12
        );
    }

    // Malus' law for the mean over a film: Principles of Optics, section 1.5.3.
    [Fact]
    public void LinearLight_BetweenTheTwoPolarisations_MixesThemBySquares()
    {
        LayeredFilm film = LayeredFilmTests.Of([(2, 0.1, 0.2)]);
        FilmCurve curve = new FilmTable(film, 1.064e-6).At(1);
        const double Cosine = 0.4;

        FilmAnswer exact = film.Answer(Cosine, 1.064e-6);

        Assert.Equal(
            0.75 * exact.Across.Reflected + 0.25 * exact.Along.Reflected,
            curve.Polarised(Cosine, 0.25).Reflected,
            1e-11
        );
    }

    [Fact]
    public void Table_StretchedBeyondTheKnownIndex_IsRefusedWithTheRange()
    {
        FilmTable table = new(new([new(IndexTable.Find("titanium-dioxide")!.Index, 1e-7)]), 1.064e-6);

        ArgumentOutOfRangeException e = Assert.Throws<ArgumentOutOfRangeException>(() => table.At(1.6));

        Assert.Contains("known from 0.43 to 1.53 um", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Film_ThickAgainstTheWavelength_IsRefusedInWords()
    {
        FilmTable table = new(LayeredFilmTests.Of([(1.5, 0, 2000)]), 1.064e-6);

        Assert.Contains(
            "thick against the wavelength",
            Assert.Throws<ArithmeticException>(() => table.At(1)).Message,
            StringComparison.Ordinal
        );
    }
}
