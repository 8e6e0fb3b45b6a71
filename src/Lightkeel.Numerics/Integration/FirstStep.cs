namespace Lightkeel.Numerics.Integration;

/// <summary>Chooses the first step from the size of the state, its rate, and the change of the rate over a trial step.</summary>
/// <remarks>
/// Source: Solving Ordinary Differential Equations I: Nonstiff Problems, 2nd revised ed., Springer (1993), section II.4
/// (starting step size), doi:10.1007/978-3-540-78862-1. Costs one evaluation.
/// </remarks>
internal static class FirstStep
{
    /// <summary>A first step, positive, at most <paramref name="longest"/>.</summary>
    public static double Choose<TSteps>(
        ref TSteps steps,
        double time,
        Tolerance tolerance,
        double direction,
        double longest
    )
        where TSteps : IAdaptiveSteps, allows ref struct
    {
        ReadOnlySpan<double> y = steps.State;
        ReadOnlySpan<double> rate = steps.StartRate;
        double size = tolerance.LargestRatio(y, y);
        double slope = tolerance.LargestRatio(rate, y);
        double guess = size < 1e-5 || slope < 1e-5 ? 1e-6 : 0.01 * (size / slope);
        guess = Math.Min(guess > 0 ? guess : 1e-6, longest);

        double[] trial = new double[steps.Dimension];
        double[] trialRate = new double[steps.Dimension];
        for (int i = 0; i < trial.Length; i++)
        {
            trial[i] = y[i] + direction * guess * rate[i];
        }
        steps.Rate(time + direction * guess, trial, trialRate);
        for (int i = 0; i < trial.Length; i++)
        {
            trialRate[i] -= rate[i];
        }
        double bend = tolerance.LargestRatio(trialRate, y) / guess;
        if (!double.IsFinite(bend))
        {
            return guess;
        }
        double steepest = Math.Max(slope, bend);
        double byBend =
            steepest <= 1e-15 ? Math.Max(1e-6, guess * 1e-3) : Math.Pow(0.01 / steepest, 1.0 / steps.EstimatePower);
        return Math.Min(longest, Math.Min(100 * guess, byBend));
    }
}
