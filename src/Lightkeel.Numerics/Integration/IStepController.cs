namespace Lightkeel.Numerics.Integration;

/// <summary>Decides from the error of a step whether to take it and how long the next one should be.</summary>
public interface IStepController
{
    /// <summary>Forgets earlier steps; called when a run starts.</summary>
    void Reset();

    /// <summary>Judges a step.</summary>
    /// <param name="step">Length of the step tried, negative when running backwards.</param>
    /// <param name="errorRatio">Worst error against its tolerance; +∞ when the step left the finite numbers.</param>
    /// <param name="estimatePower">Power of the step with which the error estimate falls.</param>
    StepDecision Decide(double step, double errorRatio, int estimatePower);
}

/// <summary>A controller's verdict on a step.</summary>
/// <param name="Accept">True to take the step.</param>
/// <param name="NextStep">Length to try next, with the sign of the step judged.</param>
public readonly record struct StepDecision(bool Accept, double NextStep);
