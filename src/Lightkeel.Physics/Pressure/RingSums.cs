using System.Runtime.CompilerServices;
using Lightkeel.Numerics.Scalars;
using Lightkeel.Physics.Beams;

namespace Lightkeel.Physics.Pressure;

/// <summary>Whether the azimuths of a sweep carry weights of their own.</summary>
internal interface IAzimuthWeights
{
    /// <summary>True when each azimuth has its own weight.</summary>
    static abstract bool Vary { get; }
}

/// <summary>Equal weights: the trapezoid rule around a full ring.</summary>
internal readonly struct EqualWeights : IAzimuthWeights
{
    public static bool Vary => false;
}

/// <summary>Each azimuth its own weight: Gauss-Legendre along an arc.</summary>
internal readonly struct OwnWeights : IAzimuthWeights
{
    public static bool Vary => true;
}

/// <summary>
/// Sums around one ring: of the intercepted power, and of its pushes along the light and along the normal, each times
/// 1, cos φ and sin φ. On a ring, position and normal are linear in cos φ and sin φ, so these are all that is needed.
/// </summary>
/// <typeparam name="T">Scalar kind.</typeparam>
internal struct RingSums<T>
    where T : struct, IScalar<T>
{
    public T Power;
    public T Normal;
    public T NormalCos;
    public T NormalSin;
    public T Along;
    public T AlongCos;
    public T AlongSin;

    /// <summary>Adds up a stretch of azimuths of one ring.</summary>
    /// <param name="profile">Beam profile.</param>
    /// <param name="response">Optical response of the lit side.</param>
    /// <param name="light">Light in the surface frame.</param>
    /// <param name="ring">The ring.</param>
    /// <param name="side">+1 when the front is lit, −1 when the back is.</param>
    /// <param name="cosines">Cosines of the azimuths, a multiple of the lane count.</param>
    /// <param name="sines">Their sines.</param>
    /// <param name="weights">Weight of each azimuth; not read where <typeparamref name="TWeights"/> says they are all one.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static RingSums<T> Sweep<TProfile, TResponse, TWeights>(
        TProfile profile,
        TResponse response,
        in SurfaceLight<T> light,
        in Ring ring,
        double side,
        ReadOnlySpan<double> cosines,
        ReadOnlySpan<double> sines,
        ReadOnlySpan<double> weights
    )
        where TProfile : struct, IBeamProfile
        where TResponse : struct, ISurfaceResponse
        where TWeights : struct, IAzimuthWeights
    {
        T radius = T.Constant(ring.Point.RadiusMetres);
        T height = T.Constant(ring.Point.HeightMetres);
        T normalRadial = T.Constant(-side * ring.Point.NormalRadial);
        T normalAxial = T.Constant(-side * ring.Point.NormalAxial);
        T x0 = T.MultiplyAdd(light.AcrossX.Z, height, light.OriginX);
        T xc = radius * light.AcrossX.X;
        T xs = radius * light.AcrossX.Y;
        T y0 = T.MultiplyAdd(light.AcrossY.Z, height, light.OriginY);
        T yc = radius * light.AcrossY.X;
        T ys = radius * light.AcrossY.Y;
        T m0 = normalAxial * light.Direction.Z;
        T mc = normalRadial * light.Direction.X;
        T ms = normalRadial * light.Direction.Y;
        T zero = T.Constant(0);
        T power = zero;
        T normal = zero;
        T normalCos = zero;
        T normalSin = zero;
        T along = zero;
        T alongCos = zero;
        T alongSin = zero;
        for (int j = 0; j < cosines.Length; j += T.LaneCount)
        {
            T c = T.Load(cosines[j..]);
            T s = T.Load(sines[j..]);
            T x = T.MultiplyAdd(xc, c, T.MultiplyAdd(xs, s, x0));
            T y = T.MultiplyAdd(yc, c, T.MultiplyAdd(ys, s, y0));
            T mu = T.MultiplyAdd(mc, c, T.MultiplyAdd(ms, s, m0));
            T intercepted = profile.UnitIrradiance(x, y) * mu;
            if (TWeights.Vary)
            {
                intercepted *= T.Load(weights[j..]);
            }
            T push = response.Normal(mu) * intercepted;
            power += intercepted;
            normal += push;
            normalCos = T.MultiplyAdd(push, c, normalCos);
            normalSin = T.MultiplyAdd(push, s, normalSin);
            if (TResponse.PushesAlongBeam)
            {
                T pull = response.Along(mu) * intercepted;
                along += pull;
                alongCos = T.MultiplyAdd(pull, c, alongCos);
                alongSin = T.MultiplyAdd(pull, s, alongSin);
            }
        }
        return new()
        {
            Power = power,
            Normal = normal,
            NormalCos = normalCos,
            NormalSin = normalSin,
            Along = along,
            AlongCos = alongCos,
            AlongSin = alongSin,
        };
    }

    /// <summary>Sums of two stretches together.</summary>
    public static RingSums<T> operator +(in RingSums<T> a, in RingSums<T> b) =>
        new()
        {
            Power = a.Power + b.Power,
            Normal = a.Normal + b.Normal,
            NormalCos = a.NormalCos + b.NormalCos,
            NormalSin = a.NormalSin + b.NormalSin,
            Along = a.Along + b.Along,
            AlongCos = a.AlongCos + b.AlongCos,
            AlongSin = a.AlongSin + b.AlongSin,
        };
}
