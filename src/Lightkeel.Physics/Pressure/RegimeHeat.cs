using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Pressure;

/// <summary>Heat that an inner side radiates meets the craft again, while the force law lets all heat leave.</summary>
internal static class RegimeHeat
{
    public static string? Caution(IReadOnlyList<PlacedSurface> surfaces)
    {
        double largest = 0;
        string? name = null;
        foreach (PlacedSurface surface in surfaces)
        {
            double trapped = surface.Optics.Absorbed * InnerShare(surface);
            if (trapped > largest && trapped > RegimeOfSurface.NoShare)
            {
                (largest, name) = (trapped, surface.Name);
            }
        }
        return name is null
            ? null
            : FormattableString.Invariant(
                $"Part of the heat radiated by '{name}' meets the craft again, which the force law does not follow: up to {2.0 / 3 * largest:G2} of the momentum of the light that it meets."
            );
    }

    // Share of the heat that leaves by a side which sees the craft itself.
    private static double InnerShare(PlacedSurface surface)
    {
        double lit = surface.Optics.EmissivityLit;
        double back = surface.Optics.EmissivityBack;
        if (surface.Shape.IsFlat || lit + back <= 0)
        {
            return 0;
        }
        return surface.Shape switch
        {
            Sphere => back / (lit + back),
            _ when RegimeForm.Of(surface.Shape, LitSide.Front).Kind == RegimeFormKind.Dome => back / (lit + back),
            _ when RegimeForm.Of(surface.Shape, LitSide.Back).Kind == RegimeFormKind.Dome => lit / (lit + back),
            _ => 1,
        };
    }
}
