using Lightkeel.Physics.Units;
using Xunit;

namespace Lightkeel.Physics.Tests.Units;

/// <summary>
/// Values follow the SI Brochure, 9th edition (2019): prefixes of table 7, units of tables 4 and 8 (degree = π/180 rad,
/// minute = 60 s, hour = 3600 s, au = 149 597 870 700 m), c = 299 792 458 m/s. Decimal ones must be the very double of the
/// literal; the angle 62 deg was computed with mpmath at 40 digits.
/// </summary>
public sealed class QuantityParseTests
{
    public static TheoryData<string, double, string> Readable =>
        new()
        {
            { "1.064 um", 1.064e-6, "m" },
            { "1.064 \u00b5m", 1.064e-6, "m" },
            { "1.064 \u03bcm", 1.064e-6, "m" },
            { "300 MW", 300e6, "W" },
            { "0.35 g/m^2", 0.35e-3, "kg/m^2" },
            { "0.35 g/m\u00b2", 0.35e-3, "kg/m^2" },
            { "62 deg", 1.0821041362364843, "rad" },
            { "90 deg", Math.PI / 2, "rad" },
            { "180 deg", Math.PI, "rad" },
            { "2 mrad", 2e-3, "rad" },
            { "1e-8 m^2/Hz", 1e-8, "m^2/Hz" },
            { "1e-18 rad^2/Hz", 1e-18, "rad^2/Hz" },
            { "1e-10 1/Hz", 1e-10, "1/Hz" },
            { "0.2 c", 0.2 * 299792458, "m/s" },
            { "17 km/s", 17e3, "m/s" },
            { "9.81 m/s^2", 9.81, "m/s^2" },
            { "1.4e-3 kg m^2", 1.4e-3, "kg m^2" },
            { "1.4e-3 kg*m^2", 1.4e-3, "kg m^2" },
            { "1.4e-3 kg\u00b7m\u00b2", 1.4e-3, "kg m^2" },
            { "120 s", 120, "s" },
            { "5 min", 300, "s" },
            { "1 h", 3600, "s" },
            { "5 us", 5e-6, "s" },
            { "3 TPa", 3e12, "Pa" },
            { "10 GW/m^2", 10e9, "W/m^2" },
            { "1 %", 0.01, "" },
            { "0.5", 0.5, "" },
            { "700 J/(kg K)", 700, "J/(kg K)" },
            { "200 Hz", 200, "Hz" },
            { "60 rpm", 1, "Hz" },
            { "2 AU", 2 * 149597870700.0, "m" },
            { "-3e-2 cm", -3e-4, "m" },
            { "300MW", 300e6, "W" },
            { "1 m^-2", 1, "1/m^2" },
            { "1 m\u207b\u00b2", 1, "1/m^2" },
            { "1 W/m^2/Hz", 1, "W/m^2/Hz" },
            { "400 km", 400e3, "m" },
        };

    [Theory]
    [MemberData(nameof(Readable))]
    public void Parse_UnitsOfTheTable_GiveTheSiValue(string text, double expected, string unit)
    {
        Assert.True(Quantity.TryParse(text, out Quantity quantity, out string? fault), fault);
        Assert.Equal(expected, quantity.SiValue);
        Assert.True(Quantity.TryParse("1 " + unit, out Quantity one, out _));
        Assert.Equal(one.Dimension, quantity.Dimension);
    }

    [Theory]
    [InlineData("m", "62", "\"62\" has no unit; expected a length such as \"1.2 m\"")]
    [InlineData("rad", "62", "\"62\" has no unit; expected an angle such as \"62 deg\"")]
    [InlineData("rad", "62 m", "\"62 m\" is a length; expected an angle such as \"62 deg\"")]
    [InlineData("Hz", "5 1/s", "\"5 1/s\" is a rate; expected a frequency such as \"200 Hz\"")]
    [InlineData(
        "m",
        "5 metre",
        "\"5 metre\": unknown unit \"metre\" (write \"m\"); expected a length such as \"1.2 m\""
    )]
    [InlineData(
        "W",
        "5 mw",
        "\"5 mw\": unknown unit \"mw\" (did you mean \"MW\" or \"mW\"?); expected a power such as \"300 MW\""
    )]
    [InlineData(
        "K",
        "20 degC",
        "\"20 degC\": unknown unit \"degC\" (temperatures are written in kelvin, K); expected a temperature such as \"300 K\""
    )]
    [InlineData("m", "NaN m", "\"NaN m\" does not begin with a finite number; expected a length such as \"1.2 m\"")]
    [InlineData("", "3 m", "\"3 m\" is a length; expected a pure number such as 0.5")]
    public void Parse_WrongText_SaysWhatWasFoundAndWhatIsExpected(string unit, string text, string expected)
    {
        Assert.True(Quantity.TryParse("1 " + unit, out Quantity one, out _));
        Assert.False(Quantity.TryParse(text, one.Dimension, out double value, out string? fault));
        Assert.Equal(0, value);
        Assert.Equal(expected, fault);
    }

    [Theory]
    [InlineData("")]
    [InlineData("   ")]
    [InlineData("m")]
    [InlineData("inf m")]
    [InlineData("Infinity")]
    [InlineData("-inf m")]
    [InlineData("nan")]
    [InlineData("1e400 m")]
    [InlineData("1e-400 m")]
    [InlineData("1e300 Qm")]
    [InlineData("1e99999999999999999999 m")]
    [InlineData("1,2 m")]
    [InlineData("1_000 m")]
    [InlineData("1.2.3 m")]
    [InlineData("1.2 m m)")]
    [InlineData("1.2 (m")]
    [InlineData("1.2 m/")]
    [InlineData("1.2 m//s")]
    [InlineData("1.2 m^")]
    [InlineData("1.2 m^0")]
    [InlineData("1.2 m^1.5")]
    [InlineData("1.2 m^99")]
    [InlineData("1.2 m2")]
    [InlineData("1 J/kg K")]
    [InlineData("1.2 m + 3 m")]
    [InlineData("0x10 m")]
    [InlineData("1.2 kmin")]
    [InlineData("1.2 kkm")]
    [InlineData("((((((1 m))))))")]
    [InlineData("1 ((((((m))))))")]
    [InlineData("1 m^12 m^12 m^12")]
    [InlineData("1 \0m")]
    public void Parse_UnreadableText_IsRefusedWithAReason(string text)
    {
        Assert.False(Quantity.TryParse(text, out Quantity quantity, out string? fault));
        Assert.Equal(default, quantity);
        Assert.False(string.IsNullOrWhiteSpace(fault));
    }

    [Fact]
    public void Parse_OverlongText_IsRefused()
    {
        Assert.False(Quantity.TryParse(new string('1', 300) + " m", out _, out string? fault));
        Assert.Contains("longer than", fault, StringComparison.Ordinal);
    }

    [Fact]
    public void Parse_WrongText_ThrowsFormatException() =>
        Assert.Throws<FormatException>(() => Quantity.Parse("62", Dimension.OfAngle));
}
