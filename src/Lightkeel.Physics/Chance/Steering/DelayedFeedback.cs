using System.Numerics;
using Lightkeel.Numerics;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Chance.Steering;

/// <summary>A craft whose beam is steered by what was seen of it some time ago: x″ + s x = −p x(t − τ) − d x′(t − τ).</summary>
/// <param name="StiffnessPerSecondSquared">s: ω² of a swing, below zero for a craft that is pushed off, zero for a free one; 1/s².</param>
/// <param name="PlaceGain">p, 1/s².</param>
/// <param name="RateGain">d, 1/s.</param>
/// <remarks>
/// Its motions are e^{λt} with λ² + s + (p + d λ) e^{−λτ} = 0. As τ grows from zero, roots cross the imaginary axis only where
/// ω⁴ − (2 s + d²) ω² + s² − p² = 0, at the delays that match the phase there; the crossing goes outward where the left side
/// rises with ω² (<i>Delay Differential Equations and Applications to Biology</i>, Springer, 2021, ch. 2; the same rule in SIAM
/// Journal on Mathematical Analysis 33, 1144–1165 (2002), doi:10.1137/S0036141000376086). Closed form, exact.
/// </remarks>
public sealed record DelayedFeedback(double StiffnessPerSecondSquared, double PlaceGain, double RateGain)
{
    /// <summary>True when all motions die away without delay.</summary>
    public bool HoldsWithoutDelay => RateGain > 0 && StiffnessPerSecondSquared + PlaceGain > 0;

    /// <summary>The delays at which a pair of roots crosses the imaginary axis, up to a longest delay, ascending.</summary>
    /// <param name="longestSeconds">Longest delay looked at, s.</param>
    /// <returns>Delay, s; angular frequency there, rad/s; whether the pair becomes a growing one.</returns>
    public IReadOnlyList<(double DelaySeconds, double RadiansPerSecond, bool Outward)> Crossings(double longestSeconds)
    {
        Require.NotNegative(longestSeconds);
        double s = StiffnessPerSecondSquared;
        double half = s + 0.5 * RateGain * RateGain;
        double root = half * half - s * s + PlaceGain * PlaceGain;
        List<(double, double, bool)> found = [];
        if (root < 0)
        {
            return found;
        }
        foreach (double sign in (ReadOnlySpan<double>)[1, -1])
        {
            double square = half + sign * Math.Sqrt(root);
            if (!(square > 0))
            {
                continue;
            }
            double w = Math.Sqrt(square);
            // e^{−iωτ} = (ω² − s)/(p + i d ω).
            Complex phase = new Complex(square - s, 0) / new Complex(PlaceGain, RateGain * w);
            double turn = -phase.Phase;
            turn = turn < 0 ? turn + 2 * Math.PI : turn;
            for (double tau = turn / w; tau <= longestSeconds; tau += 2 * Math.PI / w)
            {
                found.Add((tau, w, sign > 0));
            }
        }
        return [.. found.OrderBy(f => f.Item1)];
    }

    /// <summary>Longest delay up to which all motions die away, s; null where they do at any delay, zero where not even without.</summary>
    public double? CriticalDelaySeconds
    {
        get
        {
            if (!HoldsWithoutDelay)
            {
                return 0;
            }
            double longest =
                4 * Math.PI / Math.Sqrt(Math.Max(Math.Abs(StiffnessPerSecondSquared), PlaceGain + RateGain * RateGain));
            for (int doubling = 0; doubling < 12; doubling++)
            {
                foreach ((double delay, double _, bool outward) in Crossings(longest))
                {
                    if (outward)
                    {
                        return delay;
                    }
                }
                longest *= 2;
            }
            return null;
        }
    }

    /// <summary>How many pairs of growing motions there are at a delay; zero where the loop holds.</summary>
    /// <param name="delaySeconds">Delay τ, s.</param>
    public int GrowingPairs(double delaySeconds)
    {
        int pairs = HoldsWithoutDelay ? 0 : 1;
        foreach ((double _, double _, bool outward) in Crossings(delaySeconds))
        {
            pairs += outward ? 1 : -1;
        }
        return Math.Max(0, pairs);
    }
}

/// <summary>How far away steering from the source can still hold or damp a craft.</summary>
/// <remarks>
/// The delay is the light's way there and back and the time to sense and act. For one motion of the craft: a swing is damped by
/// feeding back its rate as it was while the delay is below a quarter of its period; a loop that also knows the frequency may turn
/// the phase, which needs the frequency to a quarter turn over the delay. A motion that grows, e^{σt}, cannot be held by any
/// gain beyond στ = 1 for a growing swing (the pole c′ = σ c + k c(t − τ) has a stable k only below it) and στ = √2 for a craft
/// that is pushed off, x″ = σ² x (<i>Semi-Discretization for Time-Delay Systems</i>, Springer, 2011, ch. 2). Closed forms.
/// </remarks>
public static class SteeringReach
{
    /// <summary>Delay of a loop at a range, s.</summary>
    /// <param name="rangeMetres">Range, m.</param>
    /// <param name="sensingSeconds">Time to sense and act, s.</param>
    public static double DelaySeconds(double rangeMetres, double sensingSeconds) =>
        2 * Require.NotNegative(rangeMetres) / Illumination.LightSpeed + Require.NotNegative(sensingSeconds);

    /// <summary>Range up to which rate feedback damps a swing, m; zero where sensing alone takes too long.</summary>
    /// <param name="hertz">Frequency, Hz.</param>
    /// <param name="sensingSeconds">Time to sense and act, s.</param>
    public static double DampingRangeMetres(double hertz, double sensingSeconds) =>
        RangeFor(0.25 / Require.Positive(hertz), sensingSeconds);

    /// <summary>Range beyond which no linear feedback holds a growing motion, m.</summary>
    /// <param name="growthPerSecond">Growth σ, 1/s, above zero.</param>
    /// <param name="swings">True for a growing swing, false for a craft that is pushed off.</param>
    /// <param name="sensingSeconds">Time to sense and act, s.</param>
    public static double HoldingRangeMetres(double growthPerSecond, bool swings, double sensingSeconds) =>
        RangeFor((swings ? 1 : Math.Sqrt(2)) / Require.Positive(growthPerSecond), sensingSeconds);

    private static double RangeFor(double delay, double sensing) =>
        Math.Max(0, 0.5 * Illumination.LightSpeed * (delay - Require.NotNegative(sensing)));
}
