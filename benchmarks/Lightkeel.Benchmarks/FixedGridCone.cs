using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Quadrature;
using Lightkeel.Numerics.Scalars;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Benchmarks;

/// <summary>
/// The kernel on the peers' own grid: mouth-first mirror cone, 64 Gauss-Legendre rings times 128 azimuths, every node
/// evaluated, force and torque and power, so that nanoseconds per node compare like with like.
/// </summary>
public sealed class FixedGridCone<T>
    where T : struct, IScalar<T>
{
    private const int RingCount = 64;
    private const int AzimuthCount = 128;
    private readonly Ring[] _rings = new Ring[RingCount];
    private readonly AzimuthRule _around = AzimuthRule.Of(AzimuthCount);
    private readonly GaussianProfile _profile = new(1.5);
    private readonly Vec3 _arm = new(0, 0, 3.2);

    public FixedGridCone()
    {
        Cone cone = new(1.5, 65 * Math.PI / 180, LaserSide.Mouth);
        GaussLegendre rule = GaussLegendre.Order(RingCount);
        for (int i = 0; i < RingCount; i++)
        {
            MeridianPoint point = cone.At(0, 0.75 * (1 + rule.Nodes[i]));
            _rings[i] = new(point, 0.75 * rule.Weights[i] * point.RadiusMetres * point.ArcRate, 0);
        }
    }

    public static int Nodes => RingCount * AzimuthCount;

    public PressureReading Evaluate(in CraftPose pose)
    {
        SurfaceLight<T> light = PoseScalars<T>.Constant(pose).InFrameOf(_arm, Mat3.Identity, Illumination.AtRest);
        SurfaceMoments<T> moments = default;
        foreach (ref readonly Ring ring in _rings.AsSpan())
        {
            RingSums<T> sums = RingSums<T>.Sweep<GaussianProfile, MirrorResponse, EqualWeights>(
                _profile,
                default,
                light,
                ring,
                1,
                _around.Cosines,
                _around.Sines,
                default
            );
            moments.Add(sums, ring, 1, 2 * Math.PI / AzimuthCount * ring.FineWeight, alongToo: false);
        }
        (UnitWrench value, _) = UnitWrench.Read(moments, light, (0, 0));
        double scale = 3e8 / Illumination.LightSpeed;
        return new(scale * value.Force, scale * value.Torque, 3e8 * value.Power, 0, 0);
    }
}
