using System.Runtime.CompilerServices;

namespace Lightkeel.Numerics.LinearAlgebra;

/// <summary>Attitude as a unit quaternion, scalar first, body → beam: v_beam = q v_body q*.</summary>
/// <param name="W">Scalar part.</param>
/// <param name="X">First vector part.</param>
/// <param name="Y">Second vector part.</param>
/// <param name="Z">Third vector part.</param>
/// <remarks>The default value is all zeros and no rotation: start from <see cref="Identity"/>.</remarks>
public readonly record struct UnitQuaternion(double W, double X, double Y, double Z)
{
    /// <summary>No rotation.</summary>
    public static UnitQuaternion Identity => new(1, 0, 0, 0);

    /// <summary>Hamilton product: first <paramref name="b"/>, then <paramref name="a"/>.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static UnitQuaternion operator *(UnitQuaternion a, UnitQuaternion b) =>
        new(
            a.W * b.W - a.X * b.X - a.Y * b.Y - a.Z * b.Z,
            a.W * b.X + a.X * b.W + a.Y * b.Z - a.Z * b.Y,
            a.W * b.Y - a.X * b.Z + a.Y * b.W + a.Z * b.X,
            a.W * b.Z + a.X * b.Y - a.Y * b.X + a.Z * b.W
        );

    /// <summary>The inverse rotation.</summary>
    public UnitQuaternion Conjugate => new(W, -X, -Y, -Z);

    /// <summary>Rotation by the vector's length (rad) about the vector's direction; exact for any angle.</summary>
    public static UnitQuaternion FromRotationVector(Vec3 rotationRadians)
    {
        double angle = rotationRadians.Length;
        double half = 0.5 * angle;
        // sin(a/2)/a by its series near zero: the next term is a⁴/3840, below rounding for a < 1e-3.
        double k = angle < 1e-3 ? 0.5 - angle * angle / 48 : Math.Sin(half) / angle;
        return new(Math.Cos(half), k * rotationRadians.X, k * rotationRadians.Y, k * rotationRadians.Z);
    }

    /// <summary>The same rotation scaled back to length one.</summary>
    /// <exception cref="InvalidOperationException">All parts are zero, or one is not finite.</exception>
    public UnitQuaternion Normalized()
    {
        double norm = Math.Sqrt(W * W + X * X + Y * Y + Z * Z);
        return norm > 0 && double.IsFinite(norm)
            ? new(W / norm, X / norm, Y / norm, Z / norm)
            : throw new InvalidOperationException("A zero or non-finite quaternion is no attitude.");
    }

    /// <summary>The rotation as a matrix.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Mat3 ToMatrix() =>
        new(
            new(1 - 2 * (Y * Y + Z * Z), 2 * (X * Y - W * Z), 2 * (X * Z + W * Y)),
            new(2 * (X * Y + W * Z), 1 - 2 * (X * X + Z * Z), 2 * (Y * Z - W * X)),
            new(2 * (X * Z - W * Y), 2 * (Y * Z + W * X), 1 - 2 * (X * X + Y * Y))
        );

    /// <summary>Rotated vector.</summary>
    public Vec3 Rotate(Vec3 v) => ToMatrix() * v;

    /// <summary>The four parts. (That of records would write the inverse too, which has an inverse…)</summary>
    public override string ToString() => FormattableString.Invariant($"({W}, {X}, {Y}, {Z})");
}
