using Lightkeel.Numerics.Sampling.Spectra;

namespace Lightkeel.Physics.Chance.Escape;

/// <summary>How a noise acts on a craft in a well.</summary>
public enum WellAction
{
    /// <summary>Shakes the well across the beam, along x and y alike and independent; in m.</summary>
    Shake,

    /// <summary>Multiplies the well: relative power.</summary>
    Depth,

    /// <summary>Widens the well: relative width of the beam, its power kept.</summary>
    Width,
}

/// <summary>A noise that acts on a craft in a well.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Action">What it does.</param>
/// <param name="Spectrum">One-sided density, unit²/Hz.</param>
/// <param name="Factor">Makes m² of the density's unit² for shakes; 1 for others.</param>
/// <param name="ShiftHertz">
/// Spin of the craft for a noise that turns with it: its lines appear at f ± spin, half of the density at each.
/// </param>
public sealed record WellNoise(
    string Name,
    WellAction Action,
    PowerSpectralDensity Spectrum,
    double Factor = 1,
    double ShiftHertz = 0
)
{
    /// <summary>Mean density in a band about a frequency, in the unit of the action squared per hertz.</summary>
    /// <param name="hertz">Middle of the band, Hz, zero or more.</param>
    /// <param name="half">Half of its width, Hz, above zero.</param>
    public double Mean(double hertz, double half) =>
        ShiftHertz == 0
            ? Factor * Band(hertz, half)
            : 0.5 * Factor * (Band(Math.Abs(hertz - ShiftHertz), half) + Band(hertz + ShiftHertz, half));

    private double Band(double hertz, double half)
    {
        double from = Math.Max(0, hertz - half);
        double to = hertz + half;
        return Spectrum.Variance(from, to) / (to - from);
    }
}
