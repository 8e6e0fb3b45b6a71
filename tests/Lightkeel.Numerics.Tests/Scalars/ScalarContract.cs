using CsCheck;
using Lightkeel.Numerics.Scalars;
using Xunit;

namespace Lightkeel.Numerics.Tests.Scalars;

/// <summary>One body of checks that every number kind of the kernels passes.</summary>
public abstract class ScalarContract<T>
    where T : struct, IScalar<T>
{
    private static double Mean(T x) => T.Total(x) / T.LaneCount;

    [Fact]
    public void Exp_OverItsRange_AgreesWithTheRuntimeLibrary()
    {
        // The runtime's Math.Exp (C library, below 1 ulp) is the outside reference.
        Gen.Double[-700, 700]
            .Sample(x =>
            {
                double expected = Math.Exp(x);
                Assert.Equal(1.0, Mean(T.Exp(T.Constant(x))) / expected, 1e-15);
            });
    }

    [Theory]
    [InlineData(-800.0), InlineData(-1e6), InlineData(double.NegativeInfinity)]
    public void Exp_FarBelow_IsZeroAndNeverNaN(double x) => Assert.Equal(0.0, Mean(T.Exp(T.Constant(x))));

    [Fact]
    public void Log_OfPositiveNumbers_AgreesWithTheRuntimeLibrary()
    {
        Gen.Double[-690, 690]
            .Sample(y =>
            {
                double x = Math.Exp(y);
                double expected = Math.Log(x);
                Assert.Equal(expected, Mean(T.Log(T.Constant(x))), 4e-16 * Math.Max(1, Math.Abs(expected)));
            });
    }

    [Fact]
    public void Arithmetic_OfConstants_IsThatOfDoubles()
    {
        Gen.Select(Gen.Double[-1e3, 1e3], Gen.Double[0.1, 1e3], Gen.Double[-1e3, 1e3])
            .Sample(t =>
            {
                (double a, double b, double c) = t;
                Assert.Equal(a + b, Mean(T.Constant(a) + T.Constant(b)));
                Assert.Equal(a - b, Mean(T.Constant(a) - T.Constant(b)));
                Assert.Equal(a * b, Mean(T.Constant(a) * T.Constant(b)));
                Assert.Equal(a / b, Mean(T.Constant(a) / T.Constant(b)));
                Assert.Equal(a * b, Mean(a * T.Constant(b)));
                Assert.Equal(-a, Mean(-T.Constant(a)));
                Assert.Equal(
                    Math.FusedMultiplyAdd(a, b, c),
                    Mean(T.MultiplyAdd(T.Constant(a), T.Constant(b), T.Constant(c)))
                );
                Assert.Equal(Math.Sqrt(b), Mean(T.Sqrt(T.Constant(b))));
                Assert.Equal(Math.Abs(a), Mean(T.Abs(T.Constant(a))));
                Assert.Equal(Math.Max(a, c), Mean(T.Max(T.Constant(a), T.Constant(c))));
                Assert.Equal(Math.Min(a, c), Mean(T.Min(T.Constant(a), T.Constant(c))));
                Assert.Equal(a > 0 ? b : c, Mean(T.IfPositive(T.Constant(a), T.Constant(b), T.Constant(c))));
            });
    }

    [Fact]
    public void Load_OfConsecutiveValues_AddsUpToTheirSum()
    {
        double[] values = [.. Enumerable.Range(1, T.LaneCount).Select(i => (double)i)];
        Assert.Equal(values.Sum(), T.Total(T.Load(values)));
    }

    [Fact]
    public void Interpolate_InsideTheTable_ReturnsTheCurve()
    {
        PiecewiseCubic curve = new([0, 1, 2, 4], [1, 3, 2, 0.5]);
        Assert.Equal(curve.Value(1.3), Mean(T.Interpolate(curve, T.Constant(1.3))), 1e-15);
    }
}

public sealed class F64Tests : ScalarContract<F64>;

public sealed class Lanes4Tests : ScalarContract<Lanes4>;

public sealed class Lanes8Tests : ScalarContract<Lanes8>;

public sealed class Dual1Tests : DualContract<Dual1>;

public sealed class Dual4Tests : DualContract<Dual4>;

public sealed class Dual8Tests : DualContract<Dual8>;

/// <summary>What numbers with a derivative pass besides.</summary>
public abstract class DualContract<T> : ScalarContract<T>
    where T : struct, IDual<T>
{
    [Fact]
    public void Slope_OfAComposedFormula_IsItsDerivative()
    {
        // d/dx [ e^(−x²) √(1 + x) / (2 + x) + ln(3 + x) ], worked out by hand.
        Gen.Double[-0.9, 2]
            .Sample(x =>
            {
                T v = T.Variable(x, 1);
                T y = T.Exp(-(v * v)) * T.Sqrt(T.Constant(1) + v) / (T.Constant(2) + v) + T.Log(T.Constant(3) + v);
                double f = Math.Exp(-x * x) * Math.Sqrt(1 + x) / (2 + x);
                double expected = f * (-2 * x + 0.5 / (1 + x) - 1 / (2 + x)) + 1 / (3 + x);
                Assert.Equal(expected, T.TotalSlope(y) / T.LaneCount, 1e-13 * Math.Max(1, Math.Abs(expected)));
            });
    }

    [Fact]
    public void Sqrt_AtZero_HasZeroSlope() => Assert.Equal(0, T.TotalSlope(T.Sqrt(T.Variable(0, 1))));

    [Fact]
    public void Interpolate_InsideTheTable_HasTheCurvesSlope()
    {
        PiecewiseCubic curve = new([0, 1, 2, 4], [1, 3, 2, 0.5]);
        Assert.Equal(
            2 * curve.Evaluate(1.3).Slope,
            T.TotalSlope(T.Interpolate(curve, T.Variable(1.3, 2))) / T.LaneCount,
            1e-14
        );
    }
}
