namespace Lightkeel.Studies.Designs.Sections;

/// <summary>What is unsteady.</summary>
public enum NoiseSource
{
    /// <summary>The lateral place of the beam.</summary>
    Pointing,

    /// <summary>The power of the beam, relative to its mean.</summary>
    Power,

    /// <summary>The width of the beam, relative to its mean.</summary>
    Width,

    /// <summary>The balance of the spinning craft, relative.</summary>
    Imbalance,
}

/// <summary>What the noise is measured in.</summary>
public enum NoiseMeasure
{
    /// <summary>A length at the sail, m; densities in m²/Hz.</summary>
    Length,

    /// <summary>An angle at the director, rad; densities in rad²/Hz.</summary>
    Angle,

    /// <summary>A fraction of the mean; densities in 1/Hz.</summary>
    Relative,
}

/// <summary>One source of noise with its one-sided power spectral density.</summary>
public sealed record NoiseDesign
{
    /// <summary>Its name, if it has one.</summary>
    public string? Name { get; init; }

    /// <summary>What is unsteady.</summary>
    public required NoiseSource Source { get; init; }

    /// <summary>How the noise is spread over frequency.</summary>
    public required SpectrumDesign Spectrum { get; init; }
}

/// <summary>A one-sided power spectral density S(f).</summary>
public abstract record SpectrumDesign
{
    /// <summary>What the noise is measured in: the unit of the densities below.</summary>
    public required NoiseMeasure Measure { get; init; }
}

/// <summary>Constant up to a corner, nothing above it.</summary>
public sealed record WhiteSpectrumDesign : SpectrumDesign
{
    /// <summary>Density, in the measure's unit squared per Hz.</summary>
    public required double DensityPerHertz { get; init; }

    /// <summary>Corner frequency, Hz.</summary>
    public required double CornerHertz { get; init; }
}

/// <summary><c>S = density (f/reference)^exponent</c> between two frequencies, nothing outside them.</summary>
public sealed record PowerLawSpectrumDesign : SpectrumDesign
{
    /// <summary>Density at the reference frequency, in the measure's unit squared per Hz.</summary>
    public required double DensityPerHertz { get; init; }

    /// <summary>Reference frequency, Hz.</summary>
    public required double ReferenceHertz { get; init; }

    /// <summary>Exponent; negative for noise that falls with frequency.</summary>
    public required double Exponent { get; init; }

    /// <summary>Lower end, Hz.</summary>
    public required double LowHertz { get; init; }

    /// <summary>Upper end, Hz.</summary>
    public required double HighHertz { get; init; }
}

/// <summary>Von Karman tilt of air moving across the beam.</summary>
public sealed record VonKarmanSpectrumDesign : SpectrumDesign
{
    /// <summary>Root mean square over all frequencies, in the measure's unit.</summary>
    public required double Rms { get; init; }

    /// <summary>Outer scale, m.</summary>
    public required double OuterScaleMetres { get; init; }

    /// <summary>Speed of the air across the beam, m/s.</summary>
    public required double WindMetresPerSecond { get; init; }

    /// <summary>Diameter over which the tilt is averaged, m; null when it is that of the director.</summary>
    public double? ApertureMetres { get; init; }
}

/// <summary>A narrow line.</summary>
public sealed record LineSpectrumDesign : SpectrumDesign
{
    /// <summary>Centre frequency, Hz.</summary>
    public required double FrequencyHertz { get; init; }

    /// <summary>Full width at half maximum, Hz.</summary>
    public required double WidthHertz { get; init; }

    /// <summary>Root mean square of the whole line, in the measure's unit.</summary>
    public required double Rms { get; init; }
}

/// <summary>A measured spectrum.</summary>
public sealed record TableSpectrumDesign : SpectrumDesign
{
    /// <summary>Frequencies, strictly increasing, Hz.</summary>
    public required IReadOnlyList<double> FrequenciesHertz { get; init; }

    /// <summary>Densities there, not negative, in the measure's unit squared per Hz.</summary>
    public required IReadOnlyList<double> DensitiesPerHertz { get; init; }
}
