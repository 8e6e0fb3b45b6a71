using Lightkeel.Numerics;
using Lightkeel.Numerics.Quadrature;

namespace Lightkeel.Physics.Chance.Escape;

/// <summary>Mean time of a diffusion along a line to an end, in closed form as a double integral.</summary>
/// <remarks>
/// The generator (1/w) d/dx (w D d/dx), with w the density at rest and no flow through the start of the line, gives the mean time from
/// x₀ to the end b as ∫ dx/(w D) ∫ w dy, the outer from x₀ to b, the inner from the start to x. Source: <i>Stochastic Methods</i>,
/// 4th ed. (Springer, 2009), § 5.5.2. Pure.
/// </remarks>
public static class FirstPassage
{
    private const int Order = 16;

    /// <summary>The mean time.</summary>
    /// <param name="logWeight">Logarithm of w.</param>
    /// <param name="diffusion">D, above zero inside the line.</param>
    /// <param name="start">Start of the line, through which nothing flows.</param>
    /// <param name="from">x₀.</param>
    /// <param name="end">b, greater.</param>
    /// <param name="panels">Panels of the integrals, 8 or more.</param>
    /// <exception cref="ArgumentException">The places are not in order, or the result is not finite.</exception>
    public static double Mean(
        Func<double, double> logWeight,
        Func<double, double> diffusion,
        double start,
        double from,
        double end,
        int panels = 400
    )
    {
        ArgumentNullException.ThrowIfNull(logWeight);
        ArgumentNullException.ThrowIfNull(diffusion);
        Require.AtLeast(8, panels);
        if (!(start <= from && from < end))
        {
            throw new ArgumentException("The line must begin at or before the place, and end after it.", nameof(from));
        }
        GaussLegendre rule = GaussLegendre.Order(Order);
        // Weights relative to the largest, so that deep wells do not overflow.
        double top = Enumerable.Range(0, panels + 1).Max(i => logWeight(start + (end - start) * i / panels));
        double Weight(double x) => Math.Exp(logWeight(x) - top);
        double inner = 0;
        double outer = 0;
        for (int i = 0; i < panels; i++)
        {
            double left = start + (end - start) * i / panels;
            double right = start + (end - start) * (i + 1) / panels;
            double before = inner;
            double begin = Math.Max(left, from);
            if (begin < right)
            {
                double until = before + (begin > left ? rule.Integrate(Weight, left, begin) : 0);
                outer += rule.Integrate(
                    x => (until + rule.Integrate(Weight, begin, x)) / (Weight(x) * diffusion(x)),
                    begin,
                    right
                );
            }
            inner = before + rule.Integrate(Weight, left, right);
        }
        return double.IsFinite(outer)
            ? outer
            : throw new ArgumentException("The mean time is not finite.", nameof(diffusion));
    }
}

/// <summary>Escape over a barrier under friction and its thermal noise, in the limits that are published.</summary>
/// <remarks>
/// Sources: Physica 7, 284–304 (1940), doi:10.1016/S0031-8914(40)90098-2; Reviews of Modern Physics 62, 251–341 (1990),
/// doi:10.1103/RevModPhys.62.251. Friction γ (1/s): the force −m γ v with the noise that belongs to the temperature.
/// </remarks>
public static class KramersRate
{
    /// <summary>Moderate to strong friction, 1/s: [√(γ²/4 + ω_b²) − γ/2]/ω_b · ω₀/2π · e^{−B}.</summary>
    /// <param name="bottomRate">ω₀ at the bottom, rad/s.</param>
    /// <param name="barrierRate">ω_b at the top of the barrier, rad/s.</param>
    /// <param name="friction">γ, 1/s.</param>
    /// <param name="barrier">B: height of the barrier over the thermal energy.</param>
    public static double Strong(double bottomRate, double barrierRate, double friction, double barrier)
    {
        double half = 0.5 * Require.NotNegative(friction);
        double pass = barrierRate / (Math.Sqrt(half * half + barrierRate * barrierRate) + half);
        return pass * Require.Positive(bottomRate) / (2 * Math.PI) * Math.Exp(-barrier);
    }

    /// <summary>Weak friction, 1/s: γ (I/kT) ω₀/2π e^{−B} with I = ∮ p dx of the orbit at the top of the barrier.</summary>
    /// <param name="bottomRate">ω₀ at the bottom, rad/s.</param>
    /// <param name="actionOverThermal">I/kT, s.</param>
    /// <param name="friction">γ, 1/s.</param>
    /// <param name="barrier">B: height of the barrier over the thermal energy.</param>
    public static double Weak(double bottomRate, double actionOverThermal, double friction, double barrier) =>
        Require.NotNegative(friction)
        * Require.Positive(actionOverThermal)
        * Require.Positive(bottomRate)
        / (2 * Math.PI)
        * Math.Exp(-barrier);
}
