using System.Numerics;
using Lightkeel.Physics.Materials;
using Lightkeel.Physics.Optics.Indices;
using Xunit;

namespace Lightkeel.Physics.Tests.Optics.Indices;

public sealed class RefractiveIndexTests
{
    [Fact]
    public void Table_AtItsRowsAndBetween_JoinsByStraightLines()
    {
        TabulatedIndex table = new([new(1e-6, 1.5, 0.1), new(2e-6, 1.7, 0.3), new(4e-6, 1.1, 0)]);

        Assert.Equal(new Complex(1.5, 0.1), table.At(1e-6));
        Assert.Equal(1.6, table.At(1.5e-6).Real, 1e-15);
        Assert.Equal(0.15, table.At(3e-6).Imaginary, 1e-15);
        Assert.Equal(new Complex(1.1, 0), table.At(4e-6));
        Assert.False(table.IsLossless);
    }

    [Theory]
    [InlineData(2e-6, 1.5, 0, "ascend")]
    [InlineData(3e-6, -1, 0, "n must be above zero")]
    [InlineData(3e-6, 1, -0.1, "k zero or more")]
    public void Table_WithAnImpossibleRow_NamesTheRow(double wavelength, double n, double k, string said)
    {
        ArgumentException e = Assert.Throws<ArgumentException>(() =>
            new TabulatedIndex([new(2e-6, 1.5, 0), new(wavelength, n, k)])
        );

        Assert.Contains("Row 2", e.Message, StringComparison.Ordinal);
        Assert.Contains(said, e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void EveryIndexOfTheTable_StatesItsSourceAndCoversNearInfraredLight()
    {
        foreach (string name in IndexTable.Names)
        {
            SourcedIndex found = IndexTable.Find(name)!;
            Assert.True(found.Source.Length > 20);
            Assert.True(found.Index.At(1.3e-6).Real > 0, name);
        }
    }

    [Fact]
    public void StatedExtinction_BesideAKnownIndex_LeavesTheRealPart()
    {
        RefractiveIndex glass = IndexTable.Find("fused-silica")!.Index;

        Assert.Equal(new Complex(glass.At(1e-6).Real, 1e-5), new AbsorbingIndex(glass, 1e-5).At(1e-6));
    }
}
