using System.Runtime.CompilerServices;

namespace Lightkeel.Numerics.Scalars;

/// <summary>An interval that encloses a number: whatever rounding does, the number computed with is between its ends.</summary>
/// <remarks>
/// Ends are rounded outwards by one unit in the last place after every operation, by more where a function's stated error asks
/// for it. So a formula of <see cref="IScalar{TSelf}"/> gives an enclosure of its exact value over all numbers inside its arguments.
/// A quotient by an interval that holds zero is the whole line. Source: Introduction to Interval Analysis (SIAM, 2009),
/// chapters 2 and 5, doi:10.1137/1.9780898717716. The default value is the number zero.
/// </remarks>
/// <param name="Lower">Lower end; may be −∞.</param>
/// <param name="Upper">Upper end, not below the lower; may be +∞.</param>
public readonly record struct Interval(double Lower, double Upper) : IScalar<Interval>
{
    private const double ExpError = 4e-15;
    private const double LogError = 1e-15;
    private const double SmallestExp = 1e-307;
    private const double SmallestNormal = 2.2250738585072014e-308;

    /// <summary>All numbers.</summary>
    public static Interval Everything { get; } = new(double.NegativeInfinity, double.PositiveInfinity);

    /// <inheritdoc/>
    public static int LaneCount => 1;

    /// <summary>Half the sum of the ends.</summary>
    public double Middle => 0.5 * (Lower + Upper);

    /// <summary>A bound of the distance of the ends from <see cref="Middle"/>.</summary>
    public double Radius => Up(Math.Max(Upper - Middle, Middle - Lower));

    /// <summary>The larger magnitude of the ends.</summary>
    public double Magnitude => Math.Max(Math.Abs(Lower), Math.Abs(Upper));

    /// <summary>True when both ends are finite.</summary>
    public bool IsFinite => double.IsFinite(Lower) && double.IsFinite(Upper);

    /// <summary>All numbers within a distance of one, rounded outwards.</summary>
    /// <param name="middle">The number.</param>
    /// <param name="radius">The distance, not negative.</param>
    public static Interval Around(double middle, double radius) => new(Down(middle - radius), Up(middle + radius));

    /// <inheritdoc/>
    public static Interval Constant(double value) => new(value, value);

    /// <inheritdoc/>
    public static Interval Load(ReadOnlySpan<double> values) => new(values[0], values[0]);

    /// <summary>The smallest interval that holds two.</summary>
    public static Interval Hull(Interval a, Interval b) => new(Math.Min(a.Lower, b.Lower), Math.Max(a.Upper, b.Upper));

    /// <summary>What two enclosures of the same number share.</summary>
    public static Interval Common(Interval a, Interval b) =>
        new(Math.Max(a.Lower, b.Lower), Math.Min(a.Upper, b.Upper));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Interval operator +(Interval a, Interval b) => new(Down(a.Lower + b.Lower), Up(a.Upper + b.Upper));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Interval operator -(Interval a, Interval b) => new(Down(a.Lower - b.Upper), Up(a.Upper - b.Lower));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Interval operator -(Interval a) => new(-a.Upper, -a.Lower);

    /// <inheritdoc/>
    public static Interval operator *(Interval a, Interval b)
    {
        // The usual case first: nothing below zero.
        if (a.Lower >= 0 && b.Lower >= 0)
        {
            return new(Down(Product(a.Lower, b.Lower)), Up(Product(a.Upper, b.Upper)));
        }
        double ll = Product(a.Lower, b.Lower);
        double lu = Product(a.Lower, b.Upper);
        double ul = Product(a.Upper, b.Lower);
        double uu = Product(a.Upper, b.Upper);
        return new(
            Down(Math.Min(Math.Min(ll, lu), Math.Min(ul, uu))),
            Up(Math.Max(Math.Max(ll, lu), Math.Max(ul, uu)))
        );
    }

    /// <inheritdoc/>
    public static Interval operator /(Interval a, Interval b) =>
        b is { Lower: > 0 } or { Upper: < 0 } ? a * new Interval(Down(1 / b.Upper), Up(1 / b.Lower)) : Everything;

    /// <inheritdoc/>
    public static Interval operator *(double a, Interval b) => Constant(a) * b;

    /// <inheritdoc/>
    public static Interval MultiplyAdd(Interval a, Interval b, Interval c) => a * b + c;

    /// <inheritdoc/>
    public static Interval Exp(Interval x)
    {
        double low = F64.Exp(new(x.Lower)).Value;
        double high = F64.Exp(new(x.Upper)).Value;
        return new(
            x.Lower < -707 ? 0 : Down(low * (1 - ExpError)),
            x.Upper > 709 ? double.PositiveInfinity : Math.Max(SmallestExp, Up(high * (1 + ExpError)))
        );
    }

    /// <inheritdoc/>
    public static Interval Log(Interval x) =>
        new(
            x.Lower >= SmallestNormal ? LogBound(x.Lower, -1) : double.NegativeInfinity,
            x.Upper >= SmallestNormal && double.IsFinite(x.Upper) ? LogBound(x.Upper, 1) : double.PositiveInfinity
        );

    /// <inheritdoc/>
    public static Interval Sqrt(Interval x) =>
        new(x.Lower > 0 ? Math.Max(0, Down(Math.Sqrt(x.Lower))) : 0, Up(Math.Sqrt(Math.Max(0, x.Upper))));

    /// <inheritdoc/>
    public static Interval Abs(Interval x) =>
        x.Lower >= 0 ? x
        : x.Upper <= 0 ? -x
        : new(0, x.Magnitude);

    /// <inheritdoc/>
    public static Interval Max(Interval a, Interval b) => new(Math.Max(a.Lower, b.Lower), Math.Max(a.Upper, b.Upper));

    /// <inheritdoc/>
    public static Interval Min(Interval a, Interval b) => new(Math.Min(a.Lower, b.Lower), Math.Min(a.Upper, b.Upper));

    /// <inheritdoc/>
    public static Interval IfPositive(Interval test, Interval then, Interval otherwise) =>
        test.Lower > 0 ? then
        : test.Upper <= 0 ? otherwise
        : Hull(then, otherwise);

    /// <inheritdoc/>
    /// <remarks>The curve is taken as the exact polynomials of its rounded coefficients.</remarks>
    public static Interval Interpolate(PiecewiseCubic curve, Interval x)
    {
        ArgumentNullException.ThrowIfNull(curve);
        return OnPieces(
            curve,
            x,
            (c, t) => Constant(c.C0) + t * (Constant(c.C1) + t * (Constant(c.C2) + t * Constant(c.C3)))
        ).Value;
    }

    /// <summary>The middle: an enclosure has no one value. Sums of lanes are not meant for intervals.</summary>
    public static double Total(Interval x) => x.Middle;

    /// <inheritdoc/>
    public static double TotalSlope(Interval x) => 0;

    /// <summary>Encloses a polynomial over all pieces of a curve that an interval meets, and whether it leaves the table.</summary>
    internal static (Interval Value, bool Leaves) OnPieces(
        PiecewiseCubic curve,
        Interval x,
        Func<(double C0, double C1, double C2, double C3), Interval, Interval> polynomial
    )
    {
        ReadOnlySpan<double> knots = curve.Knots;
        double low = Math.Clamp(x.Lower, knots[0], knots[^1]);
        double high = Math.Clamp(x.Upper, knots[0], knots[^1]);
        Interval? all = null;
        for (int i = curve.PieceAt(low); i <= curve.PieceAt(high); i++)
        {
            Interval t = new(
                Math.Max(0, Down(Math.Max(low, knots[i]) - knots[i])),
                Up(Math.Min(high, knots[i + 1]) - knots[i])
            );
            Interval piece = polynomial(curve.Piece(i), t);
            all = all is { } known ? Hull(known, piece) : piece;
        }
        return (all!.Value, x.Lower < knots[0] || x.Upper > knots[^1]);
    }

    private static double LogBound(double x, int side)
    {
        double value = F64.Log(new(x)).Value;
        return value + side * LogError * Math.Max(1, Math.Abs(value));
    }

    // Zero times infinity comes from a bound that is not known; zero is right for it.
    private static double Product(double a, double b) => a == 0 || b == 0 ? 0 : a * b;

    private static double Down(double x) => double.IsNaN(x) ? double.NegativeInfinity : Math.BitDecrement(x);

    private static double Up(double x) => double.IsNaN(x) ? double.PositiveInfinity : Math.BitIncrement(x);
}
