using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Craft;

/// <summary>A thin circular hoop of even density; reference point: centre.</summary>
public sealed class RingMass : MassPart
{
    /// <summary>Builds a ring.</summary>
    /// <param name="name">The user's name of the part.</param>
    /// <param name="massKilograms">Mass, kg, ≥ 0.</param>
    /// <param name="radiusMetres">Radius of the hoop, m.</param>
    /// <param name="axis">Direction of the ring's axis in its own frame, of any length but zero.</param>
    /// <param name="placement">Where the centre sits and how the ring's frame is turned.</param>
    /// <exception cref="ArgumentException">The name is empty, a number is outside its range, or the axis is zero.</exception>
    public RingMass(string name, double massKilograms, double radiusMetres, Vec3 axis, Placement placement = default)
        : base(name, placement)
    {
        Require.NotNegative(massKilograms);
        RadiusMetres = Require.Positive(radiusMetres);
        Axis = AxialInertia.UnitAxis(axis, nameof(axis));
        double along = massKilograms * radiusMetres * radiusMetres;
        OwnMoments = new(massKilograms, default, AxialInertia.About(Axis, along, 0.5 * along));
    }

    /// <summary>Radius of the hoop, m.</summary>
    public double RadiusMetres { get; }

    /// <summary>Unit direction of the ring's axis in its own frame.</summary>
    public Vec3 Axis { get; }

    /// <inheritdoc/>
    public override PartMoments OwnMoments { get; }
}
