using System.Runtime.CompilerServices;
using Lightkeel.Numerics.Scalars;

namespace Lightkeel.Numerics.LinearAlgebra;

/// <summary>A 3×3 matrix of any scalar kind, by rows. Rotations are named by both ends: <c>beamFromBody</c>.</summary>
/// <param name="Row0">First row.</param>
/// <param name="Row1">Second row.</param>
/// <param name="Row2">Third row.</param>
/// <typeparam name="T">Scalar kind.</typeparam>
public readonly record struct Mat3<T>(Vec3<T> Row0, Vec3<T> Row1, Vec3<T> Row2)
    where T : struct, IScalar<T>
{
    /// <summary>First column.</summary>
    public Vec3<T> Column0 => new(Row0.X, Row1.X, Row2.X);

    /// <summary>Second column.</summary>
    public Vec3<T> Column1 => new(Row0.Y, Row1.Y, Row2.Y);

    /// <summary>Third column.</summary>
    public Vec3<T> Column2 => new(Row0.Z, Row1.Z, Row2.Z);

    /// <summary>Matrix times vector.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vec3<T> operator *(in Mat3<T> m, in Vec3<T> v) =>
        new(Vec3<T>.Dot(m.Row0, v), Vec3<T>.Dot(m.Row1, v), Vec3<T>.Dot(m.Row2, v));

    /// <summary>Matrix product.</summary>
    public static Mat3<T> operator *(in Mat3<T> a, in Mat3<T> b)
    {
        Vec3<T> c0 = a * b.Column0;
        Vec3<T> c1 = a * b.Column1;
        Vec3<T> c2 = a * b.Column2;
        return new(new(c0.X, c1.X, c2.X), new(c0.Y, c1.Y, c2.Y), new(c0.Z, c1.Z, c2.Z));
    }

    /// <summary>A matrix of constants.</summary>
    public static Mat3<T> Constant(in Mat3 m) =>
        new(Vec3<T>.Constant(m.Row0), Vec3<T>.Constant(m.Row1), Vec3<T>.Constant(m.Row2));
}

/// <summary>A 3×3 matrix of doubles, by rows.</summary>
/// <param name="Row0">First row.</param>
/// <param name="Row1">Second row.</param>
/// <param name="Row2">Third row.</param>
public readonly record struct Mat3(Vec3 Row0, Vec3 Row1, Vec3 Row2)
{
    /// <summary>The unit matrix.</summary>
    public static Mat3 Identity => new(Vec3.UnitX, Vec3.UnitY, Vec3.UnitZ);

    /// <summary>First column.</summary>
    public Vec3 Column0 => new(Row0.X, Row1.X, Row2.X);

    /// <summary>Second column.</summary>
    public Vec3 Column1 => new(Row0.Y, Row1.Y, Row2.Y);

    /// <summary>Third column.</summary>
    public Vec3 Column2 => new(Row0.Z, Row1.Z, Row2.Z);

    /// <summary>Transposed matrix.</summary>
    public Mat3 Transposed
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        get => new(Column0, Column1, Column2);
    }

    /// <summary>Determinant.</summary>
    public double Determinant => Vec3.Dot(Row0, Vec3.Cross(Row1, Row2));

    /// <summary>Sum.</summary>
    public static Mat3 operator +(Mat3 a, Mat3 b) => new(a.Row0 + b.Row0, a.Row1 + b.Row1, a.Row2 + b.Row2);

    /// <summary>Scaled matrix.</summary>
    public static Mat3 operator *(double s, Mat3 a) => new(s * a.Row0, s * a.Row1, s * a.Row2);

    /// <summary>Matrix times vector.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vec3 operator *(in Mat3 m, in Vec3 v) =>
        new(Vec3.Dot(m.Row0, v), Vec3.Dot(m.Row1, v), Vec3.Dot(m.Row2, v));

    /// <summary>Matrix product.</summary>
    public static Mat3 operator *(Mat3 a, Mat3 b)
    {
        Mat3 t = b.Transposed;
        return new(t * a.Row0, t * a.Row1, t * a.Row2);
    }

    /// <summary>Diagonal matrix.</summary>
    public static Mat3 Diagonal(double x, double y, double z) => new(new(x, 0, 0), new(0, y, 0), new(0, 0, z));

    /// <summary>Inverse.</summary>
    /// <exception cref="InvalidOperationException">The matrix is singular or not finite.</exception>
    public Mat3 Inverse()
    {
        // Scaled by its largest entry, so that the determinant of a small matrix does not underflow.
        double largest = 0;
        foreach (Vec3 row in (ReadOnlySpan<Vec3>)[Row0, Row1, Row2])
        {
            largest = Math.Max(largest, Math.Max(Math.Abs(row.X), Math.Max(Math.Abs(row.Y), Math.Abs(row.Z))));
        }
        Mat3 scaled = largest > 0 ? new(1 / largest * Row0, 1 / largest * Row1, 1 / largest * Row2) : this;
        double determinant = scaled.Determinant;
        if (determinant == 0 || !double.IsFinite(determinant))
        {
            throw new InvalidOperationException("The matrix has no inverse.");
        }
        Mat3 adjugateTransposed = new(
            Vec3.Cross(scaled.Row1, scaled.Row2),
            Vec3.Cross(scaled.Row2, scaled.Row0),
            Vec3.Cross(scaled.Row0, scaled.Row1)
        );
        return 1 / determinant / largest * adjugateTransposed.Transposed;
    }

    /// <summary>Rotation by an angle (rad) about a unit axis, right-handed.</summary>
    public static Mat3 Rotation(Vec3 unitAxis, double angleRadians)
    {
        (double s, double c) = Math.SinCos(angleRadians);
        (double x, double y, double z) = unitAxis;
        double v = 1 - c;
        return new(
            new(c + v * x * x, v * x * y - s * z, v * x * z + s * y),
            new(v * x * y + s * z, c + v * y * y, v * y * z - s * x),
            new(v * x * z - s * y, v * y * z + s * x, c + v * z * z)
        );
    }

    /// <summary>The rows as text.</summary>
    public override string ToString() =>
        FormattableString.Invariant(
            $"[{Row0.X:R} {Row0.Y:R} {Row0.Z:R}; {Row1.X:R} {Row1.Y:R} {Row1.Z:R}; {Row2.X:R} {Row2.Y:R} {Row2.Z:R}]"
        );
}
