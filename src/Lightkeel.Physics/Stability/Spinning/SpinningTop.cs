using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Stability.Spinning;

/// <summary>A rigid body that spins about its axis, as far as slow motion sees it.</summary>
/// <param name="MassKilograms">Mass, kg.</param>
/// <param name="TransverseInertia">Mean moment of inertia across the axis, kg m².</param>
/// <param name="AxialInertia">Moment of inertia about the axis, kg m².</param>
/// <param name="SpinRadiansPerSecond">Spin about the axis, rad/s, not zero.</param>
public sealed record SpinningTop(
    double MassKilograms,
    double TransverseInertia,
    double AxialInertia,
    double SpinRadiansPerSecond
)
{
    /// <summary>Angular momentum about the axis, kg m²/s; its sign is that of the spin.</summary>
    public double AngularMomentum => AxialInertia * SpinRadiansPerSecond;

    /// <summary>Free nutation seen from the beam, I₃W/I₁, rad/s, positive.</summary>
    public double NutationRadiansPerSecond => Math.Abs(AngularMomentum) / TransverseInertia;

    /// <summary>Radius of gyration across the axis, m.</summary>
    public double GyrationRadiusMetres => Math.Sqrt(TransverseInertia / MassKilograms);

    /// <summary>The top that a craft is.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The spin is zero or not finite.</exception>
    public static SpinningTop Of(MassProperties mass, double spinRadiansPerSecond)
    {
        ArgumentNullException.ThrowIfNull(mass);
        if (!(Math.Abs(Require.Finite(spinRadiansPerSecond)) > 0))
        {
            throw new ArgumentOutOfRangeException(
                nameof(spinRadiansPerSecond),
                spinRadiansPerSecond,
                "A craft that does not spin is no top: give a spin other than zero."
            );
        }
        Mat3 inertia = mass.InertiaKilogramSquareMetres;
        return new(mass.MassKilograms, 0.5 * (inertia.Row0.X + inertia.Row1.Y), inertia.Row2.Z, spinRadiansPerSecond);
    }

    /// <summary>Whether the inertia is the same about every line across the axis, and the axis a principal one.</summary>
    internal static bool IsRound(in Mat3 inertia)
    {
        double tolerance = 1e-9 * (inertia.Row0.X + inertia.Row1.Y);
        return Math.Abs(inertia.Row0.X - inertia.Row1.Y) <= tolerance
            && Math.Abs(inertia.Row0.Y) <= tolerance
            && double.Hypot(inertia.Row0.Z, inertia.Row1.Z) <= tolerance;
    }
}
