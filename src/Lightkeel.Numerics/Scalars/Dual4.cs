using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Lightkeel.Numerics.Scalars;

/// <summary>Four numbers side by side, each with its derivative along one direction: value and slope travel through the same formula.</summary>
/// <remarks>
/// Written on the hardware vector itself, twin of the other widths: one generic dual over the lane types passes the
/// compiler's inlining budget and ran five times slower.
/// </remarks>
/// <param name="Value">The numbers.</param>
/// <param name="Slope">Their derivatives.</param>
public readonly record struct Dual4(Vector256<double> Value, Vector256<double> Slope) : IDual<Dual4>
{
    /// <inheritdoc/>
    public static int LaneCount => 4;

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual4 Constant(double value) => new(Vector256.Create(value), Vector256<double>.Zero);

    /// <inheritdoc/>
    public static Dual4 Variable(double value, double slope) => new(Vector256.Create(value), Vector256.Create(slope));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual4 Load(ReadOnlySpan<double> values) => new(Vector256.Create(values), Vector256<double>.Zero);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual4 operator +(Dual4 a, Dual4 b) => new(a.Value + b.Value, a.Slope + b.Slope);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual4 operator -(Dual4 a, Dual4 b) => new(a.Value - b.Value, a.Slope - b.Slope);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual4 operator -(Dual4 a) => new(-a.Value, -a.Slope);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual4 operator *(Dual4 a, Dual4 b) =>
        new(a.Value * b.Value, Vector256.FusedMultiplyAdd(a.Value, b.Slope, a.Slope * b.Value));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual4 operator /(Dual4 a, Dual4 b)
    {
        Vector256<double> quotient = a.Value / b.Value;
        return new(quotient, (a.Slope - quotient * b.Slope) / b.Value);
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual4 operator *(double a, Dual4 b) =>
        new(Vector256.Create(a) * b.Value, Vector256.Create(a) * b.Slope);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual4 MultiplyAdd(Dual4 a, Dual4 b, Dual4 c) =>
        new(
            Vector256.FusedMultiplyAdd(a.Value, b.Value, c.Value),
            Vector256.FusedMultiplyAdd(a.Value, b.Slope, Vector256.FusedMultiplyAdd(a.Slope, b.Value, c.Slope))
        );

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual4 Exp(Dual4 x)
    {
        Vector256<double> value = ElementaryFunctions.Exp(new Lanes4(x.Value)).Values;
        return new(value, value * x.Slope);
    }

    /// <inheritdoc/>
    public static Dual4 Log(Dual4 x) => new(ElementaryFunctions.Log(new Lanes4(x.Value)).Values, x.Slope / x.Value);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual4 Sqrt(Dual4 x)
    {
        Vector256<double> root = Vector256.Sqrt(x.Value);
        Vector256<double> safe = Select(root, root, Vector256<double>.One);
        return new(root, Select(root, Vector256.Create(0.5) * x.Slope / safe, Vector256<double>.Zero));
    }

    /// <inheritdoc/>
    public static Dual4 Abs(Dual4 x) => new(Vector256.Abs(x.Value), Select(-x.Value, -x.Slope, x.Slope));

    /// <inheritdoc/>
    public static Dual4 Max(Dual4 a, Dual4 b) => IfPositive(b - a, b, a);

    /// <inheritdoc/>
    public static Dual4 Min(Dual4 a, Dual4 b) => IfPositive(a - b, b, a);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual4 IfPositive(Dual4 test, Dual4 then, Dual4 otherwise) =>
        new(Select(test.Value, then.Value, otherwise.Value), Select(test.Value, then.Slope, otherwise.Slope));

    /// <inheritdoc/>
    public static Dual4 Interpolate(PiecewiseCubic curve, Dual4 x)
    {
        Span<double> values = stackalloc double[4];
        Span<double> slopes = stackalloc double[4];
        for (int i = 0; i < 4; i++)
        {
            (values[i], slopes[i]) = curve.Evaluate(x.Value[i]);
        }
        return new(Vector256.Create<double>(values), Vector256.Create<double>(slopes) * x.Slope);
    }

    /// <inheritdoc/>
    public static double Total(Dual4 x) => Lanes4.Total(new(x.Value));

    /// <inheritdoc/>
    public static double TotalSlope(Dual4 x) => Lanes4.Total(new(x.Slope));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Select(
        Vector256<double> test,
        Vector256<double> then,
        Vector256<double> otherwise
    ) => Vector256.ConditionalSelect(Vector256.GreaterThan(test, Vector256<double>.Zero), then, otherwise);
}
