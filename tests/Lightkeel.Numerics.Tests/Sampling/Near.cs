using Xunit;

namespace Lightkeel.Numerics.Tests.Sampling;

/// <summary>Comparison of numbers by relative distance.</summary>
internal static class Near
{
    public static void Relative(double expected, double actual, double tolerance)
    {
        double distance = Math.Abs(actual - expected);
        double allowed = tolerance * Math.Abs(expected);
        Assert.True(
            distance <= allowed,
            $"expected {expected:R}, got {actual:R}, relative {distance / Math.Abs(expected):G3}"
        );
    }

    public static void Absolute(double expected, double actual, double tolerance)
    {
        double distance = Math.Abs(actual - expected);
        Assert.True(distance <= tolerance, $"expected {expected:R}, got {actual:R}, distance {distance:G3}");
    }
}
