using System.Runtime.CompilerServices;
using Lightkeel.Numerics.Scalars;
using Lightkeel.Physics.Optics;

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

    /// <summary>Share of the intercepted power that is absorbed, the same at every incidence.</summary>
    double AbsorbedShare { get; }
}

/// <summary>A perfect mirror: 2 μ against the normal, nothing along the light.</summary>
internal readonly struct MirrorResponse : ISurfaceResponse
{
    public static bool PushesAlongBeam => false;

    public double AbsorbedShare => 0;

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
        AbsorbedShare = optics.Absorbed;
    }

    public static bool PushesAlongBeam => true;

    public double AbsorbedShare { get; }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Along<T>(T mu)
        where T : struct, IScalar<T> => T.Constant(_along);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Normal<T>(T mu)
        where T : struct, IScalar<T> => T.MultiplyAdd(T.Constant(_specular), mu, T.Constant(_even));
}
