using Lightkeel.Numerics.Sampling.Statistics;

namespace Lightkeel.Numerics.Sampling.Sensitivity;

/// <summary>How much of an output's variance one input brings.</summary>
/// <param name="FirstOrder">Share brought by the input alone (0 to 1 up to sampling error).</param>
/// <param name="FirstOrderInterval">Bootstrap interval of the first-order share.</param>
/// <param name="Total">Share that would vanish, interactions included, if the input were known.</param>
/// <param name="TotalInterval">Bootstrap interval of the total share.</param>
public readonly record struct SensitivityIndex(
    double FirstOrder,
    ConfidenceInterval FirstOrderInterval,
    double Total,
    ConfidenceInterval TotalInterval
);
