using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Pressure;

/// <summary>Where the craft is in the beam slice, how it is turned and how it moves.</summary>
/// <param name="OffsetXMetres">Centre of mass from the beam axis along beam x, m.</param>
/// <param name="OffsetYMetres">Centre of mass from the beam axis along beam y, m.</param>
/// <param name="BeamFromBody">Attitude: rotation from body to beam axes.</param>
/// <param name="VelocityMetresPerSecond">Velocity in the laser's frame, beam axes, m/s, slower than light.</param>
/// <param name="BeamScale">
/// Size of the beam at the craft over its designed size, positive: the profile is stretched by it in both directions and
/// its irradiance falls by its square, so that the power stays.
/// </param>
public readonly record struct CraftPose(
    double OffsetXMetres,
    double OffsetYMetres,
    Mat3 BeamFromBody,
    Vec3 VelocityMetresPerSecond,
    double BeamScale = 1
)
{
    /// <summary>On the axis, untilted, at rest.</summary>
    public static CraftPose OnAxis => new(0, 0, Mat3.Identity, Vec3.Zero);

    /// <summary>A pose at rest or at an axial speed, from offsets and tilts.</summary>
    /// <param name="xMetres">Offset along beam x, m.</param>
    /// <param name="yMetres">Offset along beam y, m.</param>
    /// <param name="tiltXRadians">Tilt about beam x, rad.</param>
    /// <param name="tiltYRadians">Tilt about beam y, rad; both tilts form one rotation vector, exact at any size.</param>
    /// <param name="spinAngleRadians">Turn about the body axis, applied before the tilt, rad.</param>
    /// <param name="velocityMetresPerSecond">Velocity, beam axes, m/s.</param>
    public static CraftPose From(
        double xMetres,
        double yMetres,
        double tiltXRadians = 0,
        double tiltYRadians = 0,
        double spinAngleRadians = 0,
        Vec3 velocityMetresPerSecond = default
    )
    {
        UnitQuaternion tilt = UnitQuaternion.FromRotationVector(new(tiltXRadians, tiltYRadians, 0));
        UnitQuaternion spin = UnitQuaternion.FromRotationVector(new(0, 0, spinAngleRadians));
        return new(xMetres, yMetres, (tilt * spin).ToMatrix(), velocityMetresPerSecond);
    }
}

/// <summary>What the light does to the craft in one pose.</summary>
/// <param name="ForceNewtons">Force, in the craft's rest frame, beam axes, N.</param>
/// <param name="TorqueNewtonMetres">Torque about the centre of mass, beam axes, N m.</param>
/// <param name="InterceptedWatts">Power that meets the surfaces, in the craft's rest frame, W.</param>
/// <param name="AbsorbedWatts">Power absorbed, in the craft's rest frame, W.</param>
/// <param name="RelativeError">Vouched error of force and torque, relative to the force (torque: force times craft size).</param>
public readonly record struct PressureReading(
    Vec3 ForceNewtons,
    Vec3 TorqueNewtonMetres,
    double InterceptedWatts,
    double AbsorbedWatts,
    double RelativeError
)
{
    /// <summary>True when a table handed the pose over to the quadrature that filled it.</summary>
    public bool IsHandedOver { get; init; }
}

/// <summary>Exact derivatives of force and torque with respect to offset and tilt.</summary>
/// <param name="ByOffsetX">Derivative by the offset along x: force N/m, torque N.</param>
/// <param name="ByOffsetY">Derivative by the offset along y.</param>
/// <param name="ByTiltX">Derivative by a further rotation about beam x through the centre of mass: force N/rad, torque N m/rad.</param>
/// <param name="ByTiltY">Derivative by a further rotation about beam y.</param>
/// <param name="RelativeError">Vouched error relative to the largest entry of each kind.</param>
public sealed record PressureDerivatives(
    PressureReading ByOffsetX,
    PressureReading ByOffsetY,
    PressureReading ByTiltX,
    PressureReading ByTiltY,
    double RelativeError
)
{
    /// <summary>
    /// The 4×4 lateral Jacobian, row by row: rows F_x, F_y, T_x, T_y; columns x, y, tilt_x, tilt_y.
    /// </summary>
    public double[][] LateralJacobian()
    {
        (Vec3 fx, Vec3 fy) = (ByOffsetX.ForceNewtons, ByOffsetY.ForceNewtons);
        (Vec3 fa, Vec3 fb) = (ByTiltX.ForceNewtons, ByTiltY.ForceNewtons);
        (Vec3 tx, Vec3 ty) = (ByOffsetX.TorqueNewtonMetres, ByOffsetY.TorqueNewtonMetres);
        (Vec3 ta, Vec3 tb) = (ByTiltX.TorqueNewtonMetres, ByTiltY.TorqueNewtonMetres);
        return
        [
            [fx.X, fy.X, fa.X, fb.X],
            [fx.Y, fy.Y, fa.Y, fb.Y],
            [tx.X, ty.X, ta.X, tb.X],
            [tx.Y, ty.Y, ta.Y, tb.Y],
        ];
    }
}

/// <summary>Computes light-pressure force and torque of one craft in one beam.</summary>
/// <remarks>Engines are immutable and safe to share between threads; the answer depends on the pose alone.</remarks>
public interface IPressureEngine
{
    /// <summary>Short name of the engine, for provenance.</summary>
    string Name { get; }

    /// <summary>Requested relative accuracy of force and torque.</summary>
    double Accuracy { get; }

    /// <summary>Force and torque in a pose.</summary>
    /// <exception cref="PressureUnavailableException">The geometry in this pose is outside the engine's validity, or the accuracy was not reached.</exception>
    PressureReading Evaluate(in CraftPose pose);

    /// <summary>Exact derivatives in a pose.</summary>
    /// <exception cref="PressureUnavailableException">As for <see cref="Evaluate"/>.</exception>
    PressureDerivatives Differentiate(in CraftPose pose);
}

/// <summary>The engine cannot give a number that it can vouch for; the message says why and what would help.</summary>
public sealed class PressureUnavailableException : Exception
{
    /// <summary>Creates the exception without a reason.</summary>
    public PressureUnavailableException()
        : this("The light pressure could not be computed.") { }

    /// <summary>Creates the exception with its reason.</summary>
    public PressureUnavailableException(string message)
        : base(message) { }

    /// <summary>Creates the exception with its reason and cause.</summary>
    public PressureUnavailableException(string message, Exception innerException)
        : base(message, innerException) { }
}
