namespace Lightkeel.Physics.Motion.Wells;

/// <summary>How long a well holds a craft that pointing noise shakes: the scale of the harmonic well.</summary>
/// <remarks>
/// The beam moves by <c>n</c>, so that <c>x'' + w^2 x = w^2 n</c>. A weak noise of one-sided density <c>S</c> about the frequency of the swing
/// heats each axis by <c>m w^4 S/4</c> on average (<c>&lt;v^2&gt;' = w^4 S/2</c>, <c>S/2</c> being the strength of the noise against a delta function
/// of time; Handbook of Stochastic Methods, Springer, 3rd ed. 2004, sections 1.4 and 4.3). In a harmonic well the energy less this rate times
/// time is a martingale, so the mean time from rest to an energy is exactly that energy over the rate, whatever the share of the axes. A
/// real well softens towards its rim and is heated otherwise there: a scale, not a forecast.
/// </remarks>
public static class HoldingScale
{
    /// <summary>Mean power that pointing noise gives to the swings, W.</summary>
    /// <param name="massKilograms">Mass, kg, above zero.</param>
    /// <param name="axes">Frequency of the swing, Hz, and one-sided density of the beam's motion there, m²/Hz, for each axis.</param>
    /// <exception cref="ArgumentOutOfRangeException">The mass is not above zero, or a frequency or density is negative.</exception>
    public static double HeatingWatts(double massKilograms, params ReadOnlySpan<(double Hertz, double Density)> axes)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(massKilograms);
        double sum = 0;
        foreach ((double hertz, double density) in axes)
        {
            ArgumentOutOfRangeException.ThrowIfNegative(hertz, nameof(axes));
            ArgumentOutOfRangeException.ThrowIfNegative(density, nameof(axes));
            double square = 4 * Math.PI * Math.PI * hertz * hertz;
            sum += 0.25 * massKilograms * square * square * density;
        }
        return sum;
    }
}
