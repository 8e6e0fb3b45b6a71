using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Craft;

/// <summary>A slender straight rod of even density, without thickness; reference point: its middle.</summary>
public sealed class RodMass : MassPart
{
    /// <summary>Builds a rod.</summary>
    /// <param name="name">The user's name of the part.</param>
    /// <param name="massKilograms">Mass, kg, ≥ 0.</param>
    /// <param name="lengthMetres">Length, m.</param>
    /// <param name="direction">Direction of the rod in its own frame, of any length but zero.</param>
    /// <param name="placement">Where the middle sits and how the rod's frame is turned.</param>
    /// <exception cref="ArgumentException">The name is empty, a number is outside its range, or the direction is zero.</exception>
    public RodMass(
        string name,
        double massKilograms,
        double lengthMetres,
        Vec3 direction,
        Placement placement = default
    )
        : base(name, placement)
    {
        Require.NotNegative(massKilograms);
        LengthMetres = Require.Positive(lengthMetres);
        Direction = AxialInertia.UnitAxis(direction, nameof(direction));
        double across = massKilograms * lengthMetres * lengthMetres / 12;
        OwnMoments = new(massKilograms, default, AxialInertia.About(Direction, 0, across));
    }

    /// <summary>Length, m.</summary>
    public double LengthMetres { get; }

    /// <summary>Unit direction of the rod in its own frame.</summary>
    public Vec3 Direction { get; }

    /// <inheritdoc/>
    public override PartMoments OwnMoments { get; }
}
