using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Stability.Spinning;

/// <summary>Force and torque averaged over one turn of the craft about its own axis.</summary>
/// <param name="ForceNewtons">Force, beam axes, craft's rest frame, N.</param>
/// <param name="TorqueNewtonMetres">Torque about the centre of mass, beam axes, N m.</param>
/// <param name="RelativeError">Vouched error of force and torque relative to the force (torque: force times craft size).</param>
public readonly record struct AveragedReading(Vec3 ForceNewtons, Vec3 TorqueNewtonMetres, double RelativeError);

/// <summary>
/// What the light does to a craft whose body axis holds a direction (that of its angular momentum, without nutation) while it
/// turns about it: the full, nonlinear light pressure, averaged over the roll angle.
/// </summary>
/// <remarks>
/// An axisymmetric craft needs one evaluation. Any other is sampled evenly in roll, 8, 16, … 256 angles, which converges
/// faster than any power of the step, until the mean settles. Immutable; safe to share between threads.
/// </remarks>
/// <param name="engine">Light pressure.</param>
/// <param name="craftIsAxisymmetric">Whether turning the craft about its axis leaves the light pressure as it is.</param>
/// <param name="speedMetresPerSecond">Axial speed, m/s.</param>
public sealed class AveragedLight(IPressureEngine engine, bool craftIsAxisymmetric, double speedMetresPerSecond)
{
    private const int FewestAngles = 8;
    private const int MostAngles = 256;

    /// <summary>The engine.</summary>
    public IPressureEngine Engine => engine;

    /// <summary>A pose without roll.</summary>
    /// <param name="xMetres">Offset along beam x, m.</param>
    /// <param name="yMetres">Offset along beam y, m.</param>
    /// <param name="tiltXRadians">Tilt of the axis about beam x, rad.</param>
    /// <param name="tiltYRadians">Tilt of the axis about beam y, rad.</param>
    public CraftPose Pose(double xMetres, double yMetres, double tiltXRadians, double tiltYRadians) =>
        CraftPose.From(xMetres, yMetres, tiltXRadians, tiltYRadians, 0, new(0, 0, speedMetresPerSecond));

    /// <summary>The average with the body axis along a direction given by two tilts.</summary>
    /// <inheritdoc cref="Pose" path="/param"/>
    /// <exception cref="PressureUnavailableException">
    /// The light pressure cannot be computed at one of the roll angles, or the mean did not settle.
    /// </exception>
    public AveragedReading At(double xMetres, double yMetres, double tiltXRadians, double tiltYRadians)
    {
        CraftPose pose = Pose(xMetres, yMetres, tiltXRadians, tiltYRadians);
        if (craftIsAxisymmetric)
        {
            PressureReading one = engine.Evaluate(pose);
            return new(one.ForceNewtons, one.TorqueNewtonMetres, one.RelativeError);
        }
        (Vec3 force, Vec3 torque, double error) = Sum(pose, FewestAngles, 0);
        for (int n = FewestAngles; n <= MostAngles; n *= 2)
        {
            (Vec3 between, Vec3 twist, double worst) = Sum(pose, n, Math.PI / n);
            Vec3 finer = 0.5 * (force + between);
            Vec3 finerTorque = 0.5 * (torque + twist);
            error = Math.Max(error, worst);
            double change = (finer - force).Length / Math.Max(finer.Length, double.MinValue);
            double turn = (finerTorque - torque).Length / Math.Max(finerTorque.Length, 1e-300);
            (force, torque) = (finer, finerTorque);
            double wanted = Math.Max(engine.Accuracy, 1e-12);
            if (change <= wanted && (turn <= Math.Sqrt(wanted) || finerTorque.Length <= wanted * finer.Length))
            {
                return new(force, torque, error + change);
            }
        }
        throw new PressureUnavailableException(
            "The force averaged over the spin did not settle: light and shade jump as the craft turns. Ask for less accuracy."
        );
    }

    private (Vec3 Force, Vec3 Torque, double Error) Sum(in CraftPose pose, int count, double first)
    {
        Vec3 force = Vec3.Zero;
        Vec3 torque = Vec3.Zero;
        double error = 0;
        for (int k = 0; k < count; k++)
        {
            Mat3 rolled = pose.BeamFromBody * Mat3.Rotation(Vec3.UnitZ, first + 2 * Math.PI * k / count);
            PressureReading reading = engine.Evaluate(pose with { BeamFromBody = rolled });
            force += 1.0 / count * reading.ForceNewtons;
            torque += 1.0 / count * reading.TorqueNewtonMetres;
            error = Math.Max(error, reading.RelativeError);
        }
        return (force, torque, error);
    }
}
