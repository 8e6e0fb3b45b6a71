using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Craft;

/// <summary>Inertia of a part that is alike all round one axis.</summary>
internal static class AxialInertia
{
    /// <summary>The tensor with one moment about a unit axis and another about every direction across it.</summary>
    public static Mat3 About(Vec3 axis, double along, double across)
    {
        double excess = along - across;
        return new(
            new(across + excess * axis.X * axis.X, excess * axis.X * axis.Y, excess * axis.X * axis.Z),
            new(excess * axis.Y * axis.X, across + excess * axis.Y * axis.Y, excess * axis.Y * axis.Z),
            new(excess * axis.Z * axis.X, excess * axis.Z * axis.Y, across + excess * axis.Z * axis.Z)
        );
    }

    /// <summary>The direction scaled to length one.</summary>
    /// <exception cref="ArgumentException">It is zero or not finite.</exception>
    public static Vec3 UnitAxis(Vec3 direction, string name)
    {
        double length = direction.Length;
        return length > 0 && double.IsFinite(length)
            ? 1 / length * direction
            : throw new ArgumentException("A direction must be finite and not zero.", name);
    }
}
