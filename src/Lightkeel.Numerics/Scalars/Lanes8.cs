using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Lightkeel.Numerics.Scalars;

/// <summary>Eight doubles side by side in one 512-bit vector.</summary>
/// <param name="Values">The lanes.</param>
public readonly record struct Lanes8(Vector512<double> Values) : ILane<Lanes8>
{
    /// <inheritdoc/>
    public static int LaneCount => 8;

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Constant(double value) => new(Vector512.Create(value));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Load(ReadOnlySpan<double> values) => new(Vector512.Create(values));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator +(Lanes8 a, Lanes8 b) => new(a.Values + b.Values);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator -(Lanes8 a, Lanes8 b) => new(a.Values - b.Values);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator -(Lanes8 a) => new(-a.Values);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator *(Lanes8 a, Lanes8 b) => new(a.Values * b.Values);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator /(Lanes8 a, Lanes8 b) => new(a.Values / b.Values);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator *(double a, Lanes8 b) => new(Vector512.Create(a) * b.Values);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 MultiplyAdd(Lanes8 a, Lanes8 b, Lanes8 c) =>
        new(Vector512.FusedMultiplyAdd(a.Values, b.Values, c.Values));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Exp(Lanes8 x) => ElementaryFunctions.Exp(x);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Log(Lanes8 x) => ElementaryFunctions.Log(x);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Sqrt(Lanes8 x) => new(Vector512.Sqrt(x.Values));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Abs(Lanes8 x) => new(Vector512.Abs(x.Values));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Max(Lanes8 a, Lanes8 b) => new(Vector512.MaxNative(a.Values, b.Values));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Min(Lanes8 a, Lanes8 b) => new(Vector512.MinNative(a.Values, b.Values));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 IfPositive(Lanes8 test, Lanes8 then, Lanes8 otherwise) =>
        new(
            Vector512.ConditionalSelect(
                Vector512.GreaterThan(test.Values, Vector512<double>.Zero),
                then.Values,
                otherwise.Values
            )
        );

    /// <inheritdoc/>
    public static Lanes8 Interpolate(PiecewiseCubic curve, Lanes8 x)
    {
        Span<double> lanes = stackalloc double[8];
        for (int i = 0; i < 8; i++)
        {
            lanes[i] = curve.Value(x.Values[i]);
        }
        return Load(lanes);
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 PowerOfTwo(Lanes8 shiftedExponent) =>
        new(Vector512.ShiftLeft(shiftedExponent.Values.AsInt64() + Vector512.Create(1023L), 52).AsDouble());

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (Lanes8 Mantissa, Lanes8 Exponent) Split(Lanes8 x)
    {
        Vector512<long> bits = x.Values.AsInt64();
        // Small integers become doubles by way of the mantissa of 2^52, which every instruction set can do.
        Vector512<long> raised = Vector512.ShiftRightLogical(bits, 52) | Vector512.Create(0x4330_0000_0000_0000L);
        Vector512<double> exponent = raised.AsDouble() - Vector512.Create(4503599627370496.0 + 1023.0);
        Vector512<long> mantissa =
            (bits & Vector512.Create(0x000F_FFFF_FFFF_FFFFL)) | Vector512.Create(0x3FF0_0000_0000_0000L);
        return (new(mantissa.AsDouble()), new(exponent));
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Total(Lanes8 x) => Lanes4.Total(new(x.Values.GetLower() + x.Values.GetUpper()));

    /// <inheritdoc/>
    public static double TotalSlope(Lanes8 x) => 0;
}
