using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Craft;

/// <summary>A solid or hollow sphere of even density; reference point: centre.</summary>
public sealed class SphereMass : MassPart
{
    /// <summary>Builds a sphere.</summary>
    /// <param name="name">The user's name of the part.</param>
    /// <param name="massKilograms">Mass, kg, ≥ 0.</param>
    /// <param name="radiusMetres">Outer radius, m.</param>
    /// <param name="innerRadiusMetres">Radius of the hollow, m: 0 for a solid sphere, the outer radius for a thin shell.</param>
    /// <param name="placement">Where the centre sits; turning it changes nothing.</param>
    /// <exception cref="ArgumentException">The name is empty or a number is outside its range.</exception>
    public SphereMass(
        string name,
        double massKilograms,
        double radiusMetres,
        double innerRadiusMetres = 0,
        Placement placement = default
    )
        : base(name, placement)
    {
        Require.NotNegative(massKilograms);
        RadiusMetres = Require.Positive(radiusMetres);
        InnerRadiusMetres = Require.Between(innerRadiusMetres, 0, radiusMetres);
        // (2/5) m (R⁵ − r⁵)/(R³ − r³) with the common factor R − r taken out, so that r = R gives the shell's (2/3) m R².
        double q = innerRadiusMetres / radiusMetres;
        double shape = (1 + q * (1 + q * (1 + q * (1 + q)))) / (1 + q * (1 + q));
        double inertia = 0.4 * massKilograms * radiusMetres * radiusMetres * shape;
        OwnMoments = new(massKilograms, default, Mat3.Diagonal(inertia, inertia, inertia));
    }

    /// <summary>Outer radius, m.</summary>
    public double RadiusMetres { get; }

    /// <summary>Radius of the hollow, m.</summary>
    public double InnerRadiusMetres { get; }

    /// <inheritdoc/>
    public override PartMoments OwnMoments { get; }
}
