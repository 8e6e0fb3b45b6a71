using System.Diagnostics.CodeAnalysis;

namespace Lightkeel.Physics.Units;

/// <summary>A number with its dimension, as read from text such as <c>1.064 um</c>.</summary>
/// <remarks>
/// For the edges only: files, flags and screens. Inside, the program works with doubles in SI units. Reading is strict: a
/// dimensional quantity has its unit, the result is finite, and nothing is guessed. Plain value; safe to share.
/// </remarks>
/// <param name="SiValue">The value in the coherent SI unit of its dimension; frequencies in Hz, angles in rad.</param>
/// <param name="Dimension">The dimension.</param>
public readonly record struct Quantity(double SiValue, Dimension Dimension)
{
    /// <summary>The longest text that is read.</summary>
    public const int LongestText = 200;

    /// <summary>Reads a quantity of any dimension.</summary>
    /// <param name="text">A number and, unless it is a pure number, a unit.</param>
    /// <param name="quantity">The quantity.</param>
    /// <param name="fault">What is wrong, as the beginning of a sentence; null when nothing is.</param>
    /// <returns>True when the text was read.</returns>
    public static bool TryParse(string text, out Quantity quantity, [NotNullWhen(false)] out string? fault)
    {
        quantity = default;
        ReadOnlySpan<char> span = text.AsSpan().Trim();
        if (span.Length is 0 or > LongestText)
        {
            fault = span.IsEmpty ? "the text is empty" : $"the text is longer than {LongestText} characters";
            return false;
        }
        if (!DecimalText.TryRead(span, out DecimalText number, out int length))
        {
            fault = $"\"{Shown(span)}\" does not begin with a finite number";
            return false;
        }
        if (length < span.Length && span[length] is ',' or '_')
        {
            fault = $"\"{Shown(span)}\" has \"{span[length]}\" inside its number (the decimal sign is a point)";
            return false;
        }
        if (!UnitExpression.TryRead(span[length..], out UnitOfMeasure unit, out string? unitFault))
        {
            fault = $"\"{Shown(span)}\": {unitFault}";
            return false;
        }
        return TryConvert(span, number, unit, out quantity, out fault);
    }

    /// <summary>Reads a quantity of one dimension.</summary>
    /// <param name="text">A number and, unless it is a pure number, a unit.</param>
    /// <param name="expected">The dimension it must have.</param>
    /// <param name="siValue">The value in SI units.</param>
    /// <param name="fault">What was found and what is expected; null when nothing is wrong.</param>
    /// <returns>True when the text was read and has that dimension.</returns>
    public static bool TryParse(
        string text,
        Dimension expected,
        out double siValue,
        [NotNullWhen(false)] out string? fault
    )
    {
        bool read = TryParse(text, out Quantity quantity, out fault);
        siValue = read ? quantity.SiValue : 0;
        if (read && quantity.Dimension != expected)
        {
            siValue = 0;
            fault = quantity.Describe(text);
        }
        if (fault is not null)
        {
            fault = $"{fault}; expected {DimensionName.Of(expected).WithExample}";
        }
        return fault is null;
    }

    /// <summary>Reads a quantity of one dimension, or throws.</summary>
    /// <param name="text">A number and, unless it is a pure number, a unit.</param>
    /// <param name="expected">The dimension it must have.</param>
    /// <returns>The value in SI units.</returns>
    /// <exception cref="FormatException">The text is not a quantity of that dimension.</exception>
    public static double Parse(string text, Dimension expected) =>
        TryParse(text, expected, out double value, out string? fault) ? value : throw new FormatException(fault);

    /// <summary>Writes a value in the unit that people use for its dimension; reading it back gives the same bits.</summary>
    /// <param name="siValue">A finite value in SI units.</param>
    /// <param name="dimension">Its dimension.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value is not finite.</exception>
    public static string Format(double siValue, Dimension dimension) => QuantityFormat.Write(siValue, dimension);

    /// <summary>Writes a value in a unit; reading it back gives the same bits.</summary>
    /// <remarks>Where no decimal number in that unit reads back to the same bits, the coherent SI unit is used.</remarks>
    /// <param name="siValue">A finite value in SI units.</param>
    /// <param name="unit">A unit such as <c>deg</c>; empty for a pure number.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value is not finite.</exception>
    /// <exception cref="FormatException">The unit cannot be read.</exception>
    public static string Format(double siValue, string unit) => QuantityFormat.Write(siValue, unit);

    /// <summary>Says what was found: <c>"62 m" is a length</c>, or <c>"62" has no unit</c>.</summary>
    /// <param name="text">The text it was read from.</param>
    public string Describe(string text) =>
        Dimension == Dimension.None
            ? $"\"{Shown(text.AsSpan().Trim())}\" has no unit"
            : $"\"{Shown(text.AsSpan().Trim())}\" is {DimensionName.Of(Dimension).Name}";

    /// <summary>Writes the quantity in the unit that people use for its dimension.</summary>
    public override string ToString() =>
        double.IsFinite(SiValue) ? Format(SiValue, Dimension) : $"(not finite) {Dimension}";

    private static bool TryConvert(
        ReadOnlySpan<char> text,
        DecimalText number,
        UnitOfMeasure unit,
        out Quantity quantity,
        [NotNullWhen(false)] out string? fault
    )
    {
        bool inRange = number.TryRound(unit.Shift, out double value);
        double result = unit.IsDecimal ? value : value * unit.Numerator / unit.Denominator;
        inRange = inRange && double.IsFinite(result) && (result != 0 || value == 0);
        quantity = inRange ? new(result, unit.Dimension) : default;
        fault = inRange ? null : $"\"{Shown(text)}\" is outside the range of double precision";
        return inRange;
    }

    private static string Shown(ReadOnlySpan<char> text) =>
        text.Length <= 40 ? text.ToString() : string.Concat(text[..37], "...");
}
