using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Specification;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>Whether scatters fit the design that they scatter: paths that lead to numbers, spreads in their units.</summary>
public static class ScatterCheck
{
    /// <summary>What is wrong with scatters of a document; empty when all are sound.</summary>
    /// <param name="document">A document without other faults.</param>
    /// <param name="scatters">The scatters, in their order.</param>
    public static IReadOnlyList<DesignFault> FaultsOf(DesignDocument document, IReadOnlyList<ScatterDesign> scatters)
    {
        ArgumentNullException.ThrowIfNull(document);
        ArgumentNullException.ThrowIfNull(scatters);
        List<DesignFault> faults = [];
        HashSet<string> seen = new(StringComparer.Ordinal);
        foreach (ScatterDesign scatter in scatters)
        {
            if (!seen.Add(scatter.Path))
            {
                faults.Add(
                    new(scatter.PathPosition, $"scatter of {scatter.Path} is given twice", "give each path once")
                );
            }
            else if (FaultOf(document, scatter) is { } fault)
            {
                faults.Add(fault);
            }
        }
        return faults;
    }

    /// <summary>Value and spread of a sound scatter, SI units.</summary>
    internal static (double Value, double Spread) NumbersOf(DesignDocument document, ScatterDesign scatter)
    {
        DesignNumber number = document.Numbers.First(n => n.Path == scatter.Path);
        return (number.SiValue, document.ParseNumber(scatter.Path, scatter.Spread));
    }

    private static DesignFault? FaultOf(DesignDocument document, ScatterDesign scatter)
    {
        double spread;
        try
        {
            // A path that leads nowhere is told first, whatever the spread is.
            spread = document.ParseNumber(scatter.Path, scatter.Spread);
        }
        catch (DesignFaultException e)
        {
            DesignFault fault = e.Faults[0];
            bool leads = document.Numbers.Any(n => n.Path == scatter.Path);
            return leads
                ? new(scatter.SpreadPosition, $"spread of {scatter.Path}: {fault.What}", fault.Accepted)
                : new(scatter.PathPosition, $"scatter of {scatter.Path}: {fault.What}", fault.Accepted);
        }
        return !document.Numbers.Any(n => n.Path == scatter.Path)
                ? new(
                    scatter.PathPosition,
                    $"scatter of {scatter.Path}: the design does not give this number",
                    "write its value first"
                )
            : !(spread > 0)
                ? new(
                    scatter.SpreadPosition,
                    $"spread of {scatter.Path}: {scatter.Spread} is not above zero",
                    "expected a spread above zero, or no scatter"
                )
            : null;
    }
}
