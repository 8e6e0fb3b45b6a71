using System.Numerics;
using Lightkeel.Physics.Optics.Indices;

namespace Lightkeel.Physics.Optics.Films;

/// <summary>One homogeneous layer of a film.</summary>
/// <param name="Index">Its refractive index.</param>
/// <param name="ThicknessMetres">Its thickness, m, more than zero.</param>
public sealed record FilmLayer(RefractiveIndex Index, double ThicknessMetres);

/// <summary>Reflected, passed and absorbed shares of light that meets a film; they sum to one.</summary>
/// <param name="Reflected">Share reflected as by a mirror.</param>
/// <param name="Passed">Share passed.</param>
/// <param name="Absorbed">Share absorbed.</param>
public readonly record struct FilmShares(double Reflected, double Passed, double Absorbed)
{
    /// <summary>The mean of two answers, as for unpolarised or circular light.</summary>
    public static FilmShares Mean(in FilmShares a, in FilmShares b) =>
        new(0.5 * (a.Reflected + b.Reflected), 0.5 * (a.Passed + b.Passed), 0.5 * (a.Absorbed + b.Absorbed));
}

/// <summary>What a film does with light of either polarisation.</summary>
/// <param name="Across">Electric field across the plane of incidence (s).</param>
/// <param name="Along">Electric field in the plane of incidence (p).</param>
/// <param name="ReflectedAmplitudes">Amplitude reflectances of s and p.</param>
public readonly record struct FilmAnswer(
    FilmShares Across,
    FilmShares Along,
    (Complex Across, Complex Along) ReflectedAmplitudes
)
{
    /// <summary>Shares of unpolarised light; the same for circular polarisation.</summary>
    public FilmShares Unpolarised => FilmShares.Mean(Across, Along);
}
