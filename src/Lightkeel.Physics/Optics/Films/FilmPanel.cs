using Lightkeel.Numerics.Interpolation;

namespace Lightkeel.Physics.Optics.Films;

/// <summary>The squares of the amplitudes (<see cref="FilmMatrix.Squares"/>) as Chebyshev series in cos² of incidence and wavelength.</summary>
/// <remarks>
/// These are entire functions of both, so that the series converge at once, however sharp a resonance of the shares
/// themselves may be. Kinds: G₀, G₁, N₀, N₁ of s, then of p; of a film without absorption G₀ of s and of p alone.
/// </remarks>
internal sealed class FilmPanel
{
    private const int MostAngles = 257;
    private const int MostWavelengths = 129;

    // What the squares of a film of very high contrast lose to rounding where it happens to pass light: taken, and told as the error.
    private const double RoundingError = 1e-8;

    // Coefficient of T_i(2w − 1) T_j(t) of kind k at ((k, i), j), j fastest.
    private readonly double[] _coefficients;
    private readonly int _kinds;
    private readonly int _angles;
    private readonly int _wavelengths;

    private readonly double _error;

    private FilmPanel(double[] coefficients, int kinds, int angles, int wavelengths, double error)
    {
        (_coefficients, _kinds, _angles, _wavelengths) = (coefficients, kinds, angles, wavelengths);
        _error = error;
    }

    /// <summary>Fits the film between two wavelengths.</summary>
    /// <param name="film">A film in vacuum.</param>
    /// <param name="shortMetres">Shortest wavelength, m.</param>
    /// <param name="longMetres">Longest wavelength, m.</param>
    /// <param name="tolerance">Absolute error of a share times cos of incidence, as power counts it, to reach at places that are not fitted.</param>
    /// <exception cref="ArithmeticException">The largest series misses the tolerance by more than rounding explains.</exception>
    public static FilmPanel Fit(LayeredFilm film, double shortMetres, double longMetres, double tolerance)
    {
        Span span = new(film, shortMetres, longMetres);
        (int angles, int wavelengths) = (9, 5);
        (double anglesBefore, double wavelengthsBefore) = (double.PositiveInfinity, double.PositiveInfinity);
        while (true)
        {
            FilmPanel panel = Through(span, angles, wavelengths);
            double overAngles = panel.MissOverAngles(span);
            double overWavelengths = panel.MissOverWavelengths(span);
            // Both misses hold something of the other: the angles are settled first, with a margin.
            if (angles < MostAngles && !IsSettled(overAngles, anglesBefore, 0.1 * tolerance))
            {
                (angles, anglesBefore) = (2 * angles - 1, overAngles);
                continue;
            }
            if (wavelengths < MostWavelengths && !IsSettled(overWavelengths, wavelengthsBefore, tolerance))
            {
                (wavelengths, wavelengthsBefore) = (2 * wavelengths - 1, overWavelengths);
                continue;
            }
            double miss = Math.Max(overAngles, overWavelengths);
            return miss <= Math.Max(tolerance, RoundingError)
                ? panel.Trimmed(miss)
                : throw new ArithmeticException(
                    $"The film cannot be tabulated to {tolerance:E0}: it is thick against the wavelength, so that its reflectance "
                        + "changes over tiny angles and no laser light would show it. State its shares as a surface of kind coefficients."
                );
        }
    }

    // Good enough, or as good as rounding lets it be: twice the terms square the error of a series, but for that.
    private static bool IsSettled(double miss, double before, double tolerance) =>
        miss <= tolerance || (miss <= RoundingError && miss > 0.1 * before);

    /// <summary>The series in cos² at one place across the panel, −1 at its short end … 1.</summary>
    public FilmCurve At(double t)
    {
        double[] curve = new double[_kinds * _angles];
        for (int row = 0; row < curve.Length; row++)
        {
            curve[row] = ChebyshevSeries.Sum(_coefficients.AsSpan(row * _wavelengths, _wavelengths), t);
        }
        return new(curve, _angles, _kinds == 2, _error);
    }

    private static FilmPanel Through(in Span span, int angles, int wavelengths)
    {
        int kinds = span.Film.IsLossless ? 2 : 8;
        double[] squares = ChebyshevSeries.Points(0, 1, angles);
        double[] places = ChebyshevSeries.Points(-1, 1, wavelengths);
        double[] values = new double[kinds * angles * wavelengths];
        Span<double> found = stackalloc double[kinds];
        for (int i = 0; i < angles; i++)
        {
            for (int j = 0; j < wavelengths; j++)
            {
                span.Values(squares[i], places[j], found);
                for (int k = 0; k < kinds; k++)
                {
                    values[(k * angles + i) * wavelengths + j] = found[k];
                }
            }
        }
        return new(Transformed(values, kinds, angles, wavelengths), kinds, angles, wavelengths, double.NaN);
    }

    private static double[] Transformed(double[] values, int kinds, int angles, int wavelengths)
    {
        double[] done = new double[values.Length];
        for (int row = 0; row < kinds * angles; row++)
        {
            int at = row * wavelengths;
            ChebyshevSeries.Transform(values.AsSpan(at, wavelengths), done.AsSpan(at, wavelengths));
        }
        double[] column = new double[angles];
        double[] transformed = new double[angles];
        for (int k = 0; k < kinds; k++)
        {
            for (int j = 0; j < wavelengths; j++)
            {
                for (int i = 0; i < angles; i++)
                {
                    column[i] = done[(k * angles + i) * wavelengths + j];
                }
                ChebyshevSeries.Transform(column, transformed);
                for (int i = 0; i < angles; i++)
                {
                    done[(k * angles + i) * wavelengths + j] = transformed[i];
                }
            }
        }
        return done;
    }

    private double MissOverAngles(in Span span)
    {
        double[] places = ChebyshevSeries.Points(-1, 1, _wavelengths);
        double miss = 0;
        for (int i = 0; i <= _angles; i++)
        {
            double place = places[i % _wavelengths];
            double w = 0.5 + 0.5 * Math.Cos(Math.PI * i / _angles);
            miss = Math.Max(miss, span.Miss(At(place), Math.Sqrt(w), place));
        }
        return miss;
    }

    private double MissOverWavelengths(in Span span)
    {
        double miss = 0;
        for (int j = 0; j <= _wavelengths; j++)
        {
            double place = Math.Cos(Math.PI * j / _wavelengths);
            FilmCurve curve = At(place);
            for (int i = 0; i < 7; i++)
            {
                miss = Math.Max(miss, span.Miss(curve, Math.Cos(0.5 * Math.PI * (i + 0.3) / 7), place));
            }
        }
        return miss;
    }

    // Terms below rounding at the high end of cos² only cost time in the kernel.
    private FilmPanel Trimmed(double error)
    {
        double size = _coefficients.Max(Math.Abs);
        int needed = 1;
        for (int row = 0; row < _kinds * _angles; row++)
        {
            foreach (double c in _coefficients.AsSpan(row * _wavelengths, _wavelengths))
            {
                needed = Math.Abs(c) > 1e-17 * size ? Math.Max(needed, row % _angles + 1) : needed;
            }
        }
        double[] kept = new double[_kinds * needed * _wavelengths];
        for (int k = 0; k < _kinds; k++)
        {
            Array.Copy(
                _coefficients,
                k * _angles * _wavelengths,
                kept,
                k * needed * _wavelengths,
                needed * _wavelengths
            );
        }
        return new(kept, _kinds, needed, _wavelengths, error);
    }

    // The film over one stretch of wavelength.
    private readonly record struct Span(LayeredFilm Film, double ShortMetres, double LongMetres)
    {
        public void Values(double w, double place, Span<double> values)
        {
            int half = values.Length / 2;
            for (int polarisation = 0; polarisation < 2; polarisation++)
            {
                FilmMatrix matrix = Film.Matrix(w, Wavelength(place), along: polarisation == 1);
                (double g0, double g1, double n0, double n1) = matrix.Squares(w);
                values[half * polarisation] = g0;
                if (half == 4)
                {
                    (values[half * polarisation + 1], values[half * polarisation + 2]) = (g1, n0);
                    values[half * polarisation + 3] = n1;
                }
            }
        }

        public double Miss(in FilmCurve curve, double mu, double place)
        {
            FilmAnswer exact = Film.Answer(Math.Min(mu, 1), Wavelength(place));
            return mu * Math.Max(Difference(curve.Across(mu), exact.Across), Difference(curve.Along(mu), exact.Along));
        }

        private static double Difference(in FilmShares a, in FilmShares b) =>
            Math.Max(Math.Abs(a.Reflected - b.Reflected), Math.Abs(a.Absorbed - b.Absorbed));

        private double Wavelength(double place) =>
            Math.Clamp(
                0.5 * (ShortMetres + LongMetres) + 0.5 * place * (LongMetres - ShortMetres),
                ShortMetres,
                LongMetres
            );
    }
}
