using CsCheck;
using Lightkeel.Physics.Units;
using Xunit;

namespace Lightkeel.Physics.Tests.Units;

public sealed class QuantityFormatTests
{
    private static readonly string[] Units =
    [
        "",
        "m",
        "um",
        "km",
        "AU",
        "g",
        "kg",
        "g/m^2",
        "deg",
        "arcsec",
        "mrad",
        "rad/s",
        "deg/s",
        "rpm",
        "Hz",
        "min",
        "h",
        "c",
        "km/s",
        "m/s^2",
        "MW",
        "GW/m^2",
        "TPa",
        "kg m^2",
        "m^2/Hz",
        "rad^2/Hz",
        "1/Hz",
        "J/(kg K)",
        "%",
        "1/min",
        "K",
    ];

    private static readonly Gen<double> AnyNumber = Gen.OneOf(
            Gen.Double[-1e6, 1e6],
            Gen.Double,
            Gen.Select(Gen.Double[-1, 1], Gen.Int[-60, 60], (x, p) => x * Math.Pow(10, p)),
            Gen.Int[-1000, 1000].Select(i => i / 100.0)
        )
        .Where(x => Math.Abs(x) is 0 or (> 1e-150 and < 1e150));

    [Fact]
    public void Format_ThenParse_GivesTheSameBits() =>
        Gen.Select(AnyNumber, Gen.Int[0, Units.Length - 1].Select(i => Units[i]))
            .Sample(
                (value, unit) =>
                {
                    string text = Quantity.Format(value, unit);
                    Assert.True(Quantity.TryParse(text, out Quantity back, out string? fault), $"{text}: {fault}");
                    Assert.True(Quantity.TryParse("1 " + unit, out Quantity one, out _));
                    Assert.Equal(BitConverter.DoubleToInt64Bits(value), BitConverter.DoubleToInt64Bits(back.SiValue));
                    Assert.Equal(one.Dimension, back.Dimension);
                },
                iter: 20_000
            );

    [Fact]
    public void Format_InTheUsualUnit_ReadsBackForEveryNamedDimension() =>
        Gen.Select(
                AnyNumber,
                Gen.Int[0, DimensionName.Dimensions.Count - 1].Select(i => DimensionName.Dimensions.ElementAt(i))
            )
            .Sample(
                (value, dimension) => Assert.Equal(value, Quantity.Parse(Quantity.Format(value, dimension), dimension)),
                iter: 20_000
            );

    [Theory]
    [InlineData(1.064e-6, "m", "1.064 um")]
    [InlineData(1.2, "m", "1.2 m")]
    [InlineData(300e6, "W", "300 MW")]
    [InlineData(0.0024, "kg", "2.4 g")]
    [InlineData(Math.PI / 2, "rad", "90 deg")]
    [InlineData(0, "m", "0 m")]
    [InlineData(-0.05, "m", "-50 mm")]
    [InlineData(1e-8, "m^2/Hz", "1e-8 m^2/Hz")]
    [InlineData(0.00011, "kg/m^2", "0.11 g/m^2")]
    [InlineData(0.98, "", "0.98")]
    public void Format_CommonValues_ReadLikeTheWorkshop(double value, string unit, string expected)
    {
        Assert.True(Quantity.TryParse("1 " + unit, out Quantity one, out _));
        Assert.Equal(expected, Quantity.Format(value, one.Dimension));
    }

    [Theory]
    [InlineData(62, "62 deg")]
    [InlineData(0.3, "0.3 deg")]
    [InlineData(89.9, "89.9 deg")]
    public void Format_ParsedDegrees_ReturnTheirText(double degrees, string expected) =>
        Assert.Equal(expected, Quantity.Format(Quantity.Parse($"{degrees} deg", Dimension.OfAngle), "deg"));

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Format_NonFinite_IsRefused(double value) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Quantity.Format(value, "m"));

    [Fact]
    public void Format_UnknownUnit_IsRefused() => Assert.Throws<FormatException>(() => Quantity.Format(1, "furlong"));

    [Fact]
    public void DimensionName_ItsExampleAndUnit_HaveThatDimension() =>
        Assert.All(
            DimensionName.Dimensions,
            d =>
            {
                DimensionName name = DimensionName.Of(d);
                Assert.Equal(d, ParsedDimension(name.Example));
                Assert.Equal(d, ParsedDimension("1 " + name.Unit));
                Assert.Equal(d, ParsedDimension("1 " + d));
            }
        );

    [Fact]
    public void TryParse_ArbitraryText_NeverThrowsNorYieldsNonFinite() =>
        Gen.OneOf(Gen.String, Gen.String["0123456789.eE+-^/*() mkgsKradHzWJNPuMG%\u00b5\u00b2c"])
            .Sample(
                text =>
                {
                    bool read = Quantity.TryParse(text, out Quantity quantity, out string? fault);
                    Assert.Equal(read, fault is null);
                    Assert.True(double.IsFinite(quantity.SiValue));
                },
                iter: 50_000
            );

    private static Dimension ParsedDimension(string text) =>
        Quantity.TryParse(text, out Quantity quantity, out string? fault)
            ? quantity.Dimension
            : throw new FormatException(fault);
}
