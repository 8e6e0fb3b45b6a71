using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Craft;

/// <summary>A solid box of even density with edges along its own axes; reference point: centre.</summary>
public sealed class BoxMass : MassPart
{
    /// <summary>Builds a box.</summary>
    /// <param name="name">The user's name of the part.</param>
    /// <param name="massKilograms">Mass, kg, ≥ 0.</param>
    /// <param name="edgesMetres">Edge lengths along the box's own x, y and z, m, ≥ 0: a zero edge makes a plate, two a rod.</param>
    /// <param name="placement">Where the centre sits and how the box is turned.</param>
    /// <exception cref="ArgumentException">The name is empty or a number is outside its range.</exception>
    public BoxMass(string name, double massKilograms, Vec3 edgesMetres, Placement placement = default)
        : base(name, placement)
    {
        double part = Require.NotNegative(massKilograms) / 12;
        double x = Require.NotNegative(edgesMetres.X);
        double y = Require.NotNegative(edgesMetres.Y);
        double z = Require.NotNegative(edgesMetres.Z);
        EdgesMetres = edgesMetres;
        OwnMoments = new(
            massKilograms,
            default,
            Mat3.Diagonal(part * (y * y + z * z), part * (z * z + x * x), part * (x * x + y * y))
        );
    }

    /// <summary>Edge lengths along the box's own axes, m.</summary>
    public Vec3 EdgesMetres { get; }

    /// <inheritdoc/>
    public override PartMoments OwnMoments { get; }
}
