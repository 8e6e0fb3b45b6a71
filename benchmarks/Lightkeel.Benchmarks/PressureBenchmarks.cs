using BenchmarkDotNet.Attributes;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Scalars;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Benchmarks;

/// <summary>Force and torque of the peers' cone and ball, to 1e-9 and on the peers' fixed grid.</summary>
[MemoryDiagnoser]
public class PressureBenchmarks
{
    private static readonly CraftPose Pose = CraftPose.From(0.05, 0.02, 0.01, -0.005);
    private readonly SurfaceQuadrature _cone = Engine(
        new Cone(1.5, 65 * Math.PI / 180, LaserSide.Mouth),
        new GaussianProfile(1.5)
    );
    private readonly SurfaceQuadrature _ball = Engine(new Sphere(1.2), new GaussianProfile(1.5));
    private readonly SurfaceQuadrature _ringBall = Engine(new Sphere(1.2), new RingProfile(1.05, 0.45));
    private readonly FixedGridCone<Lanes8> _eight = new();
    private readonly FixedGridCone<Lanes4> _four = new();
    private readonly FixedGridCone<F64> _one = new();

    private static SurfaceQuadrature Engine(SurfaceOfRevolution shape, IBeamProfile profile) =>
        new(
            new SailCraft(
                [new("sail", shape, OpticalCoefficients.Mirror, Vec3.Zero, Mat3.Identity)],
                new(2.4e-3, shape is Sphere ? Vec3.Zero : new(0, 0, -3.2), Mat3.Diagonal(1.1e-2, 1.1e-2, 1e-3))
            ),
            new(3e8, 1.064e-6, profile),
            1e-9
        );

    [Benchmark]
    public PressureReading ConeToNineDigits() => _cone.Evaluate(Pose);

    [Benchmark]
    public PressureReading BallInGaussianToNineDigits() => _ball.Evaluate(Pose);

    [Benchmark]
    public PressureReading BallInRingToNineDigits() => _ringBall.Evaluate(Pose);

    [Benchmark]
    public PressureDerivatives ConeJacobian() => _cone.Differentiate(Pose);

    [Benchmark]
    public PressureReading FixedGridEightLanes() => _eight.Evaluate(Pose);

    [Benchmark]
    public PressureReading FixedGridFourLanes() => _four.Evaluate(Pose);

    [Benchmark]
    public PressureReading FixedGridOneLane() => _one.Evaluate(Pose);
}
