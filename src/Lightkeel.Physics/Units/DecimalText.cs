using System.Globalization;

namespace Lightkeel.Physics.Units;

/// <summary>The number part of a quantity as text, whose power of ten can be shifted before it is rounded to a double.</summary>
internal readonly ref struct DecimalText
{
    private const int ExponentBound = 100_000;

    private DecimalText(ReadOnlySpan<char> digits, int exponent, bool isZero)
    {
        Digits = digits;
        Exponent = exponent;
        IsZero = isZero;
    }

    /// <summary>Sign, digits and point, without the power of ten.</summary>
    private ReadOnlySpan<char> Digits { get; }

    private int Exponent { get; }

    private bool IsZero { get; }

    /// <summary>Reads the number at the start of a text.</summary>
    /// <param name="text">Text that begins with a number.</param>
    /// <param name="number">The number.</param>
    /// <param name="length">How many characters it takes.</param>
    /// <returns>False when no number is there.</returns>
    public static bool TryRead(ReadOnlySpan<char> text, out DecimalText number, out int length)
    {
        int at = text.Length > 0 && text[0] is '+' or '-' ? 1 : 0;
        int digits = 0;
        bool zero = true;
        bool point = false;
        for (; at < text.Length && (char.IsAsciiDigit(text[at]) || (text[at] == '.' && !point)); at++)
        {
            point |= text[at] == '.';
            digits += text[at] == '.' ? 0 : 1;
            zero &= text[at] is '0' or '.';
        }
        length = at;
        number = new(text[..at], 0, zero);
        if (digits == 0)
        {
            return false;
        }
        if (TryReadExponent(text[at..], out int exponent, out int taken))
        {
            number = new(text[..at], exponent, zero);
            length += taken;
        }
        return true;
    }

    /// <summary>The double nearest to the number times a power of ten.</summary>
    /// <returns>False when it overflows, or vanishes although the number is not zero.</returns>
    public bool TryRound(int shift, out double value)
    {
        Span<char> buffer = stackalloc char[Digits.Length + 12];
        Digits.CopyTo(buffer);
        buffer[Digits.Length] = 'e';
        (Exponent + shift).TryFormat(
            buffer[(Digits.Length + 1)..],
            out int written,
            default,
            CultureInfo.InvariantCulture
        );
        value = double.Parse(buffer[..(Digits.Length + 1 + written)], NumberStyles.Float, CultureInfo.InvariantCulture);
        return double.IsFinite(value) && (value != 0 || IsZero);
    }

    private static bool TryReadExponent(ReadOnlySpan<char> text, out int exponent, out int length)
    {
        exponent = 0;
        length = 0;
        int at = text.Length > 1 && text[1] is '+' or '-' ? 2 : 1;
        if (text.Length <= at || text[0] is not ('e' or 'E') || !char.IsAsciiDigit(text[at]))
        {
            return false;
        }
        for (; at < text.Length && char.IsAsciiDigit(text[at]); at++)
        {
            exponent = Math.Min(10 * exponent + (text[at] - '0'), ExponentBound);
        }
        exponent = text[1] == '-' ? -exponent : exponent;
        length = at;
        return true;
    }
}
