using Lightkeel.Numerics.Sampling.Distributions;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Sections;
using Lightkeel.Studies.Designs.Specification;

namespace Lightkeel.Studies.Models;

/// <summary>A number of the design that differs, with its distribution in SI units.</summary>
/// <param name="Path">Its dotted path.</param>
/// <param name="Spread">The spread as written.</param>
/// <param name="Law">Its distribution.</param>
public sealed record ScatterLaw(string Path, string Spread, Distribution Law);

/// <summary>The scatters of a design as distributions.</summary>
public static class ScatterLaws
{
    private const double CutDeviations = 3;

    /// <summary>Reads the scatters.</summary>
    /// <param name="document">The document whose numbers differ.</param>
    /// <param name="scatters">The scatters.</param>
    /// <exception cref="InputRefusedException">A path or spread is wrong.</exception>
    public static IReadOnlyList<ScatterLaw> Of(DesignDocument document, IReadOnlyList<ScatterDesign> scatters)
    {
        ArgumentNullException.ThrowIfNull(document);
        ArgumentNullException.ThrowIfNull(scatters);
        return [.. scatters.Select(s => LawOf(document, s))];
    }

    private static ScatterLaw LawOf(DesignDocument document, ScatterDesign scatter)
    {
        string where = $"scatter of {scatter.Path}";
        DesignNumber? number = document.Numbers.FirstOrDefault(n => n.Path == scatter.Path);
        double spread;
        try
        {
            spread = document.ParseNumber(scatter.Path, scatter.Spread);
        }
        catch (DesignFaultException e)
        {
            throw new InputRefusedException(where, e.Faults[0].What, e.Faults[0].Accepted);
        }
        if (number is null)
        {
            throw new InputRefusedException(where, "the design does not give this number", "write its value first");
        }
        if (!(spread > 0))
        {
            throw new InputRefusedException(where, $"the spread {scatter.Spread} is not above zero");
        }
        double value = number.SiValue;
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
