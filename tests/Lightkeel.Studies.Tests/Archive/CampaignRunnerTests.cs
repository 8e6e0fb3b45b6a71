using Lightkeel.Studies.Archive;
using Xunit;

namespace Lightkeel.Studies.Tests.Archive;

/// <summary>Campaigns end with the same bits whatever happened on the way, and compute no item twice.</summary>
public sealed class CampaignRunnerTests : IDisposable
{
    private readonly ArchiveFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private byte[] Complete(TallyCampaign campaign, int threads = 2)
    {
        using ArchiveHome home = _folder.Home();
        CampaignResults results = campaign.Run(home, threads);
        Assert.True(results.IsComplete);
        return TallyCampaign.BytesOf(results);
    }

    [Theory]
    [InlineData(1), InlineData(3)]
    public void Results_AreThoseOfTheItems_InMemoryAndInAnArchive(int threads)
    {
        TallyCampaign campaign = new(101, block: 7);
        Assert.Equal(campaign.Expected(), TallyCampaign.BytesOf(campaign.Run(CampaignHome.InMemory, threads)));
        Assert.Equal(campaign.Expected(), Complete(campaign, threads));
    }

    [Fact]
    public void SameQuestion_IsRecalled_WithoutComputing()
    {
        Complete(new(50));
        TallyCampaign again = new(50);
        Assert.Equal(again.Expected(), Complete(again));
        Assert.Equal(0, again.Computed);
        TallyCampaign other = new(50, seed: 2);
        Assert.Equal(other.Expected(), Complete(other));
        Assert.Equal(50, other.Computed);
    }

    [Fact]
    public void MoreItems_AreAddedToThoseThatExist_AndFewerAreTakenFromThem()
    {
        Complete(new(30, block: 4));
        TallyCampaign more = new(75, block: 8);
        Assert.Equal(more.Expected(), Complete(more));
        Assert.Equal(45, more.Computed);
        TallyCampaign fewer = new(33, block: 1);
        Assert.Equal(fewer.Expected(), Complete(fewer));
        Assert.Equal(0, fewer.Computed);
    }

    [Fact]
    public void StoppedRun_KeepsEveryItemThatWasBegun_AndIsGoneOnWith()
    {
        using CancellationTokenSource stop = new();
        TallyCampaign stopped = new(64, block: 8)
        {
            Before = item =>
            {
                if (item == 21)
                {
                    stop.Cancel();
                }
            },
        };
        using (ArchiveHome home = _folder.Home())
        {
            CampaignResults part = stopped.Run(home, 2, stop.Token);
            Assert.False(part.IsComplete);
            Assert.Equal(stopped.Computed, part.Present);
            Assert.Equal(part.Present, part.List((item, _) => item).Distinct().Count());
        }
        TallyCampaign rest = new(64, block: 8);
        Assert.Equal(rest.Expected(), Complete(rest));
        Assert.Equal(64 - stopped.Computed, rest.Computed);
    }

    [Fact]
    public void ItemThatFails_IsToldAsItIs_AndTheOthersAreKept()
    {
        TallyCampaign broken = new(40)
        {
            Before = item => _ = item == 30 ? throw new InvalidOperationException("item 30") : 0,
        };
        using (ArchiveHome home = _folder.Home())
        {
            Assert.Equal("item 30", Assert.Throws<InvalidOperationException>(() => broken.Run(home, 1)).Message);
        }
        TallyCampaign rest = new(40);
        Assert.Equal(rest.Expected(), Complete(rest));
        Assert.Equal(10, rest.Computed);
    }

    [Fact]
    public void TwoRunsOnOneArchive_AtOnce_CountNothingTwice()
    {
        const int Items = 300;
        // Neither goes on before both have begun.
        using CountdownEvent begun = new(2);
        using ThreadLocal<bool> met = new();
        void MeetOnce()
        {
            if (!met.Value)
            {
                met.Value = true;
                begun.Signal();
                begun.Wait(TimeSpan.FromMinutes(1));
            }
        }
        TallyCampaign[] both =
        [
            .. Enumerable.Range(0, 2).Select(_ => new TallyCampaign(Items, 2) { Before = _ => MeetOnce() }),
        ];
        byte[][] results = new byte[2][];
        Thread[] threads = [.. both.Select((c, i) => new Thread(() => results[i] = Complete(c, 1)))];
        Array.ForEach(threads, t => t.Start());
        Array.ForEach(threads, t => t.Join());
        Assert.All(results, r => Assert.Equal(both[0].Expected(), r));
        using ArchiveFile file = ArchiveFile.OpenToRead(_folder.Archive);
        CampaignEntry entry = Assert.Single(new ArchiveCatalog(file).Campaigns());
        Assert.Equal(Items, entry.Coverage.Present);
        Assert.Equal(2, entry.Runs.Count);
    }

    [Fact]
    public void SecondRun_BeginsAtTheOtherEnd()
    {
        List<long> order = [];
        TallyCampaign first = new(8, block: 2)
        {
            Before = item => _ = item == 4 ? throw new InvalidOperationException() : 0,
        };
        using (ArchiveHome home = _folder.Home())
        {
            Assert.Throws<InvalidOperationException>(() => first.Run(home, 1));
        }
        Complete(new(8, block: 2) { Before = order.Add }, threads: 1);
        Assert.Equal([6, 7, 4, 5], order);
    }

    [Fact]
    public void Progress_TellsRecalledItemsAtOnce_AndFailuresByReason()
    {
        Complete(new(10));
        TallyCampaign more = new(20, block: 1);
        List<(long Done, long Total)> reports = [];
        List<string> failures = [];
        Campaign campaign = new(more.Plan, (item, row) => TallyCampaign.Layout.PutWord(row, 2, (int)(item % 2)))
        {
            Failure = row => TallyCampaign.Layout.Word(row, 2) == 1 ? "odd" : null,
        };
        using ArchiveHome home = _folder.Home();
        CampaignRunner.Run(
            campaign,
            home,
            new(1, CancellationToken.None) { Report = (d, t) => reports.Add((d, t)), Failed = failures.Add }
        );
        Assert.Equal(Enumerable.Range(10, 11).Select(i => ((long)i, 20L)), reports);
        Assert.Equal(Enumerable.Repeat("odd", 5), failures);
    }

    [Fact]
    public void List_ReadsItemsInAnyOrder()
    {
        using ArchiveHome home = _folder.Home();
        CampaignResults results = new TallyCampaign(23).Run(home);
        IReadOnlyList<string> names = results.List((_, row) => TallyCampaign.Layout.Text(row, 4));
        Assert.Equal("item 17", names[17]);
        Assert.Equal("item 2", names[2]);
        Assert.Equal(Enumerable.Range(0, 23).Select(i => FormattableString.Invariant($"item {i}")), names);
        Assert.Throws<ArgumentOutOfRangeException>(() => names[23]);
    }
}
