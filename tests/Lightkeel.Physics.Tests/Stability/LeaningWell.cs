using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Tests.Stability;

/// <summary>
/// An invented closed-form engine. With r the offset and n the body axis across the beam:
/// F = −k L sin((r − r0)/L) + c n, and the torque that leans the axis is τ = κ (n − n0) + g r, T = e_z × τ.
/// </summary>
internal sealed class LeaningWell : IPressureEngine
{
    public double K { get; init; } = 2;
    public double C { get; init; }
    public double Kappa { get; init; } = -1;
    public double G { get; init; }
    public double Length { get; init; } = 10;
    public double X0 { get; init; }
    public double Y0 { get; init; }
    public double LeanX0 { get; init; }
    public double LeanY0 { get; init; }
    public double ConstantForce { get; init; }
    public double FailsBeyond { get; init; } = double.PositiveInfinity;
    public double ThrustNewtons { get; init; } = 5;

    public string Name => "leaning well";

    public double Accuracy => 1e-12;

    public PressureReading Evaluate(in CraftPose pose)
    {
        if (double.Hypot(pose.OffsetXMetres, pose.OffsetYMetres) > FailsBeyond)
        {
            throw new PressureUnavailableException("the made-up engine ends here");
        }
        Vec3 n = pose.BeamFromBody.Column2;
        double fx = -K * Length * Math.Sin((pose.OffsetXMetres - X0) / Length) + C * n.X + ConstantForce;
        double fy = -K * Length * Math.Sin((pose.OffsetYMetres - Y0) / Length) + C * n.Y;
        double leanX = Kappa * (n.X - LeanX0) + G * pose.OffsetXMetres;
        double leanY = Kappa * (n.Y - LeanY0) + G * pose.OffsetYMetres;
        return new(new(fx, fy, ThrustNewtons), new(-leanY, leanX, 0), 1, 0, Accuracy);
    }

    public PressureDerivatives Differentiate(in CraftPose pose)
    {
        Vec3 n = pose.BeamFromBody.Column2;
        double kx = -K * Math.Cos((pose.OffsetXMetres - X0) / Length);
        double ky = -K * Math.Cos((pose.OffsetYMetres - Y0) / Length);
        return new(
            Column(new(kx, 0, 0), new(0, G, 0)),
            Column(new(0, ky, 0), new(-G, 0, 0)),
            Turn(Vec3.Cross(Vec3.UnitX, n)),
            Turn(Vec3.Cross(Vec3.UnitY, n)),
            Accuracy
        );
    }

    private PressureReading Turn(Vec3 change) =>
        Column(new(C * change.X, C * change.Y, 0), new(-Kappa * change.Y, Kappa * change.X, 0));

    private static PressureReading Column(Vec3 force, Vec3 torque) => new(force, torque, 0, 0, 0);
}
