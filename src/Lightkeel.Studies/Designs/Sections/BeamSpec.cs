using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Specification;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>The keys of <c>[beam]</c> and <c>[beam.director]</c>.</summary>
internal static class BeamSpec
{
    private static readonly NumberField Power = new(
        "power",
        NumberKind.Of(Dimension.OfPower, Interval.Positive),
        "Power of the beam over the infinite plane."
    );

    private static readonly NumberField Wavelength = new(
        "wavelength",
        NumberKind.Of(Dimension.OfLength, Interval.Positive, "1.064 um", "um"),
        "Wavelength of the light in the frame of the laser."
    );

    private static readonly NumberField Aperture = new(
        "aperture",
        NumberKind.Of(Dimension.OfLength, Interval.Positive, "4 m"),
        "Diameter of the aperture that sends the beam; it holds the spot out to where diffraction allows."
    );

    private static readonly NumberField Standoff = new(
        "standoff",
        NumberKind.Of(Dimension.OfLength, Interval.Positive, "400 km"),
        "Distance from the aperture to the craft at the start of the boost."
    );

    private static readonly TableField<DirectorDesign> Director = new(
        "director",
        new TableSpec<DirectorDesign>(
            "Where the light comes from; without it the beam keeps its size at any distance.",
            [Aperture, Standoff],
            t => new() { ApertureMetres = t.Get(Aperture), StandoffMetres = t.Get(Standoff) }
        ),
        TablePresence.Optional
    );

    /// <summary>The section.</summary>
    public static TableField<BeamDesign> Section { get; } =
        new(
            "beam",
            new TableSpec<BeamDesign>(
                "The beam that pushes the craft.",
                [Power, Wavelength, ProfileSpec.Choice, Director],
                t =>
                    new()
                    {
                        PowerWatts = t.Get(Power),
                        WavelengthMetres = t.Get(Wavelength),
                        Profile = ProfileSpec.Choice.Read(t)!,
                        Director = t.Get(Director),
                    }
            ),
            TablePresence.Required
        );
}
