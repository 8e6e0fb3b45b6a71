using System.Runtime.CompilerServices;
using Lightkeel.Numerics.Scalars;

namespace Lightkeel.Physics.Optics.Films;

/// <summary>Shares of a film in vacuum at one wavelength, for any incidence and polarisation.</summary>
/// <remarks>See <see cref="FilmMatrix.Squares"/> for the series. Immutable; safe to share between threads.</remarks>
public readonly struct FilmCurve
{
    private readonly double[] _series;
    private readonly int _count;

    internal FilmCurve(double[] series, int count, bool isLossless, double error) =>
        (_series, _count, IsLossless, Error) = (series, count, isLossless, error);

    /// <summary>Largest error of a share times the cosine of incidence, at places that were not fitted.</summary>
    public double Error { get; }

    /// <summary>True when nothing is absorbed at any incidence.</summary>
    public bool IsLossless { get; }

    /// <summary>Shares of unpolarised or circularly polarised light.</summary>
    /// <param name="cosine">Cosine of incidence, 0 … 1.</param>
    public FilmShares Unpolarised(double cosine) => FilmShares.Mean(Across(cosine), Along(cosine));

    /// <summary>Shares of light whose field lies across the plane of incidence (s).</summary>
    /// <param name="cosine">Cosine of incidence, 0 … 1.</param>
    public FilmShares Across(double cosine) => Of(cosine, 0);

    /// <summary>Shares of light whose field lies in the plane of incidence (p).</summary>
    /// <param name="cosine">Cosine of incidence, 0 … 1.</param>
    public FilmShares Along(double cosine) => Of(cosine, 1);

    /// <summary>Shares of linearly polarised light.</summary>
    /// <param name="cosine">Cosine of incidence, 0 … 1.</param>
    /// <param name="alongShare">Share of the field's square that lies in the plane of incidence, 0 … 1.</param>
    public FilmShares Polarised(double cosine, double alongShare)
    {
        FilmShares s = Across(cosine);
        FilmShares p = Along(cosine);
        return new(
            s.Reflected + alongShare * (p.Reflected - s.Reflected),
            s.Passed + alongShare * (p.Passed - s.Passed),
            s.Absorbed + alongShare * (p.Absorbed - s.Absorbed)
        );
    }

    /// <summary>Reflected and passed share of one polarisation in the kernel's numbers.</summary>
    /// <param name="mu">Cosine of incidence, above zero.</param>
    /// <param name="polarisation">0 for s, 1 for p.</param>
    /// <typeparam name="T">Kind of number.</typeparam>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal (T Reflected, T Passed) Shares<T>(T mu, int polarisation)
        where T : struct, IScalar<T>
    {
        T one = T.Constant(1);
        T w = mu * mu;
        T t = T.MultiplyAdd(T.Constant(2), w, T.Constant(-1));
        T four = T.Constant(4);
        if (IsLossless)
        {
            T lossless = four * w / Sum(polarisation, t);
            return (one - lossless, lossless);
        }
        int first = 4 * polarisation;
        T over = one / T.MultiplyAdd(mu, Sum(first + 1, t), Sum(first, t));
        return (T.MultiplyAdd(mu, Sum(first + 3, t), Sum(first + 2, t)) * over, four * w * over);
    }

    /// <summary>Reflected and passed share of unpolarised light in the kernel's numbers.</summary>
    /// <param name="mu">Cosine of incidence, above zero.</param>
    /// <typeparam name="T">Kind of number.</typeparam>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal (T Reflected, T Passed) Unpolarised<T>(T mu)
        where T : struct, IScalar<T>
    {
        (T rs, T ps) = Shares(mu, 0);
        (T rp, T pp) = Shares(mu, 1);
        return (0.5 * (rs + rp), 0.5 * (ps + pp));
    }

    private FilmShares Of(double cosine, int polarisation)
    {
        if (cosine <= 0)
        {
            return new(1, 0, 0);
        }
        (F64 reflected, F64 passed) = Shares<F64>(F64.Constant(cosine), polarisation);
        double r = Math.Clamp(F64.Total(reflected), 0, 1);
        double p = Math.Clamp(F64.Total(passed), 0, 1 - r);
        return new(r, p, IsLossless ? 0 : 1 - r - p);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private T Sum<T>(int kind, T t)
        where T : struct, IScalar<T>
    {
        ReadOnlySpan<double> series = _series.AsSpan(kind * _count, _count);
        T twice = t + t;
        (T b1, T b2) = (T.Constant(0), T.Constant(0));
        for (int k = series.Length - 1; k > 0; k--)
        {
            (b1, b2) = (T.MultiplyAdd(twice, b1, T.Constant(series[k]) - b2), b1);
        }
        return T.MultiplyAdd(t, b1, T.Constant(series[0]) - b2);
    }
}
