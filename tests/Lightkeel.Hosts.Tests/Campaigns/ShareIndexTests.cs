using Lightkeel.Cli.Campaigns;
using Lightkeel.Studies.Catalogue;
using Xunit;

namespace Lightkeel.Hosts.Tests.Campaigns;

/// <summary>Which share a task computes.</summary>
/// <remarks>
/// Variables: Slurm's manual page sbatch(1), "OUTPUT ENVIRONMENT VARIABLES"; Kubernetes' page "Indexed Job for Parallel Processing
/// with Static Work Assignment".
/// </remarks>
public sealed class ShareIndexTests
{
    [Theory]
    [InlineData(5, "3", "0", "2", 5)]
    [InlineData(null, "3", "0", null, 3)]
    [InlineData(null, "3", "1", null, 2)]
    [InlineData(null, "3", null, null, 3)]
    [InlineData(null, null, null, "7", 7)]
    [InlineData(null, "", "", "7", 7)]
    public void Share_IsThatOfTheFlag_ElseOfSlurm_ElseOfKubernetes(
        int? flag,
        string? task,
        string? first,
        string? completion,
        int expected
    ) => Assert.Equal(expected, ShareIndex.Of(flag, name => Variable(name, task, first, completion)));

    [Fact]
    public void Share_ThatNobodyNames_IsRefused() =>
        Assert.Contains(
            "--task",
            Assert.Throws<InputRefusedException>(() => ShareIndex.Of(null, _ => null)).Message,
            StringComparison.Ordinal
        );

    private static string? Variable(string name, string? task, string? first, string? completion) =>
        name switch
        {
            "SLURM_ARRAY_TASK_ID" => task,
            "SLURM_ARRAY_TASK_MIN" => first,
            "JOB_COMPLETION_INDEX" => completion,
            _ => null,
        };
}
