using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure;

/// <summary>Small shares of light that pass a film or scatter inside a bowl and meet the craft again, which the force law leaves out.</summary>
internal static class RegimeStray
{
    public static string? Caution(IReadOnlyList<PlacedSurface> surfaces)
    {
        List<string> sentences = [];
        foreach (PlacedSurface surface in surfaces.Where(s => !s.Shape.IsFlat || surfaces.Count > 1))
        {
            double passed = surface.Optics.Passed;
            double scattered = surface.Shape.IsConcaveToLaser ? surface.Optics.Diffuse : 0;
            if (passed > RegimeOfSurface.NoShare)
            {
                sentences.Add(Sentence(surface.Name, passed, "passes", "may meet the craft behind it"));
            }
            if (scattered > RegimeOfSurface.NoShare)
            {
                sentences.Add(Sentence(surface.Name, scattered, "is scattered by", "may meet the bowl again"));
            }
        }
        return sentences.Count > 0 ? string.Join(' ', sentences) : null;
    }

    private static string Sentence(string name, double share, string what, string where) =>
        FormattableString.Invariant(
            $"{share:P2} of the light {what} '{name}' and {where}, which the force law does not follow: up to {2 * share:P1} of the momentum of the light that it meets."
        );
}
