using Lightkeel.Physics.Limits.Hazard;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Studies.Check;

/// <summary>Cautions for a beam of this power, and indicative distances.</summary>
internal static class SurvivalHazards
{
    private static readonly string[] Always =
    [
        "An open beam of this power blinds at once, also by diffuse reflection, burns skin, and sets things on fire.",
        "Whatever is said here is for design, not for safety: exposure, enclosures, interlocks and clearances are planned by a laser safety officer under IEC 60825-1 and local law, and only licensed people operate such a beam.",
    ];

    public static IReadOnlyList<string> Of(SurvivalScene scene)
    {
        List<string> texts = [.. Always];
        if (scene.Films.Any(f => !f.Surface.Shape.IsFlat))
        {
            texts.Insert(
                1,
                "A curved sail throws light to the sides and, hollow, into a focus; where to changes as it moves, tears or burns."
            );
        }
        if (scene.Model.Design.Surroundings.GravityMetresPerSecondSquared > 0)
        {
            texts.Insert(
                texts.Count - 1,
                "A rig: enclose the whole path, end it in a dump made for its power; vacuum vessels can implode, windows crack under absorbed light, films and dust burn, a falling craft turns the beam anywhere."
            );
        }
        else
        {
            texts.Insert(
                texts.Count - 1,
                "What passes the craft, and what it reflects, reaches aircraft and satellites: the path has to be cleared with those who guard them."
            );
        }
        if (EyeHazard.ExposureLimit(scene.Model.Beam.WavelengthMetres) is { } limit)
        {
            texts.Insert(
                texts.Count - 1,
                FormattableString.Invariant(
                    $"Nominal hazard distances are indicative only: where the irradiance falls to {limit:G3} W/m^2 ({EyeHazard.Source}); sqrt(2 P/(pi L))/theta for the direct beam, theta the 1/e^2 half-angle of diffraction from the director (Lasers, University Science Books, 1986, chapter 17), (R/2) sqrt(I/L) for a ball, L the limit; no optics, scanning, skin or air in them."
                )
            );
        }
        return texts;
    }

    /// <summary>Nominal hazard distances, m, with the reason where there is none.</summary>
    public static (double? Direct, string? WhyNot, double? Reflected, string? WhyNone) Distances(SurvivalScene scene)
    {
        double wavelength = scene.Model.Beam.WavelengthMetres;
        if (EyeHazard.ExposureLimit(wavelength) is not { } limit)
        {
            const string None = "No exposure limit is held for this wavelength; IEC 60825-1 has it.";
            return (null, None, null, None);
        }
        double? direct = scene.Model.Design.Beam.Director is { } director
            ? EyeHazard.DirectMetres(
                scene.Model.Beam.PowerWatts,
                2 * wavelength / (Math.PI * director.ApertureMetres),
                limit
            )
            : null;
        SurvivalFilm? ball = scene.Films.FirstOrDefault(f => f.Surface.Shape is Sphere);
        double? reflected = ball is null
            ? null
            : EyeHazard.ReflectedByBallMetres(
                ball.Surface.Shape.MaximumRadiusMetres,
                SurvivalBeam.PeakIrradiance(scene.Model.Beam),
                limit
            );
        return (
            direct,
            direct is null
                ? "There is no [beam.director]: the beam of the model never spreads, so no distance is far enough."
                : null,
            reflected,
            reflected is null
                ? "Only a ball spreads its light evenly; other shapes can throw it all one way, as far as the direct beam."
                : null
        );
    }
}
