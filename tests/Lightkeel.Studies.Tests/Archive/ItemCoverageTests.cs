using CsCheck;
using Lightkeel.Studies.Archive;
using Xunit;

namespace Lightkeel.Studies.Tests.Archive;

/// <summary>Ranges of items: each item exists once, and what is missing is the rest.</summary>
public sealed class ItemCoverageTests
{
    private static readonly Gen<(ItemRange[] Stored, int Items, int Block)> Cases =
        from stored in Gen.Select(Gen.Int[0, 60], Gen.Int[1, 20], (f, c) => new ItemRange(f, c)).Array[0, 12]
        from items in Gen.Int[1, 70]
        from block in Gen.Int[1, 16]
        select (stored, items, block);

    [Fact]
    public void PartsAndMissing_AreAllItems_EachOnceAndInOrder() =>
        Cases.Sample(
            (stored, items, block) =>
            {
                ItemCoverage coverage = new(stored, items);
                long[] present = [.. coverage.Parts().SelectMany(p => Numbers(p.Part))];
                long[] missing = [.. coverage.Missing(0, items, block).SelectMany(Numbers)];
                Assert.Equal(present.Order().Distinct(), present);
                Assert.Equal(Enumerable.Range(0, items).Select(i => (long)i), present.Concat(missing).Order());
                Assert.Equal(present.Length, coverage.Present);
                Assert.All(
                    coverage.Parts(),
                    p => Assert.True(p.Stored.First <= p.Part.First && p.Part.End <= p.Stored.End)
                );
            }
        );

    [Fact]
    public void Missing_IsCutAtTheMultiplesOfTheBlock() =>
        Cases.Sample(
            (stored, items, block) =>
                Assert.All(
                    new ItemCoverage(stored, items).Missing(0, items, block),
                    m => Assert.Equal(m.First / block, (m.End - 1) / block)
                )
        );

    [Fact]
    public void Shares_AreAllItems_InWholeBlocks() =>
        Gen.Select(Gen.Int[1, 500], Gen.Int[1, 16], Gen.Int[1, 20])
            .Sample(
                (items, block, shares) =>
                {
                    CampaignPlan plan = new(TallyCampaign.QuestionOf(1), items, block);
                    long end = 0;
                    for (int i = 0; i < shares; i++)
                    {
                        (long first, long next) = plan.Share(i, shares);
                        Assert.Equal(end, first);
                        Assert.True(next == items || next % block == 0);
                        end = next;
                    }
                    Assert.Equal(items, end);
                }
            );

    private static IEnumerable<long> Numbers(ItemRange range) =>
        Enumerable.Range(0, range.Count).Select(i => range.First + i);
}
