using System.Diagnostics;
using Lightkeel.Studies.Archive;
using Microsoft.Data.Sqlite;
using Xunit;

namespace Lightkeel.Studies.Tests.Archive;

/// <summary>Archives that are damaged, strange, locked, full or not writable: one sentence each, nothing repaired, nothing lost.</summary>
public sealed class ArchiveFaultTests : IDisposable
{
    private readonly ArchiveFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private ArchiveException Refused(TallyCampaign campaign, ArchiveSettings? settings = null)
    {
        using ArchiveHome home = _folder.Home(settings);
        return Assert.Throws<ArchiveException>(() => TallyCampaign.BytesOf(campaign.Run(home, 1)));
    }

    private void Complete(TallyCampaign campaign)
    {
        using ArchiveHome home = _folder.Home();
        Assert.Equal(campaign.Expected(), TallyCampaign.BytesOf(campaign.Run(home)));
    }

    private void Sql(string text)
    {
        using SqliteConnection connection = new($"Data Source={_folder.Archive};Pooling=False");
        connection.Open();
        using SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // Constants of this test.
        command.CommandText = text;
#pragma warning restore CA2100
        command.ExecuteNonQuery();
    }

    [Fact]
    public void DamagedPiece_IsNamed_AndLeftAsItIs()
    {
        Complete(new(20));
        Sql("UPDATE piece SET rows = zeroblob(length(rows)) WHERE first = 8");
        ArchiveException e = Refused(new(20));
        Assert.Equal(ArchiveFaultKind.Unusable, e.Kind);
        Assert.Contains("items 8 to ", e.Message, StringComparison.Ordinal);
        using ArchiveFile file = ArchiveFile.OpenToRead(_folder.Archive);
        ArchiveCatalog catalog = new(file);
        Assert.Throws<ArchiveException>(() => catalog.Verify(catalog.Campaigns()[0]));
        Assert.Equal("ok", catalog.CheckStructure());
    }

    [Fact]
    public void PieceOfAnotherPlace_IsSeen_ThoughItsBytesAreWhole()
    {
        Complete(new(20));
        Sql(
            "UPDATE piece SET first = 100 WHERE first = 8; UPDATE piece SET first = 8 WHERE first = 12; UPDATE piece SET first = 12 WHERE first = 100"
        );
        Assert.Contains("items 8 to ", Refused(new(20)).Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, 100), InlineData(4096, 4096), InlineData(12_000, 5000), InlineData(2000, 90_000)]
    public void OverwrittenFile_IsRefusedUnchanged_OrAnswersRight(int from, int count)
    {
        // 200 items make a file of several pages; where the damage hits no page in use the answer must be right.
        Complete(new(200));
        byte[] bytes = File.ReadAllBytes(_folder.Archive);
        bytes.AsSpan(Math.Min(from, bytes.Length), Math.Min(count, bytes.Length - from)).Fill(0x5A);
        File.WriteAllBytes(_folder.Archive, bytes);
        TallyCampaign again = new(200);
        try
        {
            using ArchiveHome home = _folder.Home();
            Assert.Equal(again.Expected(), TallyCampaign.BytesOf(again.Run(home, 1)));
        }
        catch (ArchiveException e)
        {
            Assert.Equal(ArchiveFaultKind.Unusable, e.Kind);
        }
        Assert.Equal(bytes, File.ReadAllBytes(_folder.Archive));
    }

    [Fact]
    public void CutOffFile_IsRefused()
    {
        Complete(new(400));
        byte[] bytes = File.ReadAllBytes(_folder.Archive);
        File.WriteAllBytes(_folder.Archive, bytes[..(bytes.Length / 2)]);
        Assert.Equal(ArchiveFaultKind.Unusable, Refused(new(400)).Kind);
    }

    [Fact]
    public void FilesThatAreNoArchives_AreLeftAlone()
    {
        File.WriteAllText(_folder.Archive, new string('x', 5000));
        Assert.Contains("no archive of Lightkeel", Refused(new(4)).Message, StringComparison.Ordinal);
        File.Delete(_folder.Archive);
        Sql("CREATE TABLE birds(name TEXT)");
        Assert.Contains("another program", Refused(new(4)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void NewerForm_IsRefused_AndOlderOneIsBroughtUpToDate()
    {
        Complete(new(12));
        Sql("PRAGMA user_version = 99");
        Assert.Contains("newer", Refused(new(12)).Message, StringComparison.Ordinal);
        // The first form had no text of the design.
        Sql("ALTER TABLE campaign DROP COLUMN design; PRAGMA user_version = 1");
        TallyCampaign again = new(12);
        Complete(again);
        Assert.Equal(0, again.Computed);
        using ArchiveFile file = ArchiveFile.OpenToRead(_folder.Archive);
        Assert.Equal("", new ArchiveCatalog(file).Campaigns()[0].Record.Design);
    }

    [Fact]
    public void TwoDifferentResultsOfOnePiece_AreAnError()
    {
        TallyCampaign campaign = new(4);
        Complete(campaign);
        using ArchiveFile file = ArchiveFile.Open(_folder.Archive);
        using ArchiveStore store = new(file, campaign.Plan.Record(), Provenance.Unknown, ownsFile: false);
        byte[] rows = campaign.Expected();
        store.Put([new(new(0, 4), rows)]);
        rows[0] ^= 1;
        ArchiveException e = Assert.Throws<ArchiveException>(() => store.Put([new(new(0, 4), rows)]));
        Assert.Contains("different results", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void LockedArchive_IsToldAfterTheWait()
    {
        Complete(new(4));
        using SqliteConnection other = new($"Data Source={_folder.Archive};Pooling=False");
        other.Open();
        using SqliteCommand begin = other.CreateCommand();
        begin.CommandText = "BEGIN IMMEDIATE";
        begin.ExecuteNonQuery();
        ArchiveSettings impatient = new() { BusySeconds = 1 };
        Assert.Equal(ArchiveFaultKind.Locked, Refused(new(8), impatient).Kind);
        // Reading does not wait for a writer.
        using ArchiveHome home = _folder.Home(impatient);
        Assert.True(new TallyCampaign(4).Run(home).IsComplete);
    }

    [Fact]
    public void FullDisk_KeepsWhatWasStored_AndIsGoneOnWith()
    {
        // 30 pages of 4096 bytes; 1500 items of 53 bytes with their checksums need more.
        TallyCampaign campaign = new(1500, block: 8);
        ArchiveException e = Refused(campaign, new() { MostPages = 30 });
        Assert.Equal(ArchiveFaultKind.Full, e.Kind);
        Assert.Contains("make room", e.Message, StringComparison.Ordinal);
        TallyCampaign rest = new(1500, block: 8);
        Complete(rest);
        Assert.InRange(rest.Computed, 0, 1500);
    }

    [Fact]
    public void ArchiveThatNobodyNamed_FallsBackToMemory_AndSaysSo()
    {
        string design = _folder.In("tern.toml");
        TallyCampaign campaign = new(1500, block: 8);
        CampaignPlan plan = campaign.Plan with { DesignFile = design };
        campaign = new(1500, block: 8) { Plan = plan };
        using (ArchiveHome full = new(null, Provenance.Unknown, new() { MostPages = 30 }))
        {
            Assert.Equal(campaign.Expected(), TallyCampaign.BytesOf(campaign.Run(full)));
            Assert.Equal(ArchiveFaultKind.Full, full.Trouble!.Kind);
        }
        string place = _folder.In("tern.archive.sqlite");
        Assert.True(File.Exists(place));
        File.Delete(place);
        Directory.CreateDirectory(place);
        using ArchiveHome folder = new(null, Provenance.Unknown);
        Assert.Equal(campaign.Expected(), TallyCampaign.BytesOf(campaign.Run(folder)));
        Assert.Equal(ArchiveFaultKind.NotWritable, folder.Trouble!.Kind);
        using ArchiveHome named = new(place, Provenance.Unknown);
        Assert.Equal(ArchiveFaultKind.NotWritable, Assert.Throws<ArchiveException>(() => campaign.Run(named)).Kind);
    }

    [Fact]
    public void DamagedArchiveThatNobodyNamed_IsAnError()
    {
        File.WriteAllText(_folder.In("tern.archive.sqlite"), new string('x', 5000));
        TallyCampaign campaign = new(4);
        campaign = new(4) { Plan = campaign.Plan with { DesignFile = _folder.In("tern.toml") } };
        using ArchiveHome home = new(null, Provenance.Unknown);
        Assert.Equal(ArchiveFaultKind.Unusable, Assert.Throws<ArchiveException>(() => campaign.Run(home)).Kind);
    }

    [Fact]
    public void ReadOnlyArchive_IsRefusedForWriting_AndReadAsEver()
    {
        Assert.SkipWhen(Environment.UserName == "root", "The rights of files do not bind this user.");
        Complete(new(4));
        File.SetAttributes(_folder.Archive, FileAttributes.ReadOnly);
        try
        {
            Assert.Equal(ArchiveFaultKind.NotWritable, Refused(new(8)).Kind);
            using ArchiveFile file = ArchiveFile.OpenToRead(_folder.Archive);
            Assert.Single(new ArchiveCatalog(file).Campaigns());
        }
        finally
        {
            File.SetAttributes(_folder.Archive, FileAttributes.Normal);
        }
    }

    [Fact]
    public void Reading_LeavesNoFilesBehind_NorDoesItChangeTheArchive()
    {
        Complete(new(4));
        byte[] before = File.ReadAllBytes(_folder.Archive);
        using (ArchiveFile file = ArchiveFile.OpenToRead(_folder.Archive))
        {
            Assert.Single(new ArchiveCatalog(file).Campaigns());
            Assert.Throws<SqliteException>(() => file.Execute("DELETE FROM campaign"));
        }
        Assert.Equal([_folder.Archive], Directory.GetFiles(_folder.Path));
        Assert.Equal(before, File.ReadAllBytes(_folder.Archive));
    }

    [Fact]
    public void FileCopiedWhileItIsWritten_IsRefused_OrGoneOnWithToTheSameResult()
    {
        string copy = _folder.In("copy.sqlite");
        List<byte[][]> copies = [];
        TallyCampaign writing = new(400, block: 4)
        {
            Before = item =>
            {
                if (item % 60 == 59 && File.Exists(_folder.Archive))
                {
                    string log = _folder.Archive + "-wal";
                    lock (copies)
                    {
                        copies.Add([Read(_folder.Archive), File.Exists(log) ? Read(log) : []]);
                    }
                }
            },
        };
        Complete(writing);
        Assert.NotEmpty(copies);
        foreach (byte[][] files in copies)
        {
            File.WriteAllBytes(copy, files[0]);
            File.WriteAllBytes(copy + "-wal", files[1]);
            TallyCampaign again = new(400, block: 4);
            try
            {
                using ArchiveHome home = new(copy, Provenance.Unknown);
                Assert.Equal(again.Expected(), TallyCampaign.BytesOf(again.Run(home)));
            }
            catch (ArchiveException e)
            {
                Assert.Equal(ArchiveFaultKind.Unusable, e.Kind);
            }
            File.Delete(copy + "-shm");
        }
    }

    // Not through a stream of .NET, whose closing would let go of the locks of this process.
    private byte[] Read(string path)
    {
        using Process copy = Process.Start("cp", [path, _folder.In("taken")]);
        copy.WaitForExit();
        return File.ReadAllBytes(_folder.In("taken"));
    }

    [Theory]
    [InlineData("damaged"), InlineData("locked"), InlineData("full"), InlineData("folder")]
    public void ArchiveOfALongRunThatNobodyNamed_ThatCannotBeUsed_IsToldAndNothingIsLost(string fault)
    {
        string place = ArchiveHome.Beside(_folder.In("tern.toml"));
        TallyCampaign campaign = new(1500, block: 8);
        campaign = new(1500, block: 8)
        {
            Plan = campaign.Plan with { DesignFile = _folder.In("tern.toml"), Keeping = CampaignKeeping.WhenLong },
        };
        ArchiveSettings settings = new() { LongSeconds = 0, BusySeconds = 1 };
        using SqliteConnection other = new($"Data Source={place};Pooling=False");
        switch (fault)
        {
            case "damaged":
                File.WriteAllText(place, new string('x', 5000));
                break;
            case "locked":
                using (ArchiveFile made = ArchiveFile.Open(place)) { }
                other.Open();
                using (SqliteCommand begin = other.CreateCommand())
                {
                    begin.CommandText = "BEGIN IMMEDIATE";
                    begin.ExecuteNonQuery();
                }
                break;
            case "full":
                settings = settings with { MostPages = 30 };
                break;
            default:
                Directory.CreateDirectory(place);
                break;
        }
        using ArchiveHome home = new(null, Provenance.Unknown, settings);
        if (fault == "damaged")
        {
            Assert.Equal(ArchiveFaultKind.Unusable, Assert.Throws<ArchiveException>(() => campaign.Run(home)).Kind);
            return;
        }
        Assert.Equal(campaign.Expected(), TallyCampaign.BytesOf(campaign.Run(home)));
        ArchiveFaultKind expected = fault switch
        {
            "locked" => ArchiveFaultKind.Locked,
            "full" => ArchiveFaultKind.Full,
            _ => ArchiveFaultKind.NotWritable,
        };
        Assert.Equal(expected, home.Trouble!.Kind);
    }
}
