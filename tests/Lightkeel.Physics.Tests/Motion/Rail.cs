using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Tests.Motion;

/// <summary>
/// Keeps a sail straight on the axis. A flat sail is unstable on its beam: from rounding alone it would leave within a
/// second of a strong boost, and no closed form of the boost would be met.
/// </summary>
internal sealed class Rail(SurfaceQuadrature engine) : IPressureEngine
{
    public string Name => "rail";

    public double Accuracy => engine.Accuracy;

    public PressureReading Evaluate(in CraftPose pose)
    {
        Vec3 along = new(0, 0, pose.VelocityMetresPerSecond.Z);
        PressureReading r = engine.Evaluate(
            CraftPose.OnAxis with
            {
                VelocityMetresPerSecond = along,
                BeamScale = pose.BeamScale,
            }
        );
        return r with { ForceNewtons = new(0, 0, r.ForceNewtons.Z), TorqueNewtonMetres = Vec3.Zero };
    }

    public PressureDerivatives Differentiate(in CraftPose pose) => throw new NotSupportedException();
}
