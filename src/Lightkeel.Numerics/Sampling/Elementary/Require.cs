using System.Runtime.CompilerServices;

namespace Lightkeel.Numerics.Sampling.Elementary;

/// <summary>Argument checks of this room: one sentence that says where, what, and what instead.</summary>
internal static class Require
{
    /// <summary>Passes a finite value through.</summary>
    public static double Finite(double value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        double.IsFinite(value)
            ? value
            : throw new ArgumentOutOfRangeException(name, value, $"{name} must be a finite number.");

    /// <summary>Passes a finite value above zero through.</summary>
    public static double Positive(double value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        double.IsFinite(value) && value > 0
            ? value
            : throw new ArgumentOutOfRangeException(name, value, $"{name} must be finite and greater than zero.");

    /// <summary>Passes a finite value of zero or more through.</summary>
    public static double NotNegative(double value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        double.IsFinite(value) && value >= 0
            ? value
            : throw new ArgumentOutOfRangeException(name, value, $"{name} must be finite and not below zero.");

    /// <summary>Passes a number strictly between zero and one through.</summary>
    public static double OpenFraction(double value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        value > 0 && value < 1
            ? value
            : throw new ArgumentOutOfRangeException(name, value, $"{name} must lie strictly between 0 and 1.");

    /// <summary>Passes an integer of at least <paramref name="least"/> through.</summary>
    public static int AtLeast(int least, int value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        value >= least
            ? value
            : throw new ArgumentOutOfRangeException(name, value, $"{name} must be at least {least}.");

    /// <summary>Passes an integer of at least <paramref name="least"/> through.</summary>
    public static long AtLeast(long least, long value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        value >= least
            ? value
            : throw new ArgumentOutOfRangeException(name, value, $"{name} must be at least {least}.");
}
