namespace Lightkeel.Numerics.Scalars;

/// <summary>What a physics kernel may do with a number: one formula then runs on doubles, SIMD lanes and dual numbers.</summary>
/// <remarks>
/// Kernels never branch on a value; they use <see cref="IfPositive"/>, <see cref="Max"/> and <see cref="Min"/>. All
/// arithmetic follows IEEE 754 binary64; multiply-adds are fused on every implementation, so that lane widths agree.
/// </remarks>
/// <typeparam name="TSelf">The implementing number type.</typeparam>
public interface IScalar<TSelf>
    where TSelf : struct, IScalar<TSelf>
{
    /// <summary>How many independent values one number carries side by side (1, 4 or 8).</summary>
    static abstract int LaneCount { get; }

    /// <summary>The same value in every lane, with zero derivative.</summary>
    static abstract TSelf Constant(double value);

    /// <summary>Reads <see cref="LaneCount"/> consecutive values, with zero derivative.</summary>
    /// <param name="values">At least <see cref="LaneCount"/> values from the start of the span.</param>
    static abstract TSelf Load(ReadOnlySpan<double> values);

    /// <summary>Sum of two numbers.</summary>
    static abstract TSelf operator +(TSelf a, TSelf b);

    /// <summary>Difference of two numbers.</summary>
    static abstract TSelf operator -(TSelf a, TSelf b);

    /// <summary>The negative of a number.</summary>
    static abstract TSelf operator -(TSelf a);

    /// <summary>Product of two numbers.</summary>
    static abstract TSelf operator *(TSelf a, TSelf b);

    /// <summary>Quotient of two numbers.</summary>
    static abstract TSelf operator /(TSelf a, TSelf b);

    /// <summary>Number scaled by a constant.</summary>
    static abstract TSelf operator *(double a, TSelf b);

    /// <summary>a·b + c, rounded once.</summary>
    static abstract TSelf MultiplyAdd(TSelf a, TSelf b, TSelf c);

    /// <summary>e^x, relative error below 4 units in the last place; 0 below −708, +∞ above 709.7.</summary>
    static abstract TSelf Exp(TSelf x);

    /// <summary>Natural logarithm of a positive normal number; absolute error below 2e-16·max(1, |ln x|)·4.</summary>
    static abstract TSelf Log(TSelf x);

    /// <summary>Square root; the derivative at exactly zero is taken as zero.</summary>
    static abstract TSelf Sqrt(TSelf x);

    /// <summary>Absolute value; the derivative at zero is taken as that of +x.</summary>
    static abstract TSelf Abs(TSelf x);

    /// <summary>The larger of two numbers, lane by lane.</summary>
    static abstract TSelf Max(TSelf a, TSelf b);

    /// <summary>The smaller of two numbers, lane by lane.</summary>
    static abstract TSelf Min(TSelf a, TSelf b);

    /// <summary>Lane by lane: <paramref name="then"/> where the test is greater than zero, else <paramref name="otherwise"/>.</summary>
    static abstract TSelf IfPositive(TSelf test, TSelf then, TSelf otherwise);

    /// <summary>Evaluates a piecewise polynomial, lane by lane, with its exact derivative where the type carries one.</summary>
    static abstract TSelf Interpolate(PiecewiseCubic curve, TSelf x);

    /// <summary>Sum of the values of all lanes, pairwise in a fixed order.</summary>
    static abstract double Total(TSelf x);

    /// <summary>Sum of the derivatives of all lanes; zero for numbers that carry none.</summary>
    static abstract double TotalSlope(TSelf x);
}
