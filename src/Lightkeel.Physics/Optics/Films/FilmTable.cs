using System.Collections.Concurrent;
using System.Globalization;
using Lightkeel.Numerics;

namespace Lightkeel.Physics.Optics.Films;

/// <summary>
/// Shares of a film in vacuum against incidence and wavelength, with an error proven at places that were not fitted, quick enough for every
/// node of a surface. Stretches of wavelength are tabulated when they are first asked for.
/// </summary>
/// <remarks>Safe to share between threads; the content does not depend on the order of the calls.</remarks>
public sealed class FilmTable
{
    /// <summary>Width of a stretch, relative to the wavelength, where no row of a measured index cuts it.</summary>
    private const double StretchWidth = 0.02;

    // Beyond this many nepers a layer is opaque: what lies behind changes the reflectance by less than 1e-50.
    private const double OpaqueNepers = 60;

    private readonly double _tolerance;
    private readonly double[] _breaks;
    private readonly ConcurrentDictionary<double, Lazy<(double Short, double Long, FilmPanel Panel)>> _panels = new();

    /// <summary>Prepares the table of a film.</summary>
    /// <param name="film">The film, in vacuum on both sides.</param>
    /// <param name="designWavelengthMetres">Wavelength in the laser's frame, m.</param>
    /// <param name="tolerance">Error to reach of each share times the cosine of incidence, which is what counts for power; <see cref="FilmCurve.Error"/> tells what was reached.</param>
    /// <exception cref="ArgumentOutOfRangeException">The film is not known at the wavelength; the message gives the range.</exception>
    public FilmTable(LayeredFilm film, double designWavelengthMetres, double tolerance = 1e-11)
    {
        ArgumentNullException.ThrowIfNull(film);
        _tolerance = Require.Positive(tolerance);
        DesignWavelengthMetres = Require.Positive(designWavelengthMetres);
        _ = film.Answer(1, designWavelengthMetres);
        Film = film.ThinnedWhereOpaque(designWavelengthMetres, OpaqueNepers);
        _breaks = [.. film.Layers.SelectMany(l => l.Index.BreaksMetres).Distinct().Order()];
    }

    /// <summary>The film; opaque layers are cut to a thickness that answers the same.</summary>
    public LayeredFilm Film { get; }

    /// <summary>Wavelength in the laser's frame, m.</summary>
    public double DesignWavelengthMetres { get; }

    /// <summary>The shares against incidence at the wavelength that the sail sees.</summary>
    /// <param name="stretch">Wavelength at the sail over that of the laser, more than zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The film is not known at that wavelength.</exception>
    /// <exception cref="ArithmeticException">The film is too thick for the table.</exception>
    public FilmCurve At(double stretch)
    {
        Require.Positive(stretch);
        double wavelength = stretch * DesignWavelengthMetres;
        int index = (int)Math.Floor(Math.Log(stretch) / StretchWidth + 0.5);
        double low = DesignWavelengthMetres * Math.Exp((index - 0.5) * StretchWidth);
        double high = DesignWavelengthMetres * Math.Exp((index + 0.5) * StretchWidth);
        foreach (double cut in _breaks)
        {
            low = cut <= wavelength ? Math.Max(low, cut) : low;
            high = cut > wavelength ? Math.Min(high, cut) : high;
        }
        (double from, double to, FilmPanel panel) = _panels
            .GetOrAdd(low, _ => new(() => Build(low, high), LazyThreadSafetyMode.ExecutionAndPublication))
            .Value;
        return panel.At(Math.Clamp((2 * wavelength - from - to) / (to - from), -1, 1));
    }

    private (double, double, FilmPanel) Build(double low, double high)
    {
        low = Math.Max(low, Film.ShortestMetres);
        high = Math.Min(high, Film.LongestMetres);
        return low < high
            ? (low, high, FilmPanel.Fit(Film, low, high, _tolerance))
            : throw new ArgumentOutOfRangeException(
                nameof(low),
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"The film meets light of {1e6 * low:G5} um, but its refractive indices are known from {1e6 * Film.ShortestMetres:G5} to {1e6 * Film.LongestMetres:G5} um."
                )
            );
    }
}
