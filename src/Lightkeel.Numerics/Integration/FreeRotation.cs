using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Numerics.Integration;

/// <summary>
/// The torque-free turn of a rigid body over a step, by exact rotations: symmetric, of second order, exact for a body with
/// two equal principal inertias.
/// </summary>
/// <remarks>
/// Derivation. With κ_i = 1/I_i sorted, the energy ½ Σ κ_i L_i² is split as ½ κ₂ |L|² + ½ (κ₁ − κ₂) L₁² +
/// ½ (κ₃ − κ₂) L₃². The first part turns the body about its angular momentum at κ₂|L|, leaves L in body axes as it is,
/// and commutes with the rest (|L|² is a Casimir function). Each other part turns the body about one principal axis at the
/// rate (κ_i − κ₂) L_i, which it keeps. Only these two fail to commute, so the step is half a turn about axis 1, a full
/// one about axis 3, half a turn about axis 1; its error carries the product (κ₂ − κ₁)(κ₃ − κ₂) and vanishes for a
/// symmetric top of either kind. Every factor is a rotation: the length of L, the angular momentum in world axes and the
/// length of the quaternion are kept to rounding. Splitting into principal-axis rotations: Journal of Chemical Physics
/// 107(15), 5840–5851 (1997), doi:10.1063/1.474310 (from memory); separating the spherical part is derived here.
/// </remarks>
public readonly struct FreeRotation
{
    private readonly Vec3 _firstAxis;
    private readonly Vec3 _lastAxis;
    private readonly double _spherical;
    private readonly double _firstExcess;
    private readonly double _lastExcess;

    /// <summary>Prepares the turns of one body.</summary>
    /// <param name="principal">Principal inertias, kg m², and axes; see <see cref="RigidBodyInertia.Principal"/>.</param>
    public FreeRotation(PrincipalAxes principal)
    {
        // Principal inertias come in rising order, so the middle one is the reference.
        _spherical = 1 / principal.Values.Y;
        _firstAxis = principal.First;
        _lastAxis = principal.Last;
        _firstExcess = (principal.Values.Y - principal.Values.X) / (principal.Values.X * principal.Values.Y);
        _lastExcess = (principal.Values.Y - principal.Values.Z) / (principal.Values.Z * principal.Values.Y);
    }

    /// <summary>Turns attitude and body angular momentum over a time.</summary>
    /// <param name="seconds">Time, s, negative to turn back.</param>
    /// <param name="attitude">Unit quaternion, body → world, replaced.</param>
    /// <param name="momentum">Angular momentum, body axes, kg m²/s, replaced.</param>
    public void Turn(double seconds, ref UnitQuaternion attitude, ref Vec3 momentum)
    {
        attitude *= UnitQuaternion.FromRotationVector(seconds * _spherical * momentum);
        TurnAbout(_firstAxis, 0.5 * seconds * _firstExcess, ref attitude, ref momentum);
        TurnAbout(_lastAxis, seconds * _lastExcess, ref attitude, ref momentum);
        TurnAbout(_firstAxis, 0.5 * seconds * _firstExcess, ref attitude, ref momentum);
    }

    private static void TurnAbout(Vec3 axis, double timesExcess, ref UnitQuaternion attitude, ref Vec3 momentum)
    {
        double along = Vec3.Dot(axis, momentum);
        double angle = timesExcess * along;
        if (angle == 0)
        {
            return;
        }
        (double s, double c) = Math.SinCos(0.5 * angle);
        attitude *= new UnitQuaternion(c, s * axis.X, s * axis.Y, s * axis.Z);
        // Seen from the body, the angular momentum turns the other way: by −angle about the axis.
        double sine = 2 * s * c;
        double versine = 2 * s * s;
        Vec3 across = momentum - along * axis;
        momentum = momentum - versine * across - sine * Vec3.Cross(axis, momentum);
    }
}
