using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Lightkeel.Numerics.Scalars;

/// <summary>Four doubles side by side in one 256-bit vector.</summary>
/// <param name="Values">The lanes.</param>
public readonly record struct Lanes4(Vector256<double> Values) : ILane<Lanes4>
{
    /// <inheritdoc/>
    public static int LaneCount => 4;

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Constant(double value) => new(Vector256.Create(value));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Load(ReadOnlySpan<double> values) => new(Vector256.Create(values));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator +(Lanes4 a, Lanes4 b) => new(a.Values + b.Values);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator -(Lanes4 a, Lanes4 b) => new(a.Values - b.Values);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator -(Lanes4 a) => new(-a.Values);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator *(Lanes4 a, Lanes4 b) => new(a.Values * b.Values);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator /(Lanes4 a, Lanes4 b) => new(a.Values / b.Values);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator *(double a, Lanes4 b) => new(Vector256.Create(a) * b.Values);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 MultiplyAdd(Lanes4 a, Lanes4 b, Lanes4 c) =>
        new(Vector256.FusedMultiplyAdd(a.Values, b.Values, c.Values));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Exp(Lanes4 x) => ElementaryFunctions.Exp(x);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Log(Lanes4 x) => ElementaryFunctions.Log(x);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Sqrt(Lanes4 x) => new(Vector256.Sqrt(x.Values));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Abs(Lanes4 x) => new(Vector256.Abs(x.Values));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Max(Lanes4 a, Lanes4 b) => new(Vector256.MaxNative(a.Values, b.Values));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Min(Lanes4 a, Lanes4 b) => new(Vector256.MinNative(a.Values, b.Values));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 IfPositive(Lanes4 test, Lanes4 then, Lanes4 otherwise) =>
        new(
            Vector256.ConditionalSelect(
                Vector256.GreaterThan(test.Values, Vector256<double>.Zero),
                then.Values,
                otherwise.Values
            )
        );

    /// <inheritdoc/>
    public static Lanes4 Interpolate(PiecewiseCubic curve, Lanes4 x)
    {
        Span<double> lanes = stackalloc double[4];
        for (int i = 0; i < 4; i++)
        {
            lanes[i] = curve.Value(x.Values[i]);
        }
        return Load(lanes);
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 PowerOfTwo(Lanes4 shiftedExponent) =>
        new(Vector256.ShiftLeft(shiftedExponent.Values.AsInt64() + Vector256.Create(1023L), 52).AsDouble());

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (Lanes4 Mantissa, Lanes4 Exponent) Split(Lanes4 x)
    {
        Vector256<long> bits = x.Values.AsInt64();
        // Small integers become doubles by way of the mantissa of 2^52, which every instruction set can do.
        Vector256<long> raised = Vector256.ShiftRightLogical(bits, 52) | Vector256.Create(0x4330_0000_0000_0000L);
        Vector256<double> exponent = raised.AsDouble() - Vector256.Create(4503599627370496.0 + 1023.0);
        Vector256<long> mantissa =
            (bits & Vector256.Create(0x000F_FFFF_FFFF_FFFFL)) | Vector256.Create(0x3FF0_0000_0000_0000L);
        return (new(mantissa.AsDouble()), new(exponent));
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Total(Lanes4 x) => (x.Values[0] + x.Values[2]) + (x.Values[1] + x.Values[3]);

    /// <inheritdoc/>
    public static double TotalSlope(Lanes4 x) => 0;
}
