using CsCheck;
using Lightkeel.Physics.Limits;
using Lightkeel.Physics.Units;
using Xunit;

namespace Lightkeel.Physics.Tests.Limits;

public sealed class LimitReadingTests
{
    private static LimitReading Upper(double value, double limit) =>
        LimitReading.Upper("a", "x", "text", value, limit, 2, Dimension.None, "source");

    [Fact]
    public void Margin_IsZeroAtTheAllowedValue_AndFailsBeyond()
    {
        Assert.Equal(0, Upper(5, 10).Margin!.Value, 1e-15);
        Assert.True(Upper(5.1, 10).Fails);
        Assert.Equal(1, LimitReading.Lower("b", "x", "", 60, 10, 3, Dimension.None, "s").Margin!.Value, 1e-15);
        Assert.True(LimitReading.Lower("b", "x", "", 29, 10, 3, Dimension.None, "s").Fails);
        Assert.Equal(LimitReading.LargestMargin, Upper(0, 10).Margin);
        Assert.False(LimitReading.NotAssessed("c", "x", "give y").Fails);
    }

    [Fact]
    public void GoverningLimit_IsTheSmallestMargin_AndComesFirst() =>
        Gen.Double[0.1, 10]
            .Array[1, 8]
            .Sample(values =>
            {
                IReadOnlyList<LimitReading> ordered = LimitReading.Ordered([
                    LimitReading.NotAssessed("none", "x", "give y"),
                    .. values.Select(v => Upper(v, 4)),
                ]);
                Assert.Equal(values.Max(), ordered[0].Value);
                Assert.Null(ordered[^1].Margin);
            });
}
