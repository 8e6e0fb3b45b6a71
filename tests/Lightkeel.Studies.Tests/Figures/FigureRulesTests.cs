using Lightkeel.Studies.Figures;
using Xunit;

namespace Lightkeel.Studies.Tests.Figures;

public sealed class FigureRulesTests
{
    public static TheoryData<string, PlotItem> BadItems =>
        new()
        {
            { "different length", new LineSeries([1, 2], [1]) },
            { "not finite", new LineSeries([1, double.NaN], [1, 2]) },
            { "not positive", new LineSeries([0, 1], [1, 2]) },
            { "3 points", new PolygonArea([1, 2], [1, 2]) },
            {
                "ascend",
                new HeatMap(
                    [2, 1],
                    [1, 2],
                    [
                        [1, 1],
                        [1, 1],
                    ]
                )
            },
            {
                "another size",
                new HeatMap(
                    [1, 2],
                    [1, 2],
                    [
                        [1, 1],
                        [1],
                    ]
                )
            },
            {
                "without a category",
                new CategoryMap(
                    [1, 2],
                    [1, 2],
                    [
                        [0, 0],
                        [0, 1],
                    ],
                    [new("held", Tone.Teal)]
                )
            },
            {
                "not positive",
                new HeatMap(
                    [1, 2],
                    [1, 2],
                    [
                        [0, 1],
                        [1, 1],
                    ]
                )
                {
                    Scale = AxisScale.Logarithmic,
                }
            },
            {
                "opacity",
                new PolygonArea([1, 2, 3], [1, 2, 3]) { Opacity = 2 }
            },
            { "not positive", new MarkerLine(-1, true) },
        };

    [Theory]
    [MemberData(nameof(BadItems))]
    public void BadItem_IsRefusedWithItsPlace(string message, PlotItem item)
    {
        Figure figure = new()
        {
            Name = "bad",
            Title = "Bad",
            Panels =
            [
                new()
                {
                    X = new("x", "m") { Scale = AxisScale.Logarithmic },
                    Y = new("y"),
                    Items = [item],
                },
            ],
        };
        ArgumentException fault = Assert.Throws<ArgumentException>(() => FigureRules.Check(figure));
        Assert.Contains(message, fault.Message, StringComparison.Ordinal);
        Assert.Contains("bad, panel 1, item 1", fault.Message, StringComparison.Ordinal);
    }
}
