using Lightkeel.Numerics;

namespace Lightkeel.Physics.Chance;

/// <summary>A time without light, and the way back to full power.</summary>
public sealed record DropOut
{
    /// <summary>A drop-out.</summary>
    /// <param name="atSeconds">Source time at which the light goes, s, zero or more.</param>
    /// <param name="lengthSeconds">Time without light, s, above zero.</param>
    /// <param name="returnSeconds">Time of the straight rise back to full power, s, zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A time is out of its range.</exception>
    public DropOut(double atSeconds, double lengthSeconds, double returnSeconds = 0)
    {
        AtSeconds = Require.NotNegative(atSeconds);
        LengthSeconds = Require.Positive(lengthSeconds);
        ReturnSeconds = Require.NotNegative(returnSeconds);
    }

    /// <summary>Source time at which the light goes, s.</summary>
    public double AtSeconds { get; }

    /// <summary>Time without light, s.</summary>
    public double LengthSeconds { get; }

    /// <summary>Time of the straight rise back to full power, s.</summary>
    public double ReturnSeconds { get; }

    /// <summary>Source times at which the power jumps or has a kink.</summary>
    internal IEnumerable<double> BreaksSeconds =>
        new[] { AtSeconds, AtSeconds + LengthSeconds, AtSeconds + LengthSeconds + ReturnSeconds }.Distinct();

    /// <summary>Power left at a source time, 0 to 1.</summary>
    internal double FactorAt(double sourceSeconds)
    {
        double since = sourceSeconds - AtSeconds - LengthSeconds;
        return sourceSeconds < AtSeconds || since >= ReturnSeconds ? 1
            : since <= 0 ? 0
            : since / ReturnSeconds;
    }
}
