using Lightkeel.Numerics.Sampling.Distributions;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Sections;

namespace Lightkeel.Studies.Models;

/// <summary>A number of the design that differs, with its distribution in SI units.</summary>
/// <param name="Path">Its dotted path.</param>
/// <param name="Spread">The spread as written.</param>
/// <param name="Law">Its distribution.</param>
public sealed record ScatterLaw(string Path, string Spread, Distribution Law);

/// <summary>The scatters of a design as distributions.</summary>
public static class ScatterLaws
{
    // A truncated normal distribution ends at this many standard deviations.
    private const double CutDeviations = 3;

    /// <summary>Reads the scatters.</summary>
    /// <param name="document">The document whose numbers differ.</param>
    /// <param name="scatters">The scatters.</param>
    /// <exception cref="InputRefusedException">A path or spread is wrong; all faults, with their places.</exception>
    public static IReadOnlyList<ScatterLaw> Of(DesignDocument document, IReadOnlyList<ScatterDesign> scatters)
    {
        ArgumentNullException.ThrowIfNull(document);
        ArgumentNullException.ThrowIfNull(scatters);
        IReadOnlyList<DesignFault> faults = ScatterCheck.FaultsOf(document, scatters);
        return faults.Count > 0
            ? throw new InputRefusedException([
                .. faults.Select(f => new InputFault(f.Position.ToString(), f.What, f.Accepted)),
            ])
            : [.. scatters.Select(s => LawOf(document, s))];
    }

    private static ScatterLaw LawOf(DesignDocument document, ScatterDesign scatter)
    {
        (double value, double spread) = ScatterCheck.NumbersOf(document, scatter);
        Distribution law = scatter.Shape switch
        {
            ScatterShape.Normal => new NormalDistribution(value, spread),
            ScatterShape.Uniform => new UniformDistribution(value - spread, value + spread),
            ScatterShape.Triangular => new TriangularDistribution(value - spread, value, value + spread),
            _ => new TruncatedNormalDistribution(
                value,
                spread,
                value - CutDeviations * spread,
                value + CutDeviations * spread
            ),
        };
        return new(scatter.Path, scatter.Spread, law);
    }
}
