using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Scalars;

namespace Lightkeel.Physics.Pressure;

/// <summary>Sums over a surface, in its own frame, from which force and torque follow. Lanes are still apart.</summary>
/// <typeparam name="T">Scalar kind.</typeparam>
internal struct SurfaceMoments<T>
    where T : struct, IScalar<T>
{
    private T _power;
    private T _along;
    private Vec3<T> _alongArm;
    private Vec3<T> _normalPush;
    private T _torqueX;
    private T _torqueY;

    /// <summary>Adds a ring's sums with a weight (area per azimuth, m²).</summary>
    /// <param name="sums">Sums around the ring.</param>
    /// <param name="ring">The ring.</param>
    /// <param name="side">+1 when the front is lit, −1 when the back is.</param>
    /// <param name="weight">Area per azimuth, m².</param>
    /// <param name="alongToo">False when the response does not push along the light.</param>
    public void Add(in RingSums<T> sums, in Ring ring, double side, double weight, bool alongToo)
    {
        double radius = ring.Point.RadiusMetres;
        double height = ring.Point.HeightMetres;
        double radial = side * ring.Point.NormalRadial;
        double axial = side * ring.Point.NormalAxial;
        T w = T.Constant(weight);
        _power = T.MultiplyAdd(w, sums.Power, _power);
        // −g n with n = (radial cos φ, radial sin φ, axial).
        T wr = T.Constant(-weight * radial);
        _normalPush = new(
            T.MultiplyAdd(wr, sums.NormalCos, _normalPush.X),
            T.MultiplyAdd(wr, sums.NormalSin, _normalPush.Y),
            T.MultiplyAdd(T.Constant(-weight * axial), sums.Normal, _normalPush.Z)
        );
        // −g p × n with p = (r cos φ, r sin φ, z): p × n = k (sin φ, −cos φ, 0), k = r axial − z radial.
        double k = radius * axial - height * radial;
        _torqueX = T.MultiplyAdd(T.Constant(-weight * k), sums.NormalSin, _torqueX);
        _torqueY = T.MultiplyAdd(T.Constant(weight * k), sums.NormalCos, _torqueY);
        if (alongToo)
        {
            _along = T.MultiplyAdd(w, sums.Along, _along);
            _alongArm = new(
                T.MultiplyAdd(T.Constant(weight * radius), sums.AlongCos, _alongArm.X),
                T.MultiplyAdd(T.Constant(weight * radius), sums.AlongSin, _alongArm.Y),
                T.MultiplyAdd(T.Constant(weight * height), sums.Along, _alongArm.Z)
            );
        }
    }

    /// <summary>Force and torque about the centre of mass, beam axes, per watt over c; power share and push along the light. Lanes still apart.</summary>
    public readonly (Vec3<T> Force, Vec3<T> Torque, T Power, T Along) Assemble(in SurfaceLight<T> light)
    {
        Vec3<T> force = _normalPush + _along * light.Direction;
        Vec3<T> torque = new Vec3<T>(_torqueX, _torqueY, T.Constant(0)) + Vec3<T>.Cross(_alongArm, light.Direction);
        Vec3<T> forceInBeam = light.BeamFromSurface * force;
        Vec3<T> torqueInBeam = light.BeamFromSurface * torque + Vec3<T>.Cross(light.ArmMetres, forceInBeam);
        return (forceInBeam, torqueInBeam, _power, _along);
    }
}
