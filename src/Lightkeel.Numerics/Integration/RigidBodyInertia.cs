using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Numerics.Integration;

/// <summary>Mass and inertia tensor of a rigid body, with its principal axes.</summary>
public sealed class RigidBodyInertia
{
    /// <summary>A body.</summary>
    /// <param name="massKilograms">Mass, positive, kg.</param>
    /// <param name="inertia">Inertia tensor about the centre of mass, body axes, symmetric, kg m².</param>
    /// <exception cref="ArgumentException">The mass or a principal inertia is not positive and finite, or the tensor is not symmetric.</exception>
    /// <remarks>
    /// The triangle inequality of principal inertias is not demanded, so that model bodies of textbooks can be run; a mass
    /// model checks its own.
    /// </remarks>
    public RigidBodyInertia(double massKilograms, Mat3 inertia)
    {
        if (!(massKilograms > 0 && double.IsFinite(massKilograms)))
        {
            throw new ArgumentException(
                $"Mass {massKilograms:R} kg: it must be positive and finite.",
                nameof(massKilograms)
            );
        }
        MassKilograms = massKilograms;
        Inertia = inertia;
        Principal = PrincipalAxes.Of(inertia);
        (double a, double b, double c) = Principal.Values;
        if (!(Math.Min(a, Math.Min(b, c)) > 0))
        {
            throw new ArgumentException(
                $"Principal inertias {a:G6}, {b:G6}, {c:G6} kg m²: all three must be positive.",
                nameof(inertia)
            );
        }
        InverseInertia = inertia.Inverse();
    }

    /// <summary>Mass, kg.</summary>
    public double MassKilograms { get; }

    /// <summary>Inertia tensor, body axes, kg m².</summary>
    public Mat3 Inertia { get; }

    /// <summary>Its inverse, 1/(kg m²).</summary>
    public Mat3 InverseInertia { get; }

    /// <summary>Principal inertias (kg m²) and axes (unit vectors in body axes).</summary>
    public PrincipalAxes Principal { get; }

    /// <summary>Body rate of an angular momentum, both in body axes, rad/s.</summary>
    public Vec3 Rate(Vec3 bodyAngularMomentum) => InverseInertia * bodyAngularMomentum;

    /// <summary>Kinetic energy of rotation, J.</summary>
    public double RotationalEnergy(Vec3 bodyAngularMomentum) =>
        0.5 * Vec3.Dot(bodyAngularMomentum, Rate(bodyAngularMomentum));
}
