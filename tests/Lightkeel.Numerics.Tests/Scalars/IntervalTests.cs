using CsCheck;
using Lightkeel.Numerics.Scalars;
using Xunit;

namespace Lightkeel.Numerics.Tests.Scalars;

public sealed class IntervalTests
{
    private static readonly Gen<Interval> Ranges = Gen.Double[-3, 3]
        .Select(Gen.Double[0, 1], (a, w) => new Interval(a, a + w));

    // mpmath, 30 digits: exp(0.7), ln(0.7), sqrt(0.7), exp(-20.5); the nearest doubles lie inside the enclosures.
    [Theory]
    [InlineData("exp", 0.7, 2.0137527074704764322)]
    [InlineData("exp", -20.5, 1.25015286638674263e-9)]
    [InlineData("log", 0.7, -0.35667494393873244235)]
    [InlineData("sqrt", 0.7, 0.83666002653407552144)]
    public void Function_OfANumber_EnclosesItsValueClosely(string name, double at, double expected)
    {
        Interval x = Interval.Constant(at);
        Interval y =
            name == "exp" ? Interval.Exp(x)
            : name == "log" ? Interval.Log(x)
            : Interval.Sqrt(x);
        Assert.InRange(expected, y.Lower, y.Upper);
        Assert.InRange(y.Upper - y.Lower, 0, 2e-14 * Math.Max(1, Math.Abs(expected)));
    }

    [Fact]
    public void OneTenthTenTimes_HoldsOne()
    {
        // 0.1 is no double; one tenth as a quotient encloses it, and so does the sum.
        Interval tenth = Interval.Constant(1) / Interval.Constant(10);
        Interval sum = Interval.Constant(0);
        for (int i = 0; i < 10; i++)
        {
            sum += tenth;
        }
        Assert.InRange(1.0, sum.Lower, sum.Upper);
        Assert.True(sum.Upper > sum.Lower);
    }

    [Fact]
    public void QuotientByARangeWithZero_IsEverything() =>
        Assert.Equal(Interval.Everything, Interval.Constant(1) / new Interval(-1, 1));

    [Fact]
    public void ProductOfTwoUnknownsOfOneRange_IsNotASquare()
    {
        // x and y both in −1 … 1 are two numbers: their product reaches −1.
        Interval product = new Interval(-1, 1) * new Interval(-1, 1);
        Assert.InRange(-1.0, product.Lower, product.Upper);
    }

    [Fact]
    public void Formula_OverRanges_EnclosesItsValuesAtPointsInside() =>
        Gen.Select(Ranges, Ranges, Gen.Double[0, 1], Gen.Double[0, 1])
            .Sample(t =>
            {
                (Interval x, Interval y, double u, double v) = t;
                double px = Math.Min(x.Upper, x.Lower + u * (x.Upper - x.Lower));
                double py = Math.Min(y.Upper, y.Lower + v * (y.Upper - y.Lower));
                Interval all = Formula(x, y);
                double value = Formula(new F64(px), new F64(py)).Value;
                return all.Lower <= value && value <= all.Upper;
            });

    [Fact]
    public void Gradient_OverRanges_EnclosesTheMeanValueTheorem() =>
        Gen.Select(Ranges, Ranges, Gen.Double[0, 1], Gen.Double[0, 1])
            .Sample(t =>
            {
                (Interval x, Interval y, double u, double v) = t;
                double px = x.Lower + u * (x.Upper - x.Lower);
                double py = y.Lower + v * (y.Upper - y.Lower);
                IntervalGradient g = Formula(IntervalGradient.VariableX(x), IntervalGradient.VariableY(y));
                Interval bound =
                    Formula(Interval.Constant(x.Lower), Interval.Constant(y.Lower))
                    + g.ByX * (Interval.Constant(px) - Interval.Constant(x.Lower))
                    + g.ByY * (Interval.Constant(py) - Interval.Constant(y.Lower));
                double value = Formula(new F64(px), new F64(py)).Value;
                return bound.Lower <= value && value <= bound.Upper;
            });

    [Fact]
    public void Interpolation_OverARange_EnclosesTheCurveAndItsSlope()
    {
        PiecewiseCubic curve = new([0.0, 1, 2, 4], [1.0, 3, 2, 0]);
        Gen.Select(Gen.Double[-1, 4], Gen.Double[0, 2], Gen.Double[0, 1])
            .Sample(t =>
            {
                (double a, double width, double share) = t;
                Interval x = new(a, a + width);
                IntervalGradient g = IntervalGradient.Interpolate(curve, IntervalGradient.VariableX(x));
                (double value, double slope) = curve.Evaluate(a + share * width);
                return g.Value.Lower <= value && value <= g.Value.Upper && g.ByX.Lower <= slope && slope <= g.ByX.Upper;
            });
    }

    private static T Formula<T>(T x, T y)
        where T : struct, IScalar<T>
    {
        T r = T.Sqrt(T.MultiplyAdd(x, x, y * y) + T.Constant(0.1));
        T bump = T.Exp(T.Constant(-2) * (r - T.Constant(1)) * (r - T.Constant(1)));
        return T.IfPositive(x, bump / r + T.Abs(y), bump / r + T.Abs(y) + T.Max(-x, T.Constant(0)))
            + T.Log(r) * T.Min(x, y);
    }
}
