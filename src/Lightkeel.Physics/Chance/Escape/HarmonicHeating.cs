using Lightkeel.Numerics;

namespace Lightkeel.Physics.Chance.Escape;

/// <summary>What noise does to an undamped harmonic oscillator, in closed form. One-sided densities.</summary>
/// <remarks>
/// A white displacement of the well of density S drives x″ = −ω² (x − ξ): the mean energy grows by m ω⁴ S/4, and with it the
/// squared amplitude by ω² S/2 for each axis; by the optional stopping of that mean, the mean time until the energy of one axis
/// reaches that of amplitude a is 2 a²/(ω² S), and a²/(ω² S) for two. Relative power makes the mean energy grow as exp(Γ t) with
/// Γ = π² f² S(2f): Physical Review A 56, R1095–R1098 (1997), doi:10.1103/PhysRevA.56.R1095.
/// </remarks>
public static class HarmonicHeating
{
    /// <summary>Growth of the mean energy of one axis, W.</summary>
    /// <param name="massKilograms">Mass, kg.</param>
    /// <param name="hertz">Frequency, Hz.</param>
    /// <param name="density">One-sided density of the displacement at that frequency, m²/Hz.</param>
    public static double GrowthWatts(double massKilograms, double hertz, double density)
    {
        double rate = 2 * Math.PI * hertz;
        return 0.25 * Require.Positive(massKilograms) * rate * rate * rate * rate * Require.NotNegative(density);
    }

    /// <summary>Mean time until the energy reaches that of an amplitude, s.</summary>
    /// <param name="amplitudeMetres">Amplitude, m.</param>
    /// <param name="hertz">Frequency, Hz.</param>
    /// <param name="density">One-sided density of the displacement along each axis at that frequency, m²/Hz, above zero.</param>
    /// <param name="axes">1 or 2.</param>
    public static double ExitSeconds(double amplitudeMetres, double hertz, double density, int axes)
    {
        double rate = 2 * Math.PI * Require.Positive(hertz);
        return 2 * amplitudeMetres * amplitudeMetres / (axes * rate * rate * Require.Positive(density));
    }

    /// <summary>Growth rate Γ of the mean energy under relative power, 1/s.</summary>
    /// <param name="hertz">Frequency f, Hz.</param>
    /// <param name="density">One-sided density of the relative power at 2f, 1/Hz.</param>
    public static double ParametricPerSecond(double hertz, double density) =>
        Math.PI * Math.PI * hertz * hertz * Require.NotNegative(density);
}
