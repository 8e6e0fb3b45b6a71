namespace Lightkeel.Numerics.Scalars;

/// <summary>An enclosure of a function of two variables and of both its derivatives, over a box of the variables.</summary>
/// <remarks>
/// Forward differentiation in interval arithmetic: with x as (box, 1, 0) and y as (box, 0, 1) a formula gives the range of its
/// value and of its slopes over the box, so that the mean value theorem bounds what it does between. Where a function has a kink
/// inside the box the slopes enclose those on both sides. Source: Introduction to Interval Analysis (SIAM, 2009), chapter 6,
/// doi:10.1137/1.9780898717716.
/// </remarks>
/// <param name="Value">Range of the value.</param>
/// <param name="ByX">Range of the derivative by x.</param>
/// <param name="ByY">Range of the derivative by y.</param>
public readonly record struct IntervalGradient(Interval Value, Interval ByX, Interval ByY) : IScalar<IntervalGradient>
{
    private static readonly Interval Zero = Interval.Constant(0);

    /// <inheritdoc/>
    public static int LaneCount => 1;

    /// <inheritdoc/>
    public static IntervalGradient Constant(double value) => new(Interval.Constant(value), Zero, Zero);

    /// <inheritdoc/>
    public static IntervalGradient Load(ReadOnlySpan<double> values) => Constant(values[0]);

    /// <summary>The variable x over a range.</summary>
    public static IntervalGradient VariableX(Interval range) => new(range, Interval.Constant(1), Zero);

    /// <summary>The variable y over a range.</summary>
    public static IntervalGradient VariableY(Interval range) => new(range, Zero, Interval.Constant(1));

    /// <inheritdoc/>
    public static IntervalGradient operator +(IntervalGradient a, IntervalGradient b) =>
        new(a.Value + b.Value, a.ByX + b.ByX, a.ByY + b.ByY);

    /// <inheritdoc/>
    public static IntervalGradient operator -(IntervalGradient a, IntervalGradient b) =>
        new(a.Value - b.Value, a.ByX - b.ByX, a.ByY - b.ByY);

    /// <inheritdoc/>
    public static IntervalGradient operator -(IntervalGradient a) => new(-a.Value, -a.ByX, -a.ByY);

    /// <inheritdoc/>
    public static IntervalGradient operator *(IntervalGradient a, IntervalGradient b) =>
        new(a.Value * b.Value, a.ByX * b.Value + a.Value * b.ByX, a.ByY * b.Value + a.Value * b.ByY);

    /// <inheritdoc/>
    public static IntervalGradient operator /(IntervalGradient a, IntervalGradient b)
    {
        Interval inverse = Interval.Constant(1) / b.Value;
        return a * b.Through(inverse, -(inverse * inverse));
    }

    /// <inheritdoc/>
    public static IntervalGradient operator *(double a, IntervalGradient b) => new(a * b.Value, a * b.ByX, a * b.ByY);

    /// <inheritdoc/>
    public static IntervalGradient MultiplyAdd(IntervalGradient a, IntervalGradient b, IntervalGradient c) => a * b + c;

    /// <inheritdoc/>
    public static IntervalGradient Exp(IntervalGradient x)
    {
        Interval value = Interval.Exp(x.Value);
        return x.Through(value, value);
    }

    /// <inheritdoc/>
    public static IntervalGradient Log(IntervalGradient x) =>
        x.Through(Interval.Log(x.Value), Interval.Constant(1) / x.Value);

    /// <inheritdoc/>
    public static IntervalGradient Sqrt(IntervalGradient x)
    {
        Interval value = Interval.Sqrt(x.Value);
        return x.Through(value, Interval.Constant(0.5) / value);
    }

    /// <inheritdoc/>
    public static IntervalGradient Abs(IntervalGradient x) =>
        x.Value.Lower >= 0 ? x
        : x.Value.Upper <= 0 ? -x
        : x.Through(Interval.Abs(x.Value), new Interval(-1, 1));

    /// <inheritdoc/>
    public static IntervalGradient Max(IntervalGradient a, IntervalGradient b) =>
        a.Value.Lower > b.Value.Upper ? a
        : b.Value.Lower > a.Value.Upper ? b
        : Either(a, b, Interval.Max(a.Value, b.Value));

    /// <inheritdoc/>
    public static IntervalGradient Min(IntervalGradient a, IntervalGradient b) =>
        a.Value.Upper < b.Value.Lower ? a
        : b.Value.Upper < a.Value.Lower ? b
        : Either(a, b, Interval.Min(a.Value, b.Value));

    /// <inheritdoc/>
    /// <remarks>The function is taken to be continuous where the test changes its sign.</remarks>
    public static IntervalGradient IfPositive(
        IntervalGradient test,
        IntervalGradient then,
        IntervalGradient otherwise
    ) =>
        test.Value.Lower > 0 ? then
        : test.Value.Upper <= 0 ? otherwise
        : Either(then, otherwise, Interval.Hull(then.Value, otherwise.Value));

    /// <inheritdoc/>
    public static IntervalGradient Interpolate(PiecewiseCubic curve, IntervalGradient x)
    {
        ArgumentNullException.ThrowIfNull(curve);
        (Interval slope, bool leaves) = Interval.OnPieces(
            curve,
            x.Value,
            (c, t) =>
                Interval.Constant(c.C1) + t * (2.0 * Interval.Constant(c.C2) + t * (3.0 * Interval.Constant(c.C3)))
        );
        // Outside its table a curve is constant.
        return x.Through(Interval.Interpolate(curve, x.Value), leaves ? Interval.Hull(slope, Zero) : slope);
    }

    /// <summary>The middle of the value; sums of lanes are not meant for intervals.</summary>
    public static double Total(IntervalGradient x) => x.Value.Middle;

    /// <inheritdoc/>
    public static double TotalSlope(IntervalGradient x) => 0;

    // Chain rule: a function of this number, its value and its slope.
    private IntervalGradient Through(Interval value, Interval slope) => new(value, slope * ByX, slope * ByY);

    private static IntervalGradient Either(IntervalGradient a, IntervalGradient b, Interval value) =>
        new(value, Interval.Hull(a.ByX, b.ByX), Interval.Hull(a.ByY, b.ByY));
}
