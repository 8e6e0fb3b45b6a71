using Lightkeel.Numerics.Sampling.Spectra;

namespace Lightkeel.Physics.Chance;

/// <summary>What a noise shakes, and in which unit.</summary>
public enum NoiseQuantity
{
    /// <summary>The beam's axis at the craft, along x and y alike, m.</summary>
    PointingLength,

    /// <summary>The beam's direction at its director, about x and y alike, rad; the range makes lengths of it.</summary>
    PointingAngle,

    /// <summary>The power, relative to what is scheduled.</summary>
    Power,

    /// <summary>The width of the beam, relative to what it would be; the power is kept.</summary>
    Width,

    /// <summary>The centre of mass across the body axis, along body x and y alike, in largest radii of the craft.</summary>
    Imbalance,
}

/// <summary>One noise with its one-sided power spectral density.</summary>
/// <param name="Name">
/// Its name among the noises of a design: it chooses the random numbers, so that a noise keeps its course when others come and go.
/// </param>
/// <param name="Quantity">What it shakes.</param>
/// <param name="Spectrum">Its density, per axis where there are two, in the unit of the quantity squared per hertz.</param>
public sealed record NoiseSource(string Name, NoiseQuantity Quantity, PowerSpectralDensity Spectrum)
{
    /// <summary>True for noises of the beam, false for those of the craft.</summary>
    public bool IsOfBeam => Quantity != NoiseQuantity.Imbalance;
}
