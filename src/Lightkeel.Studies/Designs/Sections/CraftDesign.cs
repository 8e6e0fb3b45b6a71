using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>Mass properties of the whole craft from a measurement or a drawing, in place of those summed from its parts.</summary>
public sealed record CraftDesign
{
    /// <summary>Mass, kg.</summary>
    public required double MassKilograms { get; init; }

    /// <summary>Centre of mass in body axes, from the first sail's reference point, m.</summary>
    public required Vec3 CenterOfMassMetres { get; init; }

    /// <summary>Inertia tensor about the centre of mass in body axes, symmetric, kg m².</summary>
    public required Mat3 InertiaKilogramSquareMetres { get; init; }
}
