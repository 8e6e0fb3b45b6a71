using Lightkeel.Physics.Units;

namespace Lightkeel.Studies.Designs.Specification;

/// <summary>The values that a number may take, in SI units; an end may be infinite.</summary>
/// <param name="Minimum">Lower end.</param>
/// <param name="Maximum">Upper end.</param>
/// <param name="IncludesMinimum">True when the lower end itself is allowed.</param>
/// <param name="IncludesMaximum">True when the upper end itself is allowed.</param>
public sealed record Interval(double Minimum, double Maximum, bool IncludesMinimum, bool IncludesMaximum)
{
    /// <summary>Every finite number.</summary>
    public static Interval Any { get; } = new(double.NegativeInfinity, double.PositiveInfinity, false, false);

    /// <summary>Above zero.</summary>
    public static Interval Positive { get; } = new(0, double.PositiveInfinity, false, false);

    /// <summary>Zero and above.</summary>
    public static Interval NotNegative { get; } = new(0, double.PositiveInfinity, true, false);

    /// <summary>From zero to one, with both.</summary>
    public static Interval Fraction { get; } = Closed(0, 1);

    /// <summary>Between two ends, with both.</summary>
    public static Interval Closed(double minimum, double maximum) => new(minimum, maximum, true, true);

    /// <summary>Between two ends, without either.</summary>
    public static Interval Open(double minimum, double maximum) => new(minimum, maximum, false, false);

    /// <summary>True when a finite value is inside.</summary>
    public bool Contains(double value) =>
        double.IsFinite(value)
        && (value > Minimum || (IncludesMinimum && value == Minimum))
        && (value < Maximum || (IncludesMaximum && value == Maximum));

    /// <summary>The interval in words, for instance <c>more than 0 deg and less than 90 deg</c>; empty when all is allowed.</summary>
    /// <param name="unit">The unit to write the ends in; empty for pure numbers.</param>
    public string Describe(string unit)
    {
        string low = double.IsFinite(Minimum) ? Quantity.Format(Minimum, unit) : "";
        string high = double.IsFinite(Maximum) ? Quantity.Format(Maximum, unit) : "";
        return (low, high, IncludesMinimum, IncludesMaximum) switch
        {
            ("", "", _, _) => "",
            (_, "", true, _) => $"{low} or more",
            (_, "", false, _) => $"more than {low}",
            ("", _, _, true) => $"{high} or less",
            ("", _, _, false) => $"less than {high}",
            (_, _, true, true) => $"from {low} to {high}",
            (_, _, true, false) => $"{low} or more and less than {high}",
            (_, _, false, true) => $"more than {low} and at most {high}",
            _ => $"more than {low} and less than {high}",
        };
    }
}
