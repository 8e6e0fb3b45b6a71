using System.Runtime.CompilerServices;

namespace Lightkeel.Numerics.Scalars;

/// <summary>One number with its derivative along one direction: value and slope travel through the same formula.</summary>
/// <param name="Value">The number.</param>
/// <param name="Slope">Its derivative.</param>
public readonly record struct Dual1(double Value, double Slope) : IDual<Dual1>
{
    /// <inheritdoc/>
    public static int LaneCount => 1;

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual1 Constant(double value) => new(value, 0);

    /// <inheritdoc/>
    public static Dual1 Variable(double value, double slope) => new(value, slope);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual1 Load(ReadOnlySpan<double> values) => new(values[0], 0);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual1 operator +(Dual1 a, Dual1 b) => new(a.Value + b.Value, a.Slope + b.Slope);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual1 operator -(Dual1 a, Dual1 b) => new(a.Value - b.Value, a.Slope - b.Slope);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual1 operator -(Dual1 a) => new(-a.Value, -a.Slope);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual1 operator *(Dual1 a, Dual1 b) =>
        new(a.Value * b.Value, Math.FusedMultiplyAdd(a.Value, b.Slope, a.Slope * b.Value));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual1 operator /(Dual1 a, Dual1 b)
    {
        double quotient = a.Value / b.Value;
        return new(quotient, (a.Slope - quotient * b.Slope) / b.Value);
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual1 operator *(double a, Dual1 b) => new(a * b.Value, a * b.Slope);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual1 MultiplyAdd(Dual1 a, Dual1 b, Dual1 c) =>
        new(
            Math.FusedMultiplyAdd(a.Value, b.Value, c.Value),
            Math.FusedMultiplyAdd(a.Value, b.Slope, Math.FusedMultiplyAdd(a.Slope, b.Value, c.Slope))
        );

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual1 Exp(Dual1 x)
    {
        double value = ElementaryFunctions.Exp(new F64(x.Value)).Value;
        return new(value, value * x.Slope);
    }

    /// <inheritdoc/>
    public static Dual1 Log(Dual1 x) => new(ElementaryFunctions.Log(new F64(x.Value)).Value, x.Slope / x.Value);

    /// <inheritdoc/>
    public static Dual1 Sqrt(Dual1 x)
    {
        double root = Math.Sqrt(x.Value);
        return new(root, root > 0 ? 0.5 * x.Slope / root : 0);
    }

    /// <inheritdoc/>
    public static Dual1 Abs(Dual1 x) => x.Value < 0 ? -x : x;

    /// <inheritdoc/>
    public static Dual1 Max(Dual1 a, Dual1 b) => IfPositive(b - a, b, a);

    /// <inheritdoc/>
    public static Dual1 Min(Dual1 a, Dual1 b) => IfPositive(a - b, b, a);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual1 IfPositive(Dual1 test, Dual1 then, Dual1 otherwise) => test.Value > 0 ? then : otherwise;

    /// <inheritdoc/>
    public static Dual1 Interpolate(PiecewiseCubic curve, Dual1 x)
    {
        (double value, double slope) = curve.Evaluate(x.Value);
        return new(value, slope * x.Slope);
    }

    /// <inheritdoc/>
    public static double Total(Dual1 x) => x.Value;

    /// <inheritdoc/>
    public static double TotalSlope(Dual1 x) => x.Slope;
}
