using System.Runtime.CompilerServices;

namespace Lightkeel.Numerics.Scalars;

/// <summary>One double as a kernel number: the plain, readable width.</summary>
/// <param name="Value">The number.</param>
public readonly record struct F64(double Value) : ILane<F64>
{
    /// <inheritdoc/>
    public static int LaneCount => 1;

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static F64 Constant(double value) => new(value);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static F64 Load(ReadOnlySpan<double> values) => new(values[0]);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static F64 operator +(F64 a, F64 b) => new(a.Value + b.Value);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static F64 operator -(F64 a, F64 b) => new(a.Value - b.Value);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static F64 operator -(F64 a) => new(-a.Value);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static F64 operator *(F64 a, F64 b) => new(a.Value * b.Value);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static F64 operator /(F64 a, F64 b) => new(a.Value / b.Value);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static F64 operator *(double a, F64 b) => new(a * b.Value);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static F64 MultiplyAdd(F64 a, F64 b, F64 c) => new(Math.FusedMultiplyAdd(a.Value, b.Value, c.Value));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static F64 Exp(F64 x) => ElementaryFunctions.Exp(x);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static F64 Log(F64 x) => ElementaryFunctions.Log(x);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static F64 Sqrt(F64 x) => new(Math.Sqrt(x.Value));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static F64 Abs(F64 x) => new(Math.Abs(x.Value));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static F64 Max(F64 a, F64 b) => new(Math.Max(a.Value, b.Value));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static F64 Min(F64 a, F64 b) => new(Math.Min(a.Value, b.Value));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static F64 IfPositive(F64 test, F64 then, F64 otherwise) => test.Value > 0 ? then : otherwise;

    /// <inheritdoc/>
    public static F64 Interpolate(PiecewiseCubic curve, F64 x) => new(curve.Value(x.Value));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static F64 PowerOfTwo(F64 shiftedExponent) =>
        new(BitConverter.Int64BitsToDouble((BitConverter.DoubleToInt64Bits(shiftedExponent.Value) + 1023) << 52));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (F64 Mantissa, F64 Exponent) Split(F64 x)
    {
        long bits = BitConverter.DoubleToInt64Bits(x.Value);
        double exponent = (double)((bits >> 52) - 1023);
        double mantissa = BitConverter.Int64BitsToDouble((bits & 0x000F_FFFF_FFFF_FFFF) | 0x3FF0_0000_0000_0000);
        return (new(mantissa), new(exponent));
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Total(F64 x) => x.Value;

    /// <inheritdoc/>
    public static double TotalSlope(F64 x) => 0;
}
