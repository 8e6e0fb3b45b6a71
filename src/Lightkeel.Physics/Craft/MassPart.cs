using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Craft;

/// <summary>Mass, centroid and inertia of one part, in the part's own frame.</summary>
/// <param name="MassKilograms">Mass, kg, ≥ 0.</param>
/// <param name="CentroidMetres">Centroid from the part's reference point, m.</param>
/// <param name="InertiaKilogramSquareMetres">Inertia tensor about the centroid, kg m².</param>
public readonly record struct PartMoments(double MassKilograms, Vec3 CentroidMetres, Mat3 InertiaKilogramSquareMetres);

/// <summary>A rigid part that carries mass: a thin sail shell, a payload, a boom. Immutable; safe to share between threads.</summary>
public abstract class MassPart
{
    /// <summary>Names and places the part.</summary>
    /// <param name="name">The user's name of the part.</param>
    /// <param name="placement">Where its reference point sits and how it is turned.</param>
    /// <exception cref="ArgumentException">The name is empty.</exception>
    private protected MassPart(string name, Placement placement)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        Name = name;
        Placement = placement;
    }

    /// <summary>The user's name of the part.</summary>
    public string Name { get; }

    /// <summary>Where the part's reference point sits and how it is turned.</summary>
    public Placement Placement { get; }

    /// <summary>Mass, centroid and inertia in the part's own frame.</summary>
    public abstract PartMoments OwnMoments { get; }

    /// <summary>Mass, centroid from the body origin and inertia about that centroid, in body axes.</summary>
    public PartMoments BodyMoments
    {
        get
        {
            PartMoments own = OwnMoments;
            Mat3 bodyFromPart = Placement.BodyFromPart;
            return new(
                own.MassKilograms,
                Placement.OriginMetres + bodyFromPart * own.CentroidMetres,
                bodyFromPart * own.InertiaKilogramSquareMetres * bodyFromPart.Transposed
            );
        }
    }
}
