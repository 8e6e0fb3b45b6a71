using System.Runtime.CompilerServices;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Pressure.Rays;

/// <summary>
/// A sum over rays: three times force, torque, power met and power absorbed (the values, then their slopes by both
/// offsets), then the powers that left, were let go by scattering and were cut off. Per watt, forces over c, body axes.
/// </summary>
[InlineArray(Count)]
internal struct RaySum
{
    /// <summary>Numbers in one of the three blocks.</summary>
    public const int BlockSize = 8;

    private const int Count = 3 * BlockSize + 3;
    private double _first;

    /// <summary>Power that left.</summary>
    public readonly double Leaving => this[3 * BlockSize];

    /// <summary>Power scattered toward the craft.</summary>
    public readonly double Stray => this[3 * BlockSize + 1];

    /// <summary>Power cut off.</summary>
    public readonly double Cut => this[3 * BlockSize + 2];

    /// <summary>Adds a ray.</summary>
    /// <param name="ray">The ray.</param>
    /// <param name="value">Power per unit of the integral.</param>
    /// <param name="byX">Slope of that power by the offset along x.</param>
    /// <param name="byY">Slope by the offset along y.</param>
    public void Set(in RayTally ray, double value, double byX, double byY)
    {
        SetBlock(0, ray, value);
        SetBlock(1, ray, byX);
        SetBlock(2, ray, byY);
        this[3 * BlockSize] = value * ray.Leaving;
        this[3 * BlockSize + 1] = value * ray.Stray;
        this[3 * BlockSize + 2] = value * ray.Cut;
    }

    /// <summary>Adds a multiple of another sum.</summary>
    public void Add(double factor, in RaySum other)
    {
        Span<double> own = this;
        ReadOnlySpan<double> added = other;
        for (int i = 0; i < own.Length; i++)
        {
            own[i] += factor * added[i];
        }
    }

    /// <summary>One of the blocks: force, torque, power met, power absorbed.</summary>
    public readonly (Vec3 Force, Vec3 Torque, double Intercepted, double Absorbed) Block(int block)
    {
        int i = block * BlockSize;
        return (
            new(this[i], this[i + 1], this[i + 2]),
            new(this[i + 3], this[i + 4], this[i + 5]),
            this[i + 6],
            this[i + 7]
        );
    }

    /// <summary>Size of a block: force, or torque over reach, whichever is larger.</summary>
    public readonly double Size(int block, double reachMetres)
    {
        (Vec3 force, Vec3 torque, _, _) = Block(block);
        return Math.Max(force.Length, torque.Length / reachMetres);
    }

    private void SetBlock(int block, in RayTally ray, double weight)
    {
        int i = block * BlockSize;
        this[i] = weight * ray.Force.X;
        this[i + 1] = weight * ray.Force.Y;
        this[i + 2] = weight * ray.Force.Z;
        this[i + 3] = weight * ray.Torque.X;
        this[i + 4] = weight * ray.Torque.Y;
        this[i + 5] = weight * ray.Torque.Z;
        this[i + 6] = weight;
        this[i + 7] = weight * ray.Absorbed;
    }
}
