using Lightkeel.Numerics;

namespace Lightkeel.Physics.Craft;

/// <summary>A part so small that its own inertia is neglected.</summary>
public sealed class PointMass : MassPart
{
    /// <summary>Builds a point mass.</summary>
    /// <param name="name">The user's name of the part.</param>
    /// <param name="massKilograms">Mass, kg, ≥ 0.</param>
    /// <param name="placement">Where it sits; turning it changes nothing.</param>
    /// <exception cref="ArgumentException">The name is empty or the mass is negative or not finite.</exception>
    public PointMass(string name, double massKilograms, Placement placement = default)
        : base(name, placement) => OwnMoments = new(Require.NotNegative(massKilograms), default, default);

    /// <inheritdoc/>
    public override PartMoments OwnMoments { get; }
}
