using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Scalars;

namespace Lightkeel.Physics.Pressure;

/// <summary>The light in one surface's own frame, ready for the ring sums.</summary>
/// <remarks>
/// A point p of the surface frame meets the beam profile at X = X₀ + a_x·p, Y = Y₀ + a_y·p: its place across the beam
/// (see <see cref="Illumination.ProfileX"/>). All lengths in metres.
/// </remarks>
/// <param name="OriginX">X₀.</param>
/// <param name="OriginY">Y₀.</param>
/// <param name="AcrossX">a_x.</param>
/// <param name="AcrossY">a_y.</param>
/// <param name="Direction">Direction of the light, unit.</param>
/// <param name="BeamFromSurface">Rotation from the surface frame to beam axes.</param>
/// <param name="ArmMetres">Surface origin from the centre of mass, beam axes.</param>
/// <typeparam name="T">Scalar kind.</typeparam>
internal readonly record struct SurfaceLight<T>(
    T OriginX,
    T OriginY,
    Vec3<T> AcrossX,
    Vec3<T> AcrossY,
    Vec3<T> Direction,
    Mat3<T> BeamFromSurface,
    Vec3<T> ArmMetres
)
    where T : struct, IScalar<T>
{
    /// <summary>The same place in a beam stretched by a factor: where it meets the profile as designed.</summary>
    /// <param name="beamScale">Size of the beam over its designed size.</param>
    public SurfaceLight<T> InBeamOfScale(double beamScale)
    {
        if (beamScale == 1)
        {
            return this;
        }
        T shrink = T.Constant(1 / beamScale);
        return this with
        {
            OriginX = shrink * OriginX,
            OriginY = shrink * OriginY,
            AcrossX = shrink * AcrossX,
            AcrossY = shrink * AcrossY,
        };
    }
}

/// <summary>The craft's pose in any scalar kind, so that one direction of change can ride along.</summary>
/// <param name="OffsetX">Centre of mass along beam x, m.</param>
/// <param name="OffsetY">Centre of mass along beam y, m.</param>
/// <param name="BeamFromBody">Attitude.</param>
/// <typeparam name="T">Scalar kind.</typeparam>
internal readonly record struct PoseScalars<T>(T OffsetX, T OffsetY, Mat3<T> BeamFromBody)
    where T : struct, IScalar<T>
{
    /// <summary>The pose without derivative.</summary>
    public static PoseScalars<T> Constant(in CraftPose pose) =>
        new(T.Constant(pose.OffsetXMetres), T.Constant(pose.OffsetYMetres), Mat3<T>.Constant(pose.BeamFromBody));

    /// <summary>The light of this pose in the frame of a placed surface.</summary>
    /// <param name="arm">Surface origin from the centre of mass, body axes, m.</param>
    /// <param name="bodyFromSurface">Orientation of the surface in the body; null for a sphere, which is laid along the light.</param>
    /// <param name="light">The light as the moving craft sees it.</param>
    public SurfaceLight<T> InFrameOf(Vec3 arm, Mat3? bodyFromSurface, in Illumination light)
    {
        Vec3<T> armInBeam = BeamFromBody * Vec3<T>.Constant(arm);
        Mat3<T> beamFromSurface = bodyFromSurface is { } turned
            ? BeamFromBody * Mat3<T>.Constant(turned)
            : Mat3<T>.Constant(AlongLight(light.Direction));
        Vec3<T> acrossX = Columns(beamFromSurface, light.ProfileX);
        Vec3<T> acrossY = Columns(beamFromSurface, light.ProfileY);
        return new(
            OffsetX + Vec3<T>.Dot(Vec3<T>.Constant(light.ProfileX), armInBeam),
            OffsetY + Vec3<T>.Dot(Vec3<T>.Constant(light.ProfileY), armInBeam),
            acrossX,
            acrossY,
            Columns(beamFromSurface, light.Direction),
            beamFromSurface,
            armInBeam
        );
    }

    // Rᵀ v: a vector of beam axes seen in the surface frame.
    private static Vec3<T> Columns(in Mat3<T> r, Vec3 v)
    {
        Vec3<T> w = Vec3<T>.Constant(v);
        return new(Vec3<T>.Dot(r.Column0, w), Vec3<T>.Dot(r.Column1, w), Vec3<T>.Dot(r.Column2, w));
    }

    // Any rotation that takes +z to the light: the shortest one.
    private static Mat3 AlongLight(Vec3 direction)
    {
        Vec3 axis = Vec3.Cross(Vec3.UnitZ, direction);
        double sine = axis.Length;
        return sine == 0 ? Mat3.Identity : Mat3.Rotation(1 / sine * axis, Math.Atan2(sine, direction.Z));
    }
}
