using System.Diagnostics;
using System.Text.Json;
using Lightkeel.Hosts.Tests.CommandLine;
using Xunit;

namespace Lightkeel.Hosts.Tests.Campaigns;

/// <summary>Archives on the command line.</summary>
public sealed class ArchiveCommandTests : IDisposable
{
    private readonly TestFolder _folder = new();
    private readonly string _archive;

    public ArchiveCommandTests()
    {
        ProgramRun.PutDesign(_folder);
        _archive = _folder.In("design.archive.sqlite");
    }

    public void Dispose() => _folder.Dispose();

    private HostRun Ride(params string[] more) => HostRun.Real([.. ProgramRun.Ensemble(_folder, 6), .. more]);

    [Fact]
    public void Archive_IsListedShownVerifiedExportedAndPruned()
    {
        Assert.Equal(0, Ride().Code);
        HostRun list = HostRun.Real("archive", "list", _archive, "--json");
        JsonElement campaign = list.Json.GetProperty("results").GetProperty("campaigns")[0];
        Assert.Equal("ride", campaign.GetProperty("study").GetString());
        Assert.Equal(6, campaign.GetProperty("present").GetInt64());
        string key = campaign.GetProperty("key").GetString()![..8];

        HostRun show = HostRun.Real("archive", "show", _archive, key);
        Assert.Contains("start.offset.y", show.Output, StringComparison.Ordinal);
        Assert.Contains("[beam.director]", show.Output, StringComparison.Ordinal);
        Assert.Contains("set ride.duration = 0.02 s", show.Output, StringComparison.Ordinal);
        Assert.Equal(0, HostRun.Real("archive", "verify", _archive).Code);

        string csv = _folder.In("rides.csv");
        Assert.Equal(0, HostRun.Real("archive", "export", _archive, key, "--to", csv).Code);
        string[] lines = File.ReadAllLines(csv);
        Assert.Equal("item,outcome,ended_by,time_s,max_offset_m,speed_m_s,direction_error_rad", lines[0]);
        Assert.Equal(7, lines.Length);
        string parquet = _folder.In("rides.parquet");
        Assert.Equal(0, HostRun.Real("archive", "export", _archive, key, "--to", parquet, "--series").Code);
        // The first and last four bytes of a Parquet file: https://parquet.apache.org/docs/file-format/
        Assert.Equal("PAR1"u8.ToArray(), File.ReadAllBytes(parquet)[..4]);

        Assert.Equal(0, HostRun.Real("archive", "prune", _archive, "--campaign", key).Code);
        list = HostRun.Real("archive", "list", _archive);
        Assert.DoesNotContain(key, list.Output, StringComparison.Ordinal);
        Assert.Equal(2, HostRun.Real("archive", "show", _archive, key).Code);
        Assert.Equal(2, HostRun.Real("archive", "prune", _archive).Code);
    }

    [Fact]
    public void SameEnsemble_IsAnsweredFromTheArchive_WithANote()
    {
        HostRun first = Ride("--json");
        HostRun second = Ride("--json");
        Assert.DoesNotContain("recalled", first.Error, StringComparison.Ordinal);
        Assert.Contains("6 of 6 rides were recalled", second.Error, StringComparison.Ordinal);
        Assert.Equal(first.Output, second.Output);
        HostRun other = Ride("--json", "--seed", "2");
        Assert.DoesNotContain("recalled", other.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void ArchiveThatCannotBeWritten_IsAWarning_OrWhenNamedAnError()
    {
        Directory.CreateDirectory(_archive);
        HostRun unnamed = Ride("--json");
        Assert.Equal(0, unnamed.Code);
        JsonElement warning = unnamed.Json.GetProperty("warnings").EnumerateArray().Last();
        Assert.Equal("archive-unwritable", warning.GetProperty("code").GetString());
        HostRun named = Ride("--archive", _archive);
        Assert.Equal(2, named.Code);
        Assert.Contains("it is a folder", named.Error, StringComparison.Ordinal);
        HostRun nowhere = Ride("--archive", _folder.In("none/a.sqlite"));
        Assert.Equal(2, nowhere.Code);
        Assert.Contains("there is no folder", nowhere.Error, StringComparison.Ordinal);
        Assert.Equal(0, Ride("--no-archive").Code);
        Assert.Equal(2, Ride("--no-archive", "--archive", _folder.In("a.sqlite")).Code);
    }

    [Fact]
    public void StrangeFiles_AreRefused_AndLeftAlone()
    {
        HostRun run = Ride("--archive", _folder.Design);
        Assert.Equal(2, run.Code);
        Assert.Contains("no archive of Lightkeel", run.Error, StringComparison.Ordinal);
        Assert.Equal(SampleDesigns.Text("tern"), File.ReadAllText(_folder.Design));
        Assert.Equal(2, HostRun.Real("archive", "list", _folder.In("none.sqlite")).Code);
        Assert.Equal(2, HostRun.Real("archive", "merge", _archive, _folder.Design).Code);
    }

    [Fact]
    public void Groups_HaveTheirOwnHelp_AndSuggestTheirCommands()
    {
        Assert.Contains("archive prune", HostRun.Real("archive", "--help").Output, StringComparison.Ordinal);
        Assert.Contains("did you mean \"list\"", HostRun.Real("archive", "lst").Error, StringComparison.Ordinal);
        Assert.Contains("lightkeel campaign --help", HostRun.Real("campaign").Error, StringComparison.Ordinal);
        Assert.Contains(
            "Usage: lightkeel campaign work",
            HostRun.Real("campaign", "work", "--help").Output,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task TwoProcessesOnOneArchive_GiveTheSameDocument_AndCorruptNothing()
    {
        string[] map = [.. ProgramRun.Map(_folder), "--archive", _archive, "--json"];
        using ProgramRun one = ProgramRun.Start(map);
        using ProgramRun two = ProgramRun.Start(map);
        (int first, string output, string error) = await one.Finish();
        Assert.True(first == 0, error);
        (int second, string other, error) = await two.Finish();
        Assert.True(second == 0, error);
        Assert.Equal(output, other);
        Assert.Equal(0, HostRun.Real("archive", "verify", _archive).Code);
        Assert.Equal(HostRun.Real([.. ProgramRun.Map(_folder), "--no-archive", "--json"]).Output, output);
    }

    [Fact]
    public void ShortMap_IsKept_WhereAnArchiveIsNamed()
    {
        string[] map = ProgramRun.Map(_folder);
        map[Array.IndexOf(map, "beam.radius=0.9 m..1.3 m:14")] = "beam.radius=0.9 m..1.3 m:2";
        string[] named = [.. map, "--archive", _folder.In("kept.sqlite")];
        Assert.Equal(0, HostRun.Real(named).Code);
        string note = HostRun.Real(named).Error;
        Assert.Contains("28 of 28 cells", note, StringComparison.Ordinal);
        Assert.Contains("were recalled", note, StringComparison.Ordinal);
    }

    [Fact]
    public void FullDisk_IsOneSentence_AndWhatWasStoredIsGoneOnWith()
    {
        string disk = _folder.In("disk");
        Directory.CreateDirectory(disk);
        Assert.SkipUnless(
            OperatingSystem.IsLinux()
                && Environment.UserName == "root"
                && Mount("mount", "-t", "tmpfs", "-o", "size=160k", "small", disk),
            "A small disk can be mounted by root alone."
        );
        try
        {
            string[] map = [.. ProgramRun.Map(_folder), "--json", "--archive", Path.Combine(disk, "a.sqlite")];
            HostRun full = HostRun.Real(map);
            Assert.Equal(2, full.Code);
            Assert.Contains("the disk is full", full.Error, StringComparison.Ordinal);
            Assert.True(Mount("mount", "-o", "remount,size=20m", disk));
            Assert.Equal(
                HostRun.Real([.. ProgramRun.Map(_folder), "--no-archive", "--json"]).Output,
                HostRun.Real(map).Output
            );
        }
        finally
        {
            Mount("umount", disk);
        }
    }

    private static bool Mount(string program, params string[] arguments)
    {
        ProcessStartInfo start = new(program) { RedirectStandardError = true };
        Array.ForEach(arguments, start.ArgumentList.Add);
        using Process process = Process.Start(start)!;
        process.WaitForExit();
        return process.ExitCode == 0;
    }
}
