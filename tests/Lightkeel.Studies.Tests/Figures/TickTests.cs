using Lightkeel.Studies.Figures.Rendering;
using ScottPlot;
using Xunit;

namespace Lightkeel.Studies.Tests.Figures;

public sealed class TickTests
{
    [Theory]
    [InlineData(-2, 2, 1, "−2,−1,0,1,2")]
    [InlineData(0, 3e-3, 1e-3, "0.0,0.5,1.0,1.5,2.0,2.5,3.0")]
    [InlineData(0.97, 1.03, 1, "0.98,1.00,1.02")]
    [InlineData(5, 5, 1, "")]
    public void LinearTicks_StandAtRoundNumbersOfTheShownUnit(double low, double high, double factor, string labels)
    {
        LinearTicks ticks = new(factor, pixelsPerTick: 150);
        ticks.Regenerate(new CoordinateRange(low, high), Edge.Left, new PixelLength(900), null!, new LabelStyle());
        Assert.Equal(labels, string.Join(',', ticks.Ticks.Select(tick => tick.Label)));
    }

    [Fact]
    public void LinearTicks_WithLongLabels_KeepTheirDistance()
    {
        LinearTicks ticks = new(1, pixelsPerTick: 60);
        LabelStyle style = new() { FontSize = 24 };
        ticks.Regenerate(new CoordinateRange(1.23450, 1.23460), Edge.Bottom, new PixelLength(900), null!, style);
        Assert.InRange(ticks.Ticks.Length, 2, 6);
    }

    [Fact]
    public void LogarithmicTicks_NamePowersOfTen()
    {
        LogarithmicTicks ticks = new(pixelsPerTick: 75);
        ticks.Regenerate(new CoordinateRange(-4, 1), Edge.Left, new PixelLength(900), null!, new LabelStyle());
        Assert.Equal(
            ["10⁻⁴", "10⁻³", "0.01", "0.1", "1", "10"],
            ticks.Ticks.Where(tick => tick.IsMajor).Select(tick => tick.Label)
        );
        Assert.Equal(5 * 8, ticks.Ticks.Count(tick => !tick.IsMajor));
    }

    [Theory]
    [InlineData("depth", "J", 3e-9, 1e-9, "depth (nJ)")]
    [InlineData("speed", "m/s", 5e4, 1e3, "speed (km/s)")]
    [InlineData("growth rate", "1/s", 3e-6, 1e-6, "growth rate (10⁻⁶ 1/s)")]
    [InlineData("time", "s", 5e4, 1e3, "time (10³ s)")]
    [InlineData("tilt", "rad", 2e-4, 1e-6, "tilt (µrad)")]
    [InlineData("offset", "m", 2, 1, "offset (m)")]
    [InlineData("beta", "", 0.2, 1, "beta")]
    public void AxisUnits_ChooseAPrefix_WhereTheUnitTakesOne(
        string label,
        string unit,
        double largest,
        double factor,
        string shown
    ) =>
        Assert.Equal(
            new AxisUnits(factor, shown),
            AxisUnits.For(label, unit, largest) with
            {
                Factor = Math.Round(AxisUnits.For(label, unit, largest).Factor, 12),
            }
        );
}
