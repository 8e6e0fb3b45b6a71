using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Pressure;

/// <summary>
/// An engine whose answers are off by a stated relative error in the direction that hurts: the force pushes away from the
/// axis, the torque turns away from the beam. What another engine's vouched error may do is seen by flying this one.
/// </summary>
/// <remarks>
/// The force is off by δ |F| ρ/L, at most δ |F|, along the offset, and the torque by δ |F| R sin(tilt) along the turn of the body axis
/// (δ the error, L the length over which the beam changes, R the size of the craft): nothing on the axis, so that what symmetry
/// makes zero stays zero, as it does in the errors of a symmetric rule.
/// </remarks>
public sealed class ShiftedPressure : IPressureEngine
{
    private readonly IPressureEngine _engine;
    private readonly double _perLength;
    private readonly double _size;

    /// <summary>Wraps an engine.</summary>
    /// <param name="engine">The engine.</param>
    /// <param name="relativeError">How far its answers shall be off, relative to the force, zero or more.</param>
    /// <param name="beamLengthMetres">Length over which the beam changes, m.</param>
    /// <param name="craftSizeMetres">Size of the craft: a torque is measured in force times it, m.</param>
    public ShiftedPressure(
        IPressureEngine engine,
        double relativeError,
        double beamLengthMetres,
        double craftSizeMetres
    )
    {
        ArgumentNullException.ThrowIfNull(engine);
        _engine = engine;
        Accuracy = Require.NotNegative(relativeError);
        _perLength = 1 / Require.Positive(beamLengthMetres);
        _size = Require.Positive(craftSizeMetres);
    }

    /// <inheritdoc/>
    public string Name => _engine.Name + ", off by its error";

    /// <summary>How far the answers are off, relative to the force.</summary>
    public double Accuracy { get; }

    /// <inheritdoc/>
    public PressureReading Evaluate(in CraftPose pose)
    {
        PressureReading r = _engine.Evaluate(pose);
        double off = Accuracy * r.ForceNewtons.Length;
        double offset = double.Hypot(pose.OffsetXMetres, pose.OffsetYMetres);
        double outward = off * _perLength / Math.Max(1, offset * _perLength);
        Vec3 axis = pose.BeamFromBody.Column2;
        return r with
        {
            ForceNewtons = r.ForceNewtons + outward * new Vec3(pose.OffsetXMetres, pose.OffsetYMetres, 0),
            // The turn that brought the axis from the beam's direction to where it is: z × axis.
            TorqueNewtonMetres = r.TorqueNewtonMetres + off * _size * new Vec3(-axis.Y, axis.X, 0),
        };
    }

    /// <inheritdoc/>
    /// <remarks>Those of the engine itself: the shift is for rides, which ask for values only.</remarks>
    public PressureDerivatives Differentiate(in CraftPose pose) => _engine.Differentiate(pose);
}
