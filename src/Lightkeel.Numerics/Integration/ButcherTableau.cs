namespace Lightkeel.Numerics.Integration;

/// <summary>
/// An explicit embedded Runge–Kutta method as data: coefficients, order, dense output and source. Adding a method is
/// adding numbers; the stepper is written once (<see cref="EmbeddedRungeKutta"/>).
/// </summary>
/// <remarks>
/// <para>
/// Slots of stage rates k_j are numbered in this order: the stages, then the rate at the end of the step (unless the
/// last stage already is that rate), then the stages of the dense output. Rows may be shorter than the number of slots:
/// what is missing counts as zero.
/// </para>
/// <para>
/// Dense output is y(t + θh) = y + θ(F₀ + (1−θ)(F₁ + θ(F₂ + (1−θ)(F₃ + …)))) with F₀ = Δy, F₁ = h f(t) − Δy,
/// F₂ = 2Δy − h(f(t) + f(t+h)) and F₃… = h Σ d_j k_j, one row of <see cref="DenseWeights"/> each. Without rows it is
/// the cubic through both ends.
/// </para>
/// </remarks>
public sealed partial class ButcherTableau
{
    /// <summary>Name for reports.</summary>
    public required string Name { get; init; }

    /// <summary>Order of the advancing formula: the global error falls as the step to this power.</summary>
    public required int Order { get; init; }

    /// <summary>The power of the step with which the local error estimate falls; the controller's exponent.</summary>
    public required int EstimatePower { get; init; }

    /// <summary>Order of the dense output inside a step.</summary>
    public required int DenseOrder { get; init; }

    /// <summary>Nodes c_s, one per stage; the first is 0.</summary>
    public required double[] Nodes { get; init; }

    /// <summary>Rows a_sj of the stages; row s has at most s numbers.</summary>
    public required double[][] Stages { get; init; }

    /// <summary>Weights b_s of the advancing formula.</summary>
    public required double[] Weights { get; init; }

    /// <summary>Weights e_j of the error estimate h Σ e_j k_j.</summary>
    public required double[] ErrorWeights { get; init; }

    /// <summary>
    /// Weights of a second, lower-order estimate c that corrects the first: e²/√(e² + 0.01 c²). Empty where there is one
    /// estimate only.
    /// </summary>
    public double[] CorrectionErrorWeights { get; init; } = [];

    /// <summary>Nodes of the further stages that the dense output needs.</summary>
    public double[] DenseNodes { get; init; } = [];

    /// <summary>Rows of those stages, over all earlier slots.</summary>
    public double[][] DenseStages { get; init; } = [];

    /// <summary>Rows d_j of the dense output's higher terms, over all slots.</summary>
    public double[][] DenseWeights { get; init; } = [];

    /// <summary>Where the numbers were published.</summary>
    public required string Source { get; init; }

    /// <summary>Number of stages of the advancing formula.</summary>
    public int StageCount => Nodes.Length;

    /// <summary>True when the last stage is the rate at the end of the step, so that the next step gets it for nothing.</summary>
    public bool LastStageIsNextRate =>
        Nodes[^1] == 1 && Stages[^1].AsSpan().SequenceEqual(Weights.AsSpan(0, Stages[^1].Length)) && Weights[^1] == 0;

    /// <summary>Slot of the rate at the end of the step.</summary>
    internal int NextRateSlot => LastStageIsNextRate ? StageCount - 1 : StageCount;

    /// <summary>Number of slots in all.</summary>
    internal int SlotCount => NextRateSlot + 1 + DenseNodes.Length;

    /// <summary>True when the error estimate uses the rate at the end of the step.</summary>
    internal bool ErrorUsesNextRate => ErrorWeights.Length > NextRateSlot;

    /// <summary>Refuses a tableau whose numbers do not fit together.</summary>
    /// <exception cref="ArgumentException">Sizes disagree, or a row does not sum to its node, or the weights to one.</exception>
    internal void RequireConsistent()
    {
        if (
            StageCount == 0
            || Stages.Length != StageCount
            || Weights.Length != StageCount
            || DenseStages.Length != DenseNodes.Length
            || ErrorWeights.Length > NextRateSlot + 1
            || CorrectionErrorWeights.Length > NextRateSlot + 1
        )
        {
            throw new ArgumentException($"Tableau '{Name}': the numbers of nodes, rows and weights do not agree.");
        }
        RequireSum(Weights, 1, "weights", StageCount);
        RequireSum(ErrorWeights, 0, "error weights", NextRateSlot + 1);
        for (int s = 0; s < StageCount; s++)
        {
            RequireSum(Stages[s], Nodes[s], $"stage row {s}", s);
        }
        for (int s = 0; s < DenseNodes.Length; s++)
        {
            RequireSum(DenseStages[s], DenseNodes[s], $"dense row {s}", NextRateSlot + 1 + s);
        }
        foreach (double[] row in DenseWeights)
        {
            RequireSum(row, 0, "dense weights", SlotCount);
        }
    }

    // Consistency: constants and straight lines must be integrated exactly. Coefficients reach some hundreds.
    private void RequireSum(double[] row, double expected, string what, int longest)
    {
        double sum = 0;
        double size = 1;
        foreach (double a in row)
        {
            sum += a;
            size += Math.Abs(a);
        }
        if (row.Length > longest || !(Math.Abs(sum - expected) <= 1e-13 * size))
        {
            throw new ArgumentException(
                $"Tableau '{Name}': the {what} sum to {sum:R} in place of {expected:R}, or are more than {longest}."
            );
        }
    }
}
