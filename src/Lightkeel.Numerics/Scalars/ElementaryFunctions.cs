using System.Runtime.CompilerServices;

namespace Lightkeel.Numerics.Scalars;

/// <summary>
/// Exponential and logarithm from one source for every lane width: polynomials with fused multiply-adds only, so each
/// value has the same bits on every processor and at every width.
/// </summary>
/// <remarks>
/// Polynomials were fitted at Chebyshev nodes in 60-digit arithmetic; the fit errors are 1.6e-17 (exp) and
/// 5.4e-19 (log) relative, so rounding dominates.
/// </remarks>
internal static class ElementaryFunctions
{
    private const double Shift = 6755399441055744.0; // 1.5·2^52: adding it rounds to an integer.
    private const double InverseLn2 = 1.4426950408889634;
    private const double Ln2 = 0.6931471805599453;
    private const double Ln2Tail = 2.3190468138462996e-17;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Exp<T>(T x)
        where T : struct, ILane<T>
    {
        // x = n ln 2 + r with |r| ≤ ln 2 / 2, e^x = 2^n (1 + r + r² q(r)).
        T clamped = T.Min(T.Max(x, T.Constant(-708.0)), T.Constant(709.7));
        T shifted = T.MultiplyAdd(clamped, T.Constant(InverseLn2), T.Constant(Shift));
        T n = shifted - T.Constant(Shift);
        T r = T.MultiplyAdd(n, T.Constant(-Ln2), clamped);
        r = T.MultiplyAdd(n, T.Constant(-Ln2Tail), r);
        T q = T.Constant(2.510038549551032e-08);
        q = T.MultiplyAdd(q, r, T.Constant(2.7620088445409746e-07));
        q = T.MultiplyAdd(q, r, T.Constant(2.7557268459997064e-06));
        q = T.MultiplyAdd(q, r, T.Constant(2.4801521295954376e-05));
        q = T.MultiplyAdd(q, r, T.Constant(0.00019841269863053618));
        q = T.MultiplyAdd(q, r, T.Constant(0.0013888888917213717));
        q = T.MultiplyAdd(q, r, T.Constant(0.008333333333330062));
        q = T.MultiplyAdd(q, r, T.Constant(0.04166666666662413));
        q = T.MultiplyAdd(q, r, T.Constant(0.16666666666666669));
        q = T.MultiplyAdd(q, r, T.Constant(0.5000000000000001));
        T tail = T.MultiplyAdd(r * r, q, r);
        T scale = T.PowerOfTwo(shifted);
        T value = T.MultiplyAdd(scale, tail, scale);
        return T.IfPositive(x + T.Constant(708.0), value, T.Constant(0));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Log<T>(T x)
        where T : struct, ILane<T>
    {
        // x = 2^e m with m in [√½, √2): ln x = e ln 2 + 2 atanh(f), f = (m − 1)/(m + 1).
        (T mantissa, T exponent) = T.Split(x);
        T high = mantissa - T.Constant(1.4142135623730951);
        T m = T.IfPositive(high, T.Constant(0.5) * mantissa, mantissa);
        T e = T.IfPositive(high, exponent + T.Constant(1), exponent);
        T f = (m - T.Constant(1)) / (m + T.Constant(1));
        T s = f * f;
        T g = T.Constant(0.06543453943982513);
        g = T.MultiplyAdd(g, s, T.Constant(0.06634373097798298));
        g = T.MultiplyAdd(g, s, T.Constant(0.07693120354484832));
        g = T.MultiplyAdd(g, s, T.Constant(0.09090897810816391));
        g = T.MultiplyAdd(g, s, T.Constant(0.11111111195943532));
        g = T.MultiplyAdd(g, s, T.Constant(0.14285714285401424));
        g = T.MultiplyAdd(g, s, T.Constant(0.2000000000000044));
        g = T.MultiplyAdd(g, s, T.Constant(0.3333333333333333));
        T twice = f + f;
        T atanh = T.MultiplyAdd(twice * s, g, twice);
        return T.MultiplyAdd(e, T.Constant(Ln2), T.MultiplyAdd(e, T.Constant(Ln2Tail), atanh));
    }
}
