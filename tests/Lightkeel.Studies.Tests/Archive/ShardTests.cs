using Lightkeel.Studies.Archive;
using Lightkeel.Studies.Output;
using Xunit;

namespace Lightkeel.Studies.Tests.Archive;

/// <summary>Shares computed by many processes: lost ones are gone on with, merges may be repeated, and nothing missing goes unseen.</summary>
public sealed class ShardTests : IDisposable
{
    private const int Shares = 5;
    private readonly ArchiveFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private TallyCampaign Compute(int share, Action<long>? before = null, CancellationToken cancellation = default)
    {
        TallyCampaign campaign = new(103, block: 4) { Before = before ?? (_ => { }) };
        using ShareHome home = new(_folder.In("shards"), share, Shares, Guid.NewGuid().ToString("N"));
        Assert.Throws<CampaignHandedOverException>(() => campaign.Run(home, 2, cancellation));
        return campaign;
    }

    private MergedCampaign Merge()
    {
        using ArchiveFile archive = ArchiveFile.Open(_folder.Archive);
        return ArchiveMerge.Merge(
            archive,
            [.. ShardFile.In(_folder.In("shards")).Select(ShardFile.TryOpen).OfType<ShardFile>()],
            Provenance.Unknown
        )[0];
    }

    [Fact]
    public void AllShares_MergeIntoTheWholeResult_Twice()
    {
        int computed = Enumerable.Range(0, Shares).Sum(i => Compute(i).Computed);
        Assert.Equal(103, computed);
        MergedCampaign merged = Merge();
        Assert.Empty(merged.MissingShares(Shares));
        Assert.Equal((0, 103), (merged.Before, merged.Coverage.Present));
        merged = Merge();
        Assert.Equal((103, 103), (merged.Before, merged.Coverage.Present));
        TallyCampaign whole = new(103);
        using ArchiveHome home = _folder.Home();
        Assert.Equal(whole.Expected(), TallyCampaign.BytesOf(whole.Run(home)));
        Assert.Equal(0, whole.Computed);
    }

    [Fact]
    public void MissingAndUnfinishedShares_AreNamed_AndWhatTheyHaveIsMerged()
    {
        using CancellationTokenSource stop = new();
        Compute(0);
        TallyCampaign stopped = Compute(
            1,
            item =>
            {
                if (item == 25)
                {
                    stop.Cancel();
                }
            },
            stop.Token
        );
        Compute(3);
        MergedCampaign merged = Merge();
        Assert.Equal([1, 2, 4], merged.MissingShares(Shares));
        (long first, long end) = stopped.Plan.Share(0, Shares);
        (long third, long fourth) = stopped.Plan.Share(3, Shares);
        Assert.Equal(end - first + fourth - third + stopped.Computed, merged.Coverage.Present);
    }

    [Fact]
    public void ShareOfAKilledProcess_IsGoneOnWith_FromItsLastWholePiece()
    {
        using CancellationTokenSource stop = new();
        TallyCampaign killed = Compute(
            2,
            item =>
            {
                if (item == 52)
                {
                    stop.Cancel();
                }
            },
            stop.Token
        );
        string part = Assert.Single(ShardFile.In(_folder.In("shards")));
        Assert.EndsWith(".part", part, StringComparison.Ordinal);
        using (FileStream stream = File.OpenWrite(part))
        {
            stream.SetLength(stream.Length - 3);
        }
        TallyCampaign rest = Compute(2);
        (long first, long end) = rest.Plan.Share(2, Shares);
        Assert.InRange(rest.Computed, end - first - killed.Computed + 1, end - first - 1);
        Assert.EndsWith(".shard", Assert.Single(ShardFile.In(_folder.In("shards"))), StringComparison.Ordinal);
        Assert.Equal(0, Compute(2).Computed);
    }

    [Fact]
    public void DamagedShard_IsRefused_ButItsWholePiecesCanBeMerged()
    {
        Compute(0);
        string path = Assert.Single(ShardFile.In(_folder.In("shards")));
        byte[] bytes = File.ReadAllBytes(path);
        bytes[^1] ^= 1;
        File.WriteAllBytes(path, bytes);
        Assert.Contains("damaged", Assert.Throws<ArchiveException>(Merge).Message, StringComparison.Ordinal);
        bytes[12] ^= 1;
        File.WriteAllBytes(path, bytes);
        Assert.Throws<ArchiveException>(Merge);
        File.WriteAllText(path, "nothing");
        Assert.Contains("no shard", Assert.Throws<ArchiveException>(Merge).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Table_HasARowPerItem_AndNoNumberThatIsNone()
    {
        using (ArchiveHome home = _folder.Home())
        {
            new TallyCampaign(9).Run(home);
        }
        using ArchiveFile file = ArchiveFile.OpenToRead(_folder.Archive);
        ArchiveCatalog catalog = new(file);
        ResultTable table = catalog.Table(catalog.Find(catalog.Campaigns()[0].Record.Key[..6]), withSeries: true);
        using MemoryStream stream = new();
        CsvTable.Write(table, stream);
        string[] lines = System.Text.Encoding.UTF8.GetString(stream.ToArray()).Split('\n');
        Assert.Equal("item,value_m,square,parity,000_third,001_third,002_third,name", lines[0]);
        Assert.Equal("3,0.25,9,odd,3,1,,item 3", lines[4]);
        Assert.Equal(11, lines.Length);
    }

    [Fact]
    public void Prune_TakesACampaignAway_AndGivesItsRoomBack()
    {
        using (ArchiveHome home = _folder.Home())
        {
            new TallyCampaign(3000).Run(home);
            new TallyCampaign(5, seed: 2).Run(home);
        }
        long before = new FileInfo(_folder.Archive).Length;
        using (ArchiveFile file = ArchiveFile.Open(_folder.Archive))
        {
            ArchiveCatalog catalog = new(file);
            catalog.Delete(catalog.Campaigns()[0]);
            catalog.Compact();
            Assert.Equal(5, Assert.Single(catalog.Campaigns()).Coverage.Present);
        }
        Assert.True(new FileInfo(_folder.Archive).Length < before / 2);
    }
}
