using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>A force law with a known solution in place of light pressure, so that the equations of motion are checked alone.</summary>
internal sealed class ForceLaw(Func<CraftPose, Vec3> law) : IPressureEngine
{
    /// <inheritdoc/>
    public string Name => "law";

    /// <inheritdoc/>
    public double Accuracy => 1e-15;

    /// <summary>A body free of force.</summary>
    public static ForceLaw None { get; } = new(_ => Vec3.Zero);

    /// <summary>
    /// Light pressure that keeps a sail straight on the axis: a flat sail is unstable there, and from rounding alone would
    /// leave within a second of a strong boost.
    /// </summary>
    public static ForceLaw Rail(IPressureEngine engine) =>
        new(p =>
            new(
                0,
                0,
                engine
                    .Evaluate(
                        CraftPose.OnAxis with
                        {
                            VelocityMetresPerSecond = new(0, 0, p.VelocityMetresPerSecond.Z),
                            BeamScale = p.BeamScale,
                        }
                    )
                    .ForceNewtons.Z
            )
        );

    /// <inheritdoc/>
    public PressureReading Evaluate(in CraftPose pose) => new(law(pose), Vec3.Zero, 0, 0, 0);

    /// <inheritdoc/>
    public PressureDerivatives Differentiate(in CraftPose pose) => throw new NotSupportedException();

    /// <summary>A craft under this law; power only sets the sizes of tolerances.</summary>
    public RideSetup Setup(double mass = 1, Mat3? inertia = null, double powerWatts = Illumination.LightSpeed) =>
        new()
        {
            Engine = this,
            Mass = new(mass, Vec3.Zero, inertia ?? Mat3.Identity),
            PowerWatts = powerWatts,
            FeatureLengthMetres = 1,
        };
}
