using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Numerics.Integration;

/// <summary>State of a rigid body with six degrees of freedom.</summary>
/// <param name="PositionMetres">Centre of mass, world axes, m.</param>
/// <param name="VelocityMetresPerSecond">Velocity of the centre of mass, world axes, m/s.</param>
/// <param name="Attitude">Unit quaternion, body → world.</param>
/// <param name="BodyAngularMomentum">Angular momentum about the centre of mass, body axes, kg m²/s.</param>
public readonly record struct RigidBodyState(
    Vec3 PositionMetres,
    Vec3 VelocityMetresPerSecond,
    UnitQuaternion Attitude,
    Vec3 BodyAngularMomentum
)
{
    /// <summary>Length of the state as numbers: position 3, velocity 3, attitude 4 (scalar first), momentum 3.</summary>
    public const int Dimension = 13;

    /// <summary>Reads a state from numbers in the order of <see cref="Dimension"/>.</summary>
    /// <param name="state">At least 13 numbers.</param>
    public static RigidBodyState Read(ReadOnlySpan<double> state) =>
        new(
            new(state[0], state[1], state[2]),
            new(state[3], state[4], state[5]),
            new(state[6], state[7], state[8], state[9]),
            new(state[10], state[11], state[12])
        );

    /// <summary>Writes the state as numbers.</summary>
    /// <param name="state">At least 13 numbers, replaced.</param>
    public void Write(Span<double> state)
    {
        (state[0], state[1], state[2]) = PositionMetres;
        (state[3], state[4], state[5]) = VelocityMetresPerSecond;
        (state[6], state[7], state[8], state[9]) = Attitude;
        (state[10], state[11], state[12]) = BodyAngularMomentum;
    }
}
