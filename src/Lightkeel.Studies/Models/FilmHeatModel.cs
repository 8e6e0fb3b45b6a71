using Lightkeel.Physics.Limits.Heat;
using Lightkeel.Studies.Designs.Sections;

namespace Lightkeel.Studies.Models;

/// <summary>How the shares of a film change with heat and colour, from a design.</summary>
public static class FilmHeatModel
{
    /// <summary>The law of a surface; constant where none is stated.</summary>
    public static HeatLaw LawOf(HeatLawDesign? heat) =>
        heat is null
            ? HeatLaw.Constant
            : new(heat.AbsorptionGrowthPerKelvin, heat.EmissivityExponent, heat.ReferenceKelvin)
            {
                Absorption = TableOf(heat.Absorption),
                EmissivityFront = TableOf(heat.EmissivityLit),
                EmissivityBack = TableOf(heat.EmissivityBack),
            };

    /// <summary>A table of shares; null where none is stated.</summary>
    public static ShareTable? TableOf(SharesDesign? shares) =>
        shares is null ? null : new(shares.Places, shares.Shares);

    /// <summary>Absorbed share of a film that recedes at a rapidity over that at rest, by its table of wavelengths.</summary>
    /// <param name="colour">The table; null for none.</param>
    /// <param name="wavelengthMetres">Wavelength at the source, m.</param>
    /// <param name="rapidity">Rapidity along the beam.</param>
    public static double AbsorptionFactor(ShareTable? colour, double wavelengthMetres, double rapidity) =>
        colour is null ? 1 : colour.At(wavelengthMetres * Math.Exp(rapidity)) / colour.At(wavelengthMetres);
}
