using System.Numerics;

namespace Lightkeel.Physics.Optics.Indices;

/// <summary>One term of a dispersion formula: B λ²/(λ² − C²), or B/(λ² − C²) with λ and C in micrometres.</summary>
/// <param name="Strength">B.</param>
/// <param name="ResonanceMicrometres">C, micrometres.</param>
public readonly record struct DispersionTerm(double Strength, double ResonanceMicrometres);

/// <summary>A fitted dispersion formula without absorption: n² = a + Σ B λ²/(λ² − C²), or n² = a + Σ B/(λ² − C²).</summary>
/// <remarks>The formula of Annalen der Physik 219, 272 (1871), doi:10.1002/andp.18712190612, in both forms in use.</remarks>
public sealed class SellmeierIndex : RefractiveIndex
{
    private readonly double _constant;
    private readonly DispersionTerm[] _terms;
    private readonly bool _overSquare;

    /// <summary>States the formula.</summary>
    /// <param name="shortestMetres">Shortest wavelength of the fit, m.</param>
    /// <param name="longestMetres">Longest wavelength of the fit, m.</param>
    /// <param name="constant">a: one for the form with λ² above.</param>
    /// <param name="terms">The terms.</param>
    /// <param name="overSquare">True for terms B/(λ² − C²), whose B is in µm².</param>
    public SellmeierIndex(
        double shortestMetres,
        double longestMetres,
        double constant,
        IReadOnlyList<DispersionTerm> terms,
        bool overSquare = false
    )
        : base(shortestMetres, longestMetres) => (_constant, _terms, _overSquare) = (constant, [.. terms], overSquare);

    /// <inheritdoc/>
    public override bool IsLossless => true;

    /// <inheritdoc/>
    protected override Complex Inside(double wavelengthMetres)
    {
        double micrometres = 1e6 * wavelengthMetres;
        double square = micrometres * micrometres;
        double sum = _constant;
        foreach ((double strength, double resonance) in _terms)
        {
            sum += strength * (_overSquare ? 1 : square) / (square - resonance * resonance);
        }
        return Math.Sqrt(sum);
    }
}
