namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>Chooses the unit in which an axis is labelled, so that its numbers are short.</summary>
/// <param name="Factor">Value in the shown unit = value in SI units / factor.</param>
/// <param name="Label">Label with unit, such as <c>depth (µJ)</c>.</param>
internal readonly record struct AxisUnits(double Factor, string Label)
{
    private const string Prefixes = "fpnµm kMGT";
    private const int PrefixZero = 5;
    private static readonly string[] Prefixed = ["m", "N", "W", "J", "Hz", "Pa", "A", "V", "N m", "m/s"];
    private static readonly string[] OnlySmaller = ["s", "rad"];

    /// <summary>Units for an axis that reaches to a largest absolute value.</summary>
    public static AxisUnits For(string label, string unit, double largest)
    {
        int power = PowerOfThousand(largest);
        if (power == 0)
        {
            return new(1, unit.Length == 0 ? label : $"{label} ({unit})");
        }
        double factor = Math.Pow(1000, power);
        int prefix = PrefixZero + power;
        bool has = Prefixed.Contains(unit) || (power < 0 && OnlySmaller.Contains(unit));
        if (has && prefix >= 0 && prefix < Prefixes.Length)
        {
            return new(factor, $"{label} ({Prefixes[prefix]}{unit})");
        }
        string scale = "10" + Superscript(3 * power);
        return new(factor, unit.Length == 0 ? $"{label} ({scale})" : $"{label} ({scale} {unit})");
    }

    /// <summary>A whole number in raised digits.</summary>
    public static string Superscript(int number)
    {
        const string Raised = "⁰¹²³⁴⁵⁶⁷⁸⁹";
        string digits = Math.Abs(number).ToString(System.Globalization.CultureInfo.InvariantCulture);
        return (number < 0 ? "⁻" : "") + string.Concat(digits.Select(digit => Raised[digit - '0']));
    }

    /// <summary>0 while the largest value lies between 0.1 and 10000, else the power of 1000 that brings it to 1..1000.</summary>
    private static int PowerOfThousand(double largest) =>
        largest is 0 or (>= 0.1 and < 10_000) ? 0 : (int)Math.Floor(Math.Log10(largest) / 3 + 1e-12);
}
