using Lightkeel.Physics.Materials;
using Xunit;

namespace Lightkeel.Physics.Tests.Materials;

public sealed class MaterialTableTests
{
    [Fact]
    public void EveryValue_HasASource_AndIsPossible()
    {
        Assert.True(MaterialTable.All.Count >= 12);
        Assert.Equal(MaterialTable.Names.Count, MaterialTable.Names.Distinct().Count());
        foreach (Material material in MaterialTable.All)
        {
            foreach (MaterialProperty property in MaterialProperties.All)
            {
                SourcedValue value = material.Find(property)!;
                Assert.True(value.Source.Length > 10, material.Name);
                Assert.InRange(value.Value, Range(property).Low, Range(property).High);
            }
        }
    }

    // Bounds that no solid leaves: any handbook.
    private static (double Low, double High) Range(MaterialProperty property) =>
        property switch
        {
            MaterialProperty.Density => (500, 25e3),
            MaterialProperty.YoungsModulus => (1e8, 1.3e12),
            MaterialProperty.PoissonRatio => (0, 0.5),
            MaterialProperty.TensileStrength => (1e7, 1e11),
            MaterialProperty.TemperatureLimit => (300, 4000),
            MaterialProperty.HeatCapacity => (100, 3000),
            MaterialProperty.Expansion => (1e-7, 1e-4),
            _ => (0.05, 2500),
        };

    [Fact]
    public void StatedValues_ReplaceThoseOfTheTable()
    {
        Material mine = MaterialTable.Find("aluminium")!.With("foil", [new(MaterialProperty.Density, 2650)]);
        Assert.Equal(2650, mine.Value(MaterialProperty.Density));
        Assert.Equal(Provenance.Design, mine.Find(MaterialProperty.Density)!.Provenance);
        Assert.Equal(70.2e9, mine.Value(MaterialProperty.YoungsModulus));
        Assert.Null(MaterialTable.Find("unobtainium"));
        Assert.Null(Material.Unknown.Value(MaterialProperty.Density));
    }
}
