using Lightkeel.Physics.Materials;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>What a design states of a material of its own.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Like">Name of the table's material whose values hold where nothing is stated; null for none.</param>
/// <param name="Values">The values stated, SI.</param>
public sealed record MaterialDesign(string Name, string? Like, IReadOnlyDictionary<MaterialProperty, double> Values)
{
    /// <summary>The material with the values of the one it is like.</summary>
    public Material ToMaterial() =>
        ((Like is null ? null : MaterialTable.Find(Like)) ?? Material.Unknown).With(Name, Values);
}
