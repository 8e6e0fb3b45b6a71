using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Motion;

/// <summary>State of the craft when the first light meets it; time and distance are zero there.</summary>
public sealed record RideStart
{
    /// <summary>Centre of mass from the beam axis along beam x, m.</summary>
    public double OffsetXMetres { get; init; }

    /// <summary>Centre of mass from the beam axis along beam y, m.</summary>
    public double OffsetYMetres { get; init; }

    /// <summary>Tilt about beam x, rad; both tilts form one rotation vector.</summary>
    public double TiltXRadians { get; init; }

    /// <summary>Tilt about beam y, rad.</summary>
    public double TiltYRadians { get; init; }

    /// <summary>Turn about the body axis before the tilt, rad.</summary>
    public double RollRadians { get; init; }

    /// <summary>Velocity along beam x, m/s.</summary>
    public double VelocityXMetresPerSecond { get; init; }

    /// <summary>Velocity along beam y, m/s.</summary>
    public double VelocityYMetresPerSecond { get; init; }

    /// <summary>Speed along the beam, away from the laser, m/s.</summary>
    public double SpeedMetresPerSecond { get; init; }

    /// <summary>Spin about the body axis, rad/s of proper time.</summary>
    public double SpinRadiansPerSecond { get; init; }

    /// <summary>Rate of turn about beam x besides the spin, rad/s.</summary>
    public double TiltRateXRadiansPerSecond { get; init; }

    /// <summary>Rate of turn about beam y besides the spin, rad/s.</summary>
    public double TiltRateYRadiansPerSecond { get; init; }

    /// <summary>Velocity, beam axes, m/s.</summary>
    public Vec3 VelocityMetresPerSecond =>
        new(VelocityXMetresPerSecond, VelocityYMetresPerSecond, SpeedMetresPerSecond);

    /// <summary>Attitude, body → beam.</summary>
    public UnitQuaternion Attitude =>
        (
            UnitQuaternion.FromRotationVector(new(TiltXRadians, TiltYRadians, 0))
            * UnitQuaternion.FromRotationVector(new(0, 0, RollRadians))
        ).Normalized();

    /// <summary>Rate of turn, body axes, rad/s.</summary>
    public Vec3 BodyRate
    {
        get
        {
            Vec3 acrossInBeam = new(TiltRateXRadiansPerSecond, TiltRateYRadiansPerSecond, 0);
            return new Vec3(0, 0, SpinRadiansPerSecond) + Attitude.ToMatrix().Transposed * acrossInBeam;
        }
    }

    /// <summary>True when every number is finite.</summary>
    internal bool IsFinite =>
        VelocityMetresPerSecond.IsFinite
        && double.IsFinite(OffsetXMetres)
        && double.IsFinite(OffsetYMetres)
        && double.IsFinite(TiltXRadians)
        && double.IsFinite(TiltYRadians)
        && double.IsFinite(RollRadians)
        && double.IsFinite(SpinRadiansPerSecond)
        && double.IsFinite(TiltRateXRadiansPerSecond)
        && double.IsFinite(TiltRateYRadiansPerSecond);
}
