namespace Lightkeel.Numerics.Integration;

/// <summary>
/// Proportional–integral step control: the next step follows the error of this step and, damped, of the one before, which
/// keeps the steps smooth where an error-only rule would hunt.
/// </summary>
/// <remarks>
/// h' = h · safety · r^(−α) · r₋^β with r the error ratio, r₋ that of the last accepted step, k the estimate's power,
/// β = 0.2/k and α = 1/k − 0.75 β; a rejected step shrinks by safety·r^(−1/k), and the step after it does not grow.
/// Sources: ACM Transactions on Mathematical Software 17(4), 533–554 (1991), doi:10.1145/210232.210242; Solving Ordinary
/// Differential Equations II, 2nd ed., Springer (1996), section IV.2, doi:10.1007/978-3-642-05221-7. Safety factor and
/// limits: common practice, no source. Holds the memory of one run: one per worker.
/// </remarks>
/// <param name="largestGrowth">By how much a step may be longer than the one before, above one.</param>
public sealed class PiStepController(double largestGrowth = 8) : IStepController
{
    private const double Safety = 0.9;
    private const double LargestShrink = 0.2;
    private const double ShrinkWhenNotFinite = 0.1;
    private const double SmallestRemembered = 1e-4;
    private double _previousRatio = 1;
    private bool _justRejected;

    /// <inheritdoc/>
    public void Reset()
    {
        _previousRatio = 1;
        _justRejected = false;
    }

    /// <inheritdoc/>
    public StepDecision Decide(double step, double errorRatio, int estimatePower)
    {
        if (!double.IsFinite(errorRatio))
        {
            _justRejected = true;
            return new(false, ShrinkWhenNotFinite * step);
        }
        if (errorRatio > 1)
        {
            _justRejected = true;
            return new(false, Math.Max(LargestShrink, Safety * Math.Pow(errorRatio, -1.0 / estimatePower)) * step);
        }
        double beta = 0.2 / estimatePower;
        double alpha = 1.0 / estimatePower - 0.75 * beta;
        double factor =
            errorRatio == 0 ? largestGrowth : Safety * Math.Pow(errorRatio, -alpha) * Math.Pow(_previousRatio, beta);
        factor = Math.Clamp(factor, LargestShrink, _justRejected ? 1 : largestGrowth);
        _previousRatio = Math.Max(errorRatio, SmallestRemembered);
        _justRejected = false;
        return new(true, factor * step);
    }
}
