using System.Globalization;

namespace Lightkeel.Studies.Catalogue;

/// <summary>A row of a summary.</summary>
/// <param name="Label">What it is.</param>
/// <param name="Value">Its value, written out.</param>
/// <param name="Unit">Its unit; empty for none.</param>
/// <param name="Note">A remark behind it; empty for none.</param>
public sealed record SummaryRow(string Label, string Value, string Unit = "", string Note = "")
{
    /// <summary>A row with a number to six significant digits.</summary>
    /// <param name="label">What it is.</param>
    /// <param name="value">The number, finite.</param>
    /// <param name="unit">Its unit; empty for none.</param>
    /// <param name="note">A remark behind it; empty for none.</param>
    public static SummaryRow Of(string label, double value, string unit = "", string note = "") =>
        new(label, Write(value), unit, note);

    /// <summary>A row for a quantity that may not exist.</summary>
    /// <param name="label">What it is.</param>
    /// <param name="value">The number, or null.</param>
    /// <param name="unit">Its unit; empty for none.</param>
    /// <param name="reason">Why it does not exist; shown only when it does not.</param>
    public static SummaryRow OfPossible(string label, double? value, string unit, string? reason) =>
        value is double number ? Of(label, number, unit) : new(label, "none", "", reason ?? "");

    /// <summary>A number to six significant digits: plain between 1e-4 and 1e7, else with a power of ten.</summary>
    public static string Write(double value)
    {
        double size = Math.Abs(Numerics.Require.Finite(value));
        if (size == 0)
        {
            return "0";
        }
        return size is >= 1e-4 and < 1e7
            ? RoundTo(value, 6).ToString("0.##########", CultureInfo.InvariantCulture)
            : value.ToString("0.#####e0", CultureInfo.InvariantCulture);
    }

    private static double RoundTo(double value, int digits) =>
        double.Parse(
            value.ToString("E" + (digits - 1).ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture),
            CultureInfo.InvariantCulture
        );
}
