using System.Globalization;

namespace Lightkeel.Physics.Units;

/// <summary>Writes quantities as short text that reads back to the same bits.</summary>
internal static class QuantityFormat
{
    private static readonly (string Symbol, int Power)[] Prefixes =
    [
        ("T", 12),
        ("G", 9),
        ("M", 6),
        ("k", 3),
        ("", 0),
        ("m", -3),
        ("u", -6),
        ("n", -9),
        ("p", -12),
    ];

    public static string Write(double siValue, Dimension dimension)
    {
        DimensionName name = DimensionName.Of(dimension);
        return Write(siValue, name.TakesPrefix ? Prefixed(siValue, name.Unit) : name.Unit);
    }

    public static string Write(double siValue, string unit)
    {
        ArgumentOutOfRangeException.ThrowIfEqual(double.IsFinite(siValue), false, nameof(siValue));
        if (!UnitExpression.TryRead(unit, out UnitOfMeasure measure, out string? fault))
        {
            throw new FormatException(fault);
        }
        string? number = measure.IsDecimal ? Shifted(siValue, -measure.Shift) : Divided(siValue, measure);
        if (number is not null)
        {
            return Joined(number, unit);
        }
        string coherent = measure.Dimension.ToString();
        return Joined(Shifted(siValue, 0), coherent == "1" ? "" : coherent);
    }

    private static string Joined(string number, string unit) => unit.Length == 0 ? number : $"{number} {unit}";

    /// <summary>The unit with the prefix that leaves one to three digits before the point.</summary>
    private static string Prefixed(double siValue, string unit)
    {
        double magnitude = Math.Abs(siValue) * (unit == "g" ? 1e3 : 1);
        if (magnitude == 0)
        {
            return unit;
        }
        foreach ((string symbol, int power) in Prefixes)
        {
            if (magnitude >= double.Parse($"1e{power}", CultureInfo.InvariantCulture))
            {
                return symbol + unit;
            }
        }
        return "p" + unit;
    }

    /// <summary>The number in a unit that is no power of ten, or null if none reads back to the same bits.</summary>
    private static string? Divided(double siValue, UnitOfMeasure unit)
    {
        double guess = Shift(siValue / unit.Numerator * unit.Denominator, -unit.Shift);
        double rounded = double.IsFinite(guess)
            ? double.Parse(guess.ToString("G15", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture)
            : guess;
        foreach (
            double candidate in (ReadOnlySpan<double>)
                [rounded, guess, Math.BitIncrement(guess), Math.BitDecrement(guess)]
        )
        {
            string text = double.IsFinite(candidate) ? Shifted(candidate, 0) : "";
            if (
                DecimalText.TryRead(text, out DecimalText number, out _)
                && number.TryRound(unit.Shift, out double value)
                && BitConverter.DoubleToInt64Bits(value * unit.Numerator / unit.Denominator)
                    == BitConverter.DoubleToInt64Bits(siValue)
            )
            {
                return text;
            }
        }
        return null;
    }

    private static double Shift(double value, int power) =>
        double.IsFinite(value) && DecimalText.TryRead(Shifted(value, 0), out DecimalText text, out _)
            ? (text.TryRound(power, out double shifted) ? shifted : double.NaN)
            : double.NaN;

    /// <summary>The shortest decimal text of a double with its point moved, without rounding anything.</summary>
    private static string Shifted(double value, int power)
    {
        (bool negative, string digits, int exponent) = Split(value.ToString("R", CultureInfo.InvariantCulture));
        if (digits == "0")
        {
            return negative ? "-0" : "0";
        }
        int point = exponent + power; // power of ten of the first digit
        string body =
            point is < -4 or > 15 ? Scientific(digits, point)
            : point < 0 ? "0." + new string('0', -point - 1) + digits
            : digits.Length <= point + 1 ? digits.PadRight(point + 1, '0')
            : digits[..(point + 1)] + "." + digits[(point + 1)..];
        return negative ? "-" + body : body;
    }

    private static string Scientific(string digits, int exponent) =>
        (digits.Length == 1 ? digits : digits[..1] + "." + digits[1..])
        + "e"
        + exponent.ToString(CultureInfo.InvariantCulture);

    /// <summary>Sign, significant digits, and the power of ten of the first digit, of a shortest round-trip text.</summary>
    private static (bool Negative, string Digits, int Exponent) Split(string text)
    {
        bool negative = text.StartsWith('-');
        string rest = negative ? text[1..] : text;
        int e = rest.IndexOf('E', StringComparison.Ordinal);
        int exponent = e < 0 ? 0 : int.Parse(rest[(e + 1)..], CultureInfo.InvariantCulture);
        string mantissa = e < 0 ? rest : rest[..e];
        int point = mantissa.IndexOf('.', StringComparison.Ordinal);
        string all = mantissa.Replace(".", "", StringComparison.Ordinal);
        int before = point < 0 ? mantissa.Length : point;
        int leading = all.Length - all.TrimStart('0').Length;
        string digits = all.Trim('0');
        return digits.Length == 0 ? (negative, "0", 0) : (negative, digits, exponent + before - 1 - leading);
    }
}
