using Lightkeel.Numerics;
using Lightkeel.Physics.Beams;

namespace Lightkeel.Physics.Motion;

/// <summary>Where the light comes from, and how the spot grows with range.</summary>
/// <remarks>
/// Model: the director focuses the designed profile onto the craft as far as its aperture allows, L_hold = π D w_σ/(2λ),
/// the range at which a Gaussian that fills the aperture (1/e² radius D/2) comes to a waist w_σ, the second-moment radius
/// of the profile. Beyond, the profile keeps its form and grows as L/L_hold; its power stays. An assumption for other
/// profiles than the Gaussian, whose form would change with diffraction. Source of the waist: Lasers (University Science
/// Books, 1986), chapter 17.
/// </remarks>
public sealed record BeamDirector
{
    /// <summary>A director for one beam.</summary>
    /// <param name="apertureMetres">Diameter of the sending aperture, m.</param>
    /// <param name="standoffMetres">Distance from the aperture to the craft's start, m.</param>
    /// <param name="beam">The beam: its wavelength and second-moment radius set the holding range.</param>
    /// <exception cref="ArgumentException">A length is not positive, or the profile has no finite second moment.</exception>
    public BeamDirector(double apertureMetres, double standoffMetres, Beam beam)
    {
        ArgumentNullException.ThrowIfNull(beam);
        ApertureMetres = Require.Positive(apertureMetres);
        StandoffMetres = Require.Positive(standoffMetres);
        double radius = SecondMomentRadius.Of(beam.Profile);
        HoldRangeMetres = Math.PI * apertureMetres * radius / (2 * beam.WavelengthMetres);
    }

    /// <summary>Diameter of the sending aperture, m.</summary>
    public double ApertureMetres { get; }

    /// <summary>Distance from the aperture to the craft's start, m.</summary>
    public double StandoffMetres { get; }

    /// <summary>Range out to which the designed profile is held, m.</summary>
    public double HoldRangeMetres { get; }

    /// <summary>Distance from the start at which the spot begins to grow, m; negative when it is past that at the start.</summary>
    public double HoldDistanceMetres => HoldRangeMetres - StandoffMetres;

    /// <summary>Size of the beam over its designed size at a distance from the start.</summary>
    /// <param name="distanceMetres">Distance along the beam from the start, m.</param>
    public double ScaleAt(double distanceMetres) => Math.Max(1, GrownScaleAt(distanceMetres));

    /// <summary>The growing law alone, also where the spot is held.</summary>
    internal double GrownScaleAt(double distanceMetres) => (StandoffMetres + distanceMetres) / HoldRangeMetres;
}
