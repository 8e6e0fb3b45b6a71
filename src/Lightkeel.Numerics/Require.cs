using System.Runtime.CompilerServices;

namespace Lightkeel.Numerics;

/// <summary>Checks at public borders: a bad argument is refused with its own expression in the message.</summary>
public static class Require
{
    /// <summary>Returns the value when it is finite and greater than zero.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is not.</exception>
    public static double Positive(double value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        double.IsFinite(value) && value > 0
            ? value
            : throw new ArgumentOutOfRangeException(name, value, "Must be finite and greater than zero.");

    /// <summary>Returns the value when it is finite and zero or more.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is not.</exception>
    public static double NotNegative(double value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        double.IsFinite(value) && value >= 0
            ? value
            : throw new ArgumentOutOfRangeException(name, value, "Must be finite and not negative.");

    /// <summary>Returns the value when it is finite.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is not.</exception>
    public static double Finite(double value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        double.IsFinite(value) ? value : throw new ArgumentOutOfRangeException(name, value, "Must be a finite number.");

    /// <summary>Returns the value when it is finite and inside the stated range.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is not.</exception>
    public static double Between(
        double value,
        double lower,
        double upper,
        bool lowerIncluded = true,
        bool upperIncluded = true,
        [CallerArgumentExpression(nameof(value))] string? name = null
    )
    {
        bool above = lowerIncluded ? value >= lower : value > lower;
        bool below = upperIncluded ? value <= upper : value < upper;
        return above && below && double.IsFinite(value)
            ? value
            : throw new ArgumentOutOfRangeException(
                name,
                value,
                FormattableString.Invariant(
                    $"Must lie between {lower} ({(lowerIncluded ? "included" : "excluded")}) and {upper} ({(upperIncluded ? "included" : "excluded")})."
                )
            );
    }

    /// <summary>Returns the value when it lies strictly between zero and one.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It does not.</exception>
    public static double OpenFraction(double value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        value > 0 && value < 1
            ? value
            : throw new ArgumentOutOfRangeException(name, value, "Must lie strictly between 0 and 1.");

    /// <summary>Returns the integer when it is at least the stated one.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is less.</exception>
    public static int AtLeast(int least, int value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        value >= least ? value : throw new ArgumentOutOfRangeException(name, value, $"Must be at least {least}.");

    /// <summary>Returns the integer when it is at least the stated one.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is less.</exception>
    public static long AtLeast(long least, long value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        value >= least ? value : throw new ArgumentOutOfRangeException(name, value, $"Must be at least {least}.");
}
