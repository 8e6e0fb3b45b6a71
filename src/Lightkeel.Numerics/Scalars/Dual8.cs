using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Lightkeel.Numerics.Scalars;

/// <summary>Eight numbers side by side, each with its derivative along one direction: value and slope travel through the same formula.</summary>
/// <remarks>
/// Written on the hardware vector itself, twin of the other widths: one generic dual over the lane types passes the
/// compiler's inlining budget and ran five times slower.
/// </remarks>
/// <param name="Value">The numbers.</param>
/// <param name="Slope">Their derivatives.</param>
public readonly record struct Dual8(Vector512<double> Value, Vector512<double> Slope) : IDual<Dual8>
{
    /// <inheritdoc/>
    public static int LaneCount => 8;

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual8 Constant(double value) => new(Vector512.Create(value), Vector512<double>.Zero);

    /// <inheritdoc/>
    public static Dual8 Variable(double value, double slope) => new(Vector512.Create(value), Vector512.Create(slope));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual8 Load(ReadOnlySpan<double> values) => new(Vector512.Create(values), Vector512<double>.Zero);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual8 operator +(Dual8 a, Dual8 b) => new(a.Value + b.Value, a.Slope + b.Slope);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual8 operator -(Dual8 a, Dual8 b) => new(a.Value - b.Value, a.Slope - b.Slope);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual8 operator -(Dual8 a) => new(-a.Value, -a.Slope);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual8 operator *(Dual8 a, Dual8 b) =>
        new(a.Value * b.Value, Vector512.FusedMultiplyAdd(a.Value, b.Slope, a.Slope * b.Value));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual8 operator /(Dual8 a, Dual8 b)
    {
        Vector512<double> quotient = a.Value / b.Value;
        return new(quotient, (a.Slope - quotient * b.Slope) / b.Value);
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual8 operator *(double a, Dual8 b) =>
        new(Vector512.Create(a) * b.Value, Vector512.Create(a) * b.Slope);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual8 MultiplyAdd(Dual8 a, Dual8 b, Dual8 c) =>
        new(
            Vector512.FusedMultiplyAdd(a.Value, b.Value, c.Value),
            Vector512.FusedMultiplyAdd(a.Value, b.Slope, Vector512.FusedMultiplyAdd(a.Slope, b.Value, c.Slope))
        );

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual8 Exp(Dual8 x)
    {
        Vector512<double> value = ElementaryFunctions.Exp(new Lanes8(x.Value)).Values;
        return new(value, value * x.Slope);
    }

    /// <inheritdoc/>
    public static Dual8 Log(Dual8 x) => new(ElementaryFunctions.Log(new Lanes8(x.Value)).Values, x.Slope / x.Value);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual8 Sqrt(Dual8 x)
    {
        Vector512<double> root = Vector512.Sqrt(x.Value);
        Vector512<double> safe = Select(root, root, Vector512<double>.One);
        return new(root, Select(root, Vector512.Create(0.5) * x.Slope / safe, Vector512<double>.Zero));
    }

    /// <inheritdoc/>
    public static Dual8 Abs(Dual8 x) => new(Vector512.Abs(x.Value), Select(-x.Value, -x.Slope, x.Slope));

    /// <inheritdoc/>
    public static Dual8 Max(Dual8 a, Dual8 b) => IfPositive(b - a, b, a);

    /// <inheritdoc/>
    public static Dual8 Min(Dual8 a, Dual8 b) => IfPositive(a - b, b, a);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Dual8 IfPositive(Dual8 test, Dual8 then, Dual8 otherwise) =>
        new(Select(test.Value, then.Value, otherwise.Value), Select(test.Value, then.Slope, otherwise.Slope));

    /// <inheritdoc/>
    public static Dual8 Interpolate(PiecewiseCubic curve, Dual8 x)
    {
        Span<double> values = stackalloc double[8];
        Span<double> slopes = stackalloc double[8];
        for (int i = 0; i < 8; i++)
        {
            (values[i], slopes[i]) = curve.Evaluate(x.Value[i]);
        }
        return new(Vector512.Create<double>(values), Vector512.Create<double>(slopes) * x.Slope);
    }

    /// <inheritdoc/>
    public static double Total(Dual8 x) => Lanes8.Total(new(x.Value));

    /// <inheritdoc/>
    public static double TotalSlope(Dual8 x) => Lanes8.Total(new(x.Slope));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Select(
        Vector512<double> test,
        Vector512<double> then,
        Vector512<double> otherwise
    ) => Vector512.ConditionalSelect(Vector512.GreaterThan(test, Vector512<double>.Zero), then, otherwise);
}
