using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>Mass properties of the whole craft from a measurement or a drawing, in place of those summed from its parts.</summary>
public sealed record CraftDesign
{
    /// <summary>Mass, kg.</summary>
    public required double MassKilograms { get; init; }

    /// <summary>Centre of mass in body axes, from the first sail's reference point, m.</summary>
    public required Vec3 CenterOfMassMetres { get; init; }

    /// <summary>Element xx of the inertia tensor about the centre of mass in body axes, kg m².</summary>
    public required double InertiaXXKilogramSquareMetres { get; init; }

    /// <summary>Element yy of the inertia tensor about the centre of mass in body axes, kg m².</summary>
    public required double InertiaYYKilogramSquareMetres { get; init; }

    /// <summary>Element zz of the inertia tensor about the centre of mass in body axes, kg m².</summary>
    public required double InertiaZZKilogramSquareMetres { get; init; }

    /// <summary>Element xy of the inertia tensor about the centre of mass in body axes, kg m².</summary>
    public required double InertiaXYKilogramSquareMetres { get; init; }

    /// <summary>Element xz of the inertia tensor about the centre of mass in body axes, kg m².</summary>
    public required double InertiaXZKilogramSquareMetres { get; init; }

    /// <summary>Element yz of the inertia tensor about the centre of mass in body axes, kg m².</summary>
    public required double InertiaYZKilogramSquareMetres { get; init; }

    /// <summary>The inertia tensor about the centre of mass in body axes, kg m².</summary>
    public Mat3 InertiaKilogramSquareMetres() =>
        new(
            new(InertiaXXKilogramSquareMetres, InertiaXYKilogramSquareMetres, InertiaXZKilogramSquareMetres),
            new(InertiaXYKilogramSquareMetres, InertiaYYKilogramSquareMetres, InertiaYZKilogramSquareMetres),
            new(InertiaXZKilogramSquareMetres, InertiaYZKilogramSquareMetres, InertiaZZKilogramSquareMetres)
        );
}
