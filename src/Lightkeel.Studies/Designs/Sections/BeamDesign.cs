namespace Lightkeel.Studies.Designs.Sections;

/// <summary>The beam as the file describes it.</summary>
public sealed record BeamDesign
{
    /// <summary>Power over the infinite plane, W.</summary>
    public required double PowerWatts { get; init; }

    /// <summary>Wavelength in the laser's frame, m.</summary>
    public required double WavelengthMetres { get; init; }

    /// <summary>Irradiance across the beam.</summary>
    public required ProfileDesign Profile { get; init; }

    /// <summary>Where the light comes from; null when the beam keeps its size at any distance.</summary>
    public DirectorDesign? Director { get; init; }
}

/// <summary>The optics that send the beam.</summary>
public sealed record DirectorDesign
{
    /// <summary>Diameter of the sending aperture, m.</summary>
    public required double ApertureMetres { get; init; }

    /// <summary>Distance from the aperture to the craft at the start, m.</summary>
    public required double StandoffMetres { get; init; }
}

/// <summary>Irradiance across a beam, up to the factor that its power fixes.</summary>
public abstract record ProfileDesign;

/// <summary>Gaussian.</summary>
public sealed record GaussianProfileDesign : ProfileDesign
{
    /// <summary>1/e² intensity radius, m.</summary>
    public required double WaistMetres { get; init; }
}

/// <summary>Super-Gaussian, <c>exp(-2 (ρ/w)^n)</c>.</summary>
public sealed record SuperGaussianProfileDesign : ProfileDesign
{
    /// <summary>1/e² intensity radius w, m.</summary>
    public required double WaistMetres { get; init; }

    /// <summary>Order n; 2 is the Gaussian.</summary>
    public required double Order { get; init; }
}

/// <summary>Ring, <c>exp(-2 (ρ - r)²/s²)</c>.</summary>
public sealed record RingProfileDesign : ProfileDesign
{
    /// <summary>Radius r of the brightest circle, m.</summary>
    public required double RadiusMetres { get; init; }

    /// <summary>1/e² half-width s, m.</summary>
    public required double WidthMetres { get; init; }
}

/// <summary>Laguerre-Gauss mode, intensity only.</summary>
public sealed record LaguerreGaussProfileDesign : ProfileDesign
{
    /// <summary>1/e² intensity radius of the fundamental mode, m.</summary>
    public required double WaistMetres { get; init; }

    /// <summary>Radial index.</summary>
    public required int P { get; init; }

    /// <summary>Azimuthal index.</summary>
    public required int L { get; init; }
}

/// <summary>Several profiles, each with a share of the power.</summary>
public sealed record SumProfileDesign : ProfileDesign
{
    /// <summary>The parts; their shares sum to one.</summary>
    public required IReadOnlyList<BeamPartDesign> Parts { get; init; }
}

/// <summary>One part of a sum of profiles.</summary>
public sealed record BeamPartDesign
{
    /// <summary>Its name, if it has one.</summary>
    public string? Name { get; init; }

    /// <summary>Its share of the power; may be negative.</summary>
    public required double Share { get; init; }

    /// <summary>Offset of its axis from the beam axis along x, m.</summary>
    public required double OffsetXMetres { get; init; }

    /// <summary>Offset of its axis from the beam axis along y, m.</summary>
    public required double OffsetYMetres { get; init; }

    /// <summary>Its irradiance.</summary>
    public required ProfileDesign Profile { get; init; }
}

/// <summary>A measured profile: relative irradiance against radius.</summary>
public sealed record RadialTableProfileDesign : ProfileDesign
{
    /// <summary>Radii, not negative, strictly increasing, m.</summary>
    public required IReadOnlyList<double> RadiiMetres { get; init; }

    /// <summary>Irradiance at the radii in a unit that does not matter; not negative, not all zero.</summary>
    public required IReadOnlyList<double> RelativeIrradiances { get; init; }
}
