using System.Runtime.CompilerServices;
using Lightkeel.Numerics.Scalars;

namespace Lightkeel.Numerics.LinearAlgebra;

/// <summary>A vector of three numbers of any scalar kind. Its frame and unit are named where it is declared.</summary>
/// <param name="X">First component.</param>
/// <param name="Y">Second component.</param>
/// <param name="Z">Third component.</param>
/// <typeparam name="T">Scalar kind.</typeparam>
public readonly record struct Vec3<T>(T X, T Y, T Z)
    where T : struct, IScalar<T>
{
    /// <summary>Sum.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vec3<T> operator +(in Vec3<T> a, in Vec3<T> b) => new(a.X + b.X, a.Y + b.Y, a.Z + b.Z);

    /// <summary>Difference.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vec3<T> operator -(in Vec3<T> a, in Vec3<T> b) => new(a.X - b.X, a.Y - b.Y, a.Z - b.Z);

    /// <summary>Scaled vector.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vec3<T> operator *(T s, in Vec3<T> a) => new(s * a.X, s * a.Y, s * a.Z);

    /// <summary>Inner product.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Dot(in Vec3<T> a, in Vec3<T> b) => T.MultiplyAdd(a.X, b.X, T.MultiplyAdd(a.Y, b.Y, a.Z * b.Z));

    /// <summary>Vector product a × b.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vec3<T> Cross(in Vec3<T> a, in Vec3<T> b) =>
        new(a.Y * b.Z - a.Z * b.Y, a.Z * b.X - a.X * b.Z, a.X * b.Y - a.Y * b.X);

    /// <summary>A vector of constants.</summary>
    public static Vec3<T> Constant(in Vec3 value) => new(T.Constant(value.X), T.Constant(value.Y), T.Constant(value.Z));
}

/// <summary>A vector of three doubles. Its frame and unit are named where it is declared.</summary>
/// <param name="X">First component.</param>
/// <param name="Y">Second component.</param>
/// <param name="Z">Third component.</param>
public readonly record struct Vec3(double X, double Y, double Z)
{
    /// <summary>The zero vector.</summary>
    public static Vec3 Zero => default;

    /// <summary>Unit vector along the first axis.</summary>
    public static Vec3 UnitX => new(1, 0, 0);

    /// <summary>Unit vector along the second axis.</summary>
    public static Vec3 UnitY => new(0, 1, 0);

    /// <summary>Unit vector along the third axis.</summary>
    public static Vec3 UnitZ => new(0, 0, 1);

    /// <summary>Euclidean length.</summary>
    public double Length => Math.Sqrt(X * X + Y * Y + Z * Z);

    /// <summary>True when all components are finite.</summary>
    public bool IsFinite
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        get => double.IsFinite(X) && double.IsFinite(Y) && double.IsFinite(Z);
    }

    /// <summary>Sum.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vec3 operator +(Vec3 a, Vec3 b) => new(a.X + b.X, a.Y + b.Y, a.Z + b.Z);

    /// <summary>Difference.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vec3 operator -(Vec3 a, Vec3 b) => new(a.X - b.X, a.Y - b.Y, a.Z - b.Z);

    /// <summary>Negative.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vec3 operator -(Vec3 a) => new(-a.X, -a.Y, -a.Z);

    /// <summary>Scaled vector.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vec3 operator *(double s, Vec3 a) => new(s * a.X, s * a.Y, s * a.Z);

    /// <summary>Inner product.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Dot(Vec3 a, Vec3 b) => a.X * b.X + a.Y * b.Y + a.Z * b.Z;

    /// <summary>Vector product a × b.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vec3 Cross(Vec3 a, Vec3 b) =>
        new(a.Y * b.Z - a.Z * b.Y, a.Z * b.X - a.X * b.Z, a.X * b.Y - a.Y * b.X);

    /// <summary>The vector scaled to length one.</summary>
    /// <exception cref="InvalidOperationException">The vector is zero or not finite.</exception>
    public Vec3 Normalized()
    {
        double length = Length;
        return length > 0 && double.IsFinite(length)
            ? 1 / length * this
            : throw new InvalidOperationException("A zero or non-finite vector has no direction.");
    }

    /// <summary>The components as text.</summary>
    public override string ToString() => FormattableString.Invariant($"({X:R}, {Y:R}, {Z:R})");
}
