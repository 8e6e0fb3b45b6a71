using System.Runtime.CompilerServices;
using Lightkeel.Numerics.Scalars;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Optics.Films;

namespace Lightkeel.Physics.Pressure;

/// <summary>
/// How an element answers light, as the kernel needs it: with light direction b, unit normal n of the lit side and
/// μ = −n·b, each unit of intercepted power divided by c pushes with along(μ) b − normal(μ) n.
/// </summary>
internal interface ISurfaceResponse
{
    /// <summary>False when <see cref="Along"/> is zero everywhere, so that its sums are left out.</summary>
    static abstract bool PushesAlongBeam { get; }

    /// <summary>Push along the light per unit of intercepted power over c.</summary>
    T Along<T>(T mu)
        where T : struct, IScalar<T>;

    /// <summary>Push against the normal per unit of intercepted power over c.</summary>
    T Normal<T>(T mu)
        where T : struct, IScalar<T>;

    /// <summary>Power absorbed as shares of the intercepted power and of the push along the light.</summary>
    (double OfPower, double OfAlong) Absorption { get; }
}

/// <summary>A perfect mirror: 2 μ against the normal, nothing along the light.</summary>
internal readonly struct MirrorResponse : ISurfaceResponse
{
    public static bool PushesAlongBeam => false;

    public (double OfPower, double OfAlong) Absorption => (0, 0);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Along<T>(T mu)
        where T : struct, IScalar<T> => T.Constant(0);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Normal<T>(T mu)
        where T : struct, IScalar<T> => mu + mu;
}

/// <summary>Constant shares; derivation at <see cref="OpticalCoefficients"/>.</summary>
internal readonly struct CoefficientResponse : ISurfaceResponse
{
    private readonly double _along;
    private readonly double _specular;
    private readonly double _even;

    public CoefficientResponse(in OpticalCoefficients optics)
    {
        // (1 − Ts) b − Rs (b + 2 μ n) − (2/3)(Rd + A e) n  =  (1 − Ts − Rs) b − [2 Rs μ + (2/3)(Rd + A e)] n.
        _along = optics.Diffuse + optics.Absorbed;
        _specular = 2 * optics.Specular;
        _even = 2.0 / 3 * (optics.Diffuse + optics.Absorbed * optics.ThermalAsymmetry);
        Absorption = (optics.Absorbed, 0);
    }

    public static bool PushesAlongBeam => true;

    public (double OfPower, double OfAlong) Absorption { get; }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Along<T>(T mu)
        where T : struct, IScalar<T> => T.Constant(_along);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Normal<T>(T mu)
        where T : struct, IScalar<T> => T.MultiplyAdd(T.Constant(_specular), mu, T.Constant(_even));
}

/// <summary>A film that absorbs nothing, in unpolarised light: 2 R(μ) μ against the normal, nothing along the light.</summary>
internal readonly struct ClearFilmResponse(FilmCurve curve) : ISurfaceResponse
{
    public static bool PushesAlongBeam => false;

    public (double OfPower, double OfAlong) Absorption => (0, 0);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Along<T>(T mu)
        where T : struct, IScalar<T> => T.Constant(0);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Normal<T>(T mu)
        where T : struct, IScalar<T> => curve.Unpolarised(mu).Reflected * (mu + mu);
}

/// <summary>A film in unpolarised light: A(μ) along the light, 2 R(μ) μ + (2/3) e A(μ) against the normal.</summary>
internal readonly struct FilmResponse(FilmCurve curve, double thermalAsymmetry) : ISurfaceResponse
{
    private readonly double _heat = 2.0 / 3 * thermalAsymmetry;

    public static bool PushesAlongBeam => true;

    // What pushes along the light is what is absorbed.
    public (double OfPower, double OfAlong) Absorption => (0, 1);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Along<T>(T mu)
        where T : struct, IScalar<T>
    {
        (T reflected, T passed) = curve.Unpolarised(mu);
        return T.Constant(1) - reflected - passed;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Normal<T>(T mu)
        where T : struct, IScalar<T>
    {
        (T reflected, T passed) = curve.Unpolarised(mu);
        T absorbed = T.Constant(1) - reflected - passed;
        return T.MultiplyAdd(reflected, mu + mu, T.Constant(_heat) * absorbed);
    }
}
