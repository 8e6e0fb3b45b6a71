using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Statistics;

/// <summary>Product-limit estimate of a survival curve when some observations stopped before the event came.</summary>
/// <remarks>
/// An observation that stopped at the time of an event counts as at risk for it. Source: Journal of the American
/// Statistical Association 53(282), 457–481 (1958), doi:10.1080/01621459.1958.10501452. Immutable, thread-safe.
/// </remarks>
public sealed class KaplanMeier
{
    private readonly SurvivalStep[] _steps;
    private readonly double _lastTime;

    /// <summary>Estimates the curve.</summary>
    /// <param name="times">When each observation ended, zero or more, finite.</param>
    /// <param name="ended">True where the event came, false where the observation merely stopped.</param>
    /// <exception cref="ArgumentException">There are none, the lengths differ, or a time is negative or not finite.</exception>
    public KaplanMeier(ReadOnlySpan<double> times, ReadOnlySpan<bool> ended)
    {
        (double Time, bool Ended)[] sorted = LifeTable.Sorted(times, ended);
        _lastTime = sorted[^1].Time;
        List<SurvivalStep> steps = [];
        double survival = 1;
        double greenwood = 0;
        for (int i = 0; i < sorted.Length; )
        {
            int next = i;
            int events = 0;
            for (; next < sorted.Length && sorted[next].Time == sorted[i].Time; next++)
            {
                events += sorted[next].Ended ? 1 : 0;
            }
            int atRisk = sorted.Length - i;
            if (events > 0)
            {
                survival = atRisk == events ? 0 : survival * (atRisk - events) / atRisk;
                greenwood += survival > 0 ? events / ((double)atRisk * (atRisk - events)) : 0;
                double error = survival * Math.Sqrt(greenwood);
                steps.Add(new SurvivalStep(sorted[i].Time, atRisk, events, survival, error));
            }
            i = next;
        }
        _steps = [.. steps];
    }

    /// <summary>The drops of the curve in order of time.</summary>
    public ReadOnlySpan<SurvivalStep> Steps => _steps;

    /// <summary>Time of the last observation: the curve is not known beyond it unless it has fallen to zero.</summary>
    public double LastTime => _lastTime;

    /// <summary>Estimated probability to last beyond a time; null beyond the last observation.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The time is negative or not finite.</exception>
    public double? Survival(double time)
    {
        SurvivalStep? step = StepAt(time);
        return time > _lastTime && step?.Survival is not 0.0 ? null : step?.Survival ?? 1;
    }

    /// <summary>Interval for the survival at a time, on the scale ln(−ln S), which keeps it between 0 and 1.</summary>
    /// <remarks>Source: <i>The Statistical Analysis of Failure Time Data</i>, 2nd edition (Wiley, 2002), section 1.4.</remarks>
    /// <returns>The interval; null where the survival is 0, 1 or unknown and the scale has no meaning.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The time or the confidence is out of range.</exception>
    public ConfidenceInterval? Interval(double time, double confidence = 0.95)
    {
        double z = StandardNormal.Quantile(0.5 + Require.OpenFraction(confidence) / 2);
        if (StepAt(time) is not { Survival: > 0 } step || time > _lastTime)
        {
            return null;
        }
        double log = PortableMath.Log(step.Survival);
        double factor = PortableMath.Exp(z * step.StandardError / (step.Survival * -log));
        return new ConfidenceInterval(PortableMath.Exp(log * factor), PortableMath.Exp(log / factor), confidence);
    }

    /// <summary>First time at which the survival is at or below a level; null when it never falls so far.</summary>
    /// <param name="level">Strictly between 0 and 1; one half gives the median time.</param>
    /// <exception cref="ArgumentOutOfRangeException">The level is out of range.</exception>
    public double? TimeToLevel(double level)
    {
        Require.OpenFraction(level);
        foreach (SurvivalStep step in _steps)
        {
            if (step.Survival <= level * (1 + 1e-12))
            {
                return step.Time;
            }
        }
        return null;
    }

    private SurvivalStep? StepAt(double time)
    {
        Require.NotNegative(time);
        SurvivalStep? found = null;
        foreach (SurvivalStep step in _steps)
        {
            if (step.Time > time)
            {
                break;
            }
            found = step;
        }
        return found;
    }
}
