using Lightkeel.Numerics;

namespace Lightkeel.Physics.Stability;

/// <summary>One number of a design, its present value and the range in which it may move.</summary>
/// <param name="Name">The number's name or dotted path.</param>
/// <param name="Present">Present value.</param>
/// <param name="Smallest">Smallest allowed value.</param>
/// <param name="Largest">Largest allowed value.</param>
public sealed record DesignNumber(string Name, double Present, double Smallest, double Largest)
{
    internal void Check()
    {
        Require.Finite(Smallest);
        Require.Finite(Largest);
        Require.Between(Present, Smallest, Largest);
        if (!(Smallest < Largest))
        {
            throw new ArgumentException($"The range of {Name} is empty: {Smallest} to {Largest}.");
        }
    }
}

/// <summary>How far a number may move in one direction before the verdict changes.</summary>
/// <param name="ChangeAt">Value at which the verdict changes; null when it does not within what could be searched.</param>
/// <param name="Uncertainty">Half width of the interval that encloses the change, in the number's unit; zero when there is none.</param>
/// <param name="Becomes">Verdict beyond the change; null when there is none.</param>
/// <param name="SearchedTo">The farthest value with a verdict.</param>
/// <param name="Sentence">The finding in words.</param>
public sealed record MarginSide(
    double? ChangeAt,
    double Uncertainty,
    StabilityVerdict? Becomes,
    double SearchedTo,
    string Sentence
)
{
    /// <summary>Value beyond which nothing could be computed, where that ended the search; null otherwise.</summary>
    public double? NotComputableBeyond { get; init; }
}

/// <summary>How one mode answers to a change of the number.</summary>
/// <param name="Mode">The mode at the present value.</param>
/// <param name="FrequencySlope">d(frequency)/d(number), Hz per unit of the number; null where it does not exist.</param>
/// <param name="FrequencySlopeError">Estimated error of it.</param>
/// <param name="GrowthSlope">d(growth)/d(number), 1/s per unit of the number; null where it does not exist.</param>
/// <param name="GrowthSlopeError">Estimated error of it.</param>
/// <param name="Reason">Why there is no slope; null where there is one.</param>
public sealed record ModeSensitivity(
    StabilityMode Mode,
    double? FrequencySlope,
    double FrequencySlopeError,
    double? GrowthSlope,
    double GrowthSlopeError,
    string? Reason
);

/// <summary>Margins and sensitivities of one number of a design.</summary>
/// <param name="Number">The number.</param>
/// <param name="Verdict">Verdict at its present value.</param>
/// <param name="Downward">Margin towards smaller values.</param>
/// <param name="Upward">Margin towards larger values.</param>
/// <param name="Sensitivities">One per mode at the present value, in the report's order.</param>
/// <param name="Evaluations">How often the analysis ran for this number.</param>
public sealed record StabilityMargin(
    DesignNumber Number,
    StabilityVerdict Verdict,
    MarginSide Downward,
    MarginSide Upward,
    IReadOnlyList<ModeSensitivity> Sensitivities,
    int Evaluations
);
