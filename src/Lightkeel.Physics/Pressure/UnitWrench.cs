using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Scalars;

namespace Lightkeel.Physics.Pressure;

/// <summary>Force, torque and power shares of a surface for one watt of beam, forces times c; value or derivative.</summary>
/// <param name="Force">Force times c, beam axes.</param>
/// <param name="Torque">Torque about the centre of mass times c, beam axes, m.</param>
/// <param name="Power">Share of the beam's power that is intercepted.</param>
/// <param name="Absorbed">Share of the beam's power that is absorbed.</param>
internal readonly record struct UnitWrench(Vec3 Force, Vec3 Torque, double Power, double Absorbed)
{
    public static UnitWrench operator +(in UnitWrench a, in UnitWrench b) =>
        new(a.Force + b.Force, a.Torque + b.Torque, a.Power + b.Power, a.Absorbed + b.Absorbed);

    public static UnitWrench operator -(in UnitWrench a, in UnitWrench b) =>
        new(a.Force - b.Force, a.Torque - b.Torque, a.Power - b.Power, a.Absorbed - b.Absorbed);

    public static UnitWrench operator *(double s, in UnitWrench a) =>
        new(s * a.Force, s * a.Torque, s * a.Power, s * a.Absorbed);

    /// <summary>Reads values and derivatives out of a surface's sums.</summary>
    public static (UnitWrench Value, UnitWrench Slope) Read<T>(
        in SurfaceMoments<T> moments,
        in SurfaceLight<T> light,
        (double OfPower, double OfAlong) absorption
    )
        where T : struct, IScalar<T>
    {
        (Vec3<T> force, Vec3<T> torque, T power, T along) = moments.Assemble(light);
        double value = T.Total(power);
        double slope = T.TotalSlope(power);
        return (
            new(
                new(T.Total(force.X), T.Total(force.Y), T.Total(force.Z)),
                new(T.Total(torque.X), T.Total(torque.Y), T.Total(torque.Z)),
                value,
                absorption.OfPower * value + absorption.OfAlong * T.Total(along)
            ),
            new(
                new(T.TotalSlope(force.X), T.TotalSlope(force.Y), T.TotalSlope(force.Z)),
                new(T.TotalSlope(torque.X), T.TotalSlope(torque.Y), T.TotalSlope(torque.Z)),
                slope,
                absorption.OfPower * slope + absorption.OfAlong * T.TotalSlope(along)
            )
        );
    }
}

/// <summary>A surface's answer with the error that its quadrature vouches for.</summary>
/// <param name="Value">Force, torque and power.</param>
/// <param name="Slope">Their derivative along the pose's direction of change; zero where none was asked.</param>
/// <param name="RelativeError">Vouched error of what was asked (value, or slope), relative.</param>
internal readonly record struct SurfaceAnswer(UnitWrench Value, UnitWrench Slope, double RelativeError);
