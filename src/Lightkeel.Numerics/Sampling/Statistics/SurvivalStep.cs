namespace Lightkeel.Numerics.Sampling.Statistics;

/// <summary>One drop of a survival curve.</summary>
/// <param name="Time">When, in the unit of the given times.</param>
/// <param name="AtRisk">How many were still observed just before.</param>
/// <param name="Events">How many ended at this time.</param>
/// <param name="Survival">Estimated probability to last beyond this time.</param>
/// <param name="StandardError">Greenwood's standard error of the survival; 0 where it is 0 or 1.</param>
public readonly record struct SurvivalStep(double Time, int AtRisk, int Events, double Survival, double StandardError);
