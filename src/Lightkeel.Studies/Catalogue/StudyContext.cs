using Lightkeel.Studies.Archive;

namespace Lightkeel.Studies.Catalogue;

/// <summary>Everything a run may need from outside beside its input: no console, no clock, no files but those of its home.</summary>
public sealed record StudyContext
{
    private readonly double _accuracy = 1e-8;
    private readonly int _threads = Environment.ProcessorCount;

    /// <summary>Requested relative accuracy when the user gives none.</summary>
    public const double UsualAccuracy = 1e-8;

    /// <summary>The finest accuracy that the engines vouch for.</summary>
    public const double FinestAccuracy = 1e-13;

    /// <summary>The coarsest accuracy that may be asked for.</summary>
    public const double CoarsestAccuracy = 1e-2;

    /// <summary>Seed when the user gives none.</summary>
    public const ulong UsualSeed = 1;

    /// <summary>Seed of the random numbers: the same seed gives the same bits.</summary>
    public ulong Seed { get; init; } = UsualSeed;

    /// <summary>Requested relative accuracy of forces, <see cref="FinestAccuracy"/> to <see cref="CoarsestAccuracy"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is outside these limits.</exception>
    public double Accuracy
    {
        get => _accuracy;
        init => _accuracy = Numerics.Require.Between(value, FinestAccuracy, CoarsestAccuracy);
    }

    /// <summary>How many threads may work at once, at least 1. Results do not depend on it.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is less than 1.</exception>
    public int Threads
    {
        get => _threads;
        init =>
            _threads =
                value >= 1 ? value : throw new ArgumentOutOfRangeException(nameof(Threads), value, "At least 1.");
    }

    /// <summary>Where progress is told.</summary>
    public IProgressReporter Progress { get; init; } = SilentProgress.Instance;

    /// <summary>Asks the run to stop, keeping what is finished.</summary>
    public CancellationToken Cancellation { get; init; } = CancellationToken.None;

    /// <summary>Where campaigns keep their pieces; in memory unless the host says otherwise.</summary>
    public CampaignHome Campaigns { get; init; } = CampaignHome.InMemory;

    /// <summary>Completes a campaign with the threads, the progress and the archive of this run.</summary>
    /// <param name="campaign">What is computed.</param>
    /// <returns>What exists now: everything, unless the run was asked to stop.</returns>
    /// <exception cref="ArchiveException">The archive cannot be used.</exception>
    public CampaignResults Complete(Campaign campaign)
    {
        ArgumentNullException.ThrowIfNull(campaign);
        string stage = campaign.Plan.Stage;
        CampaignCrew crew = new(Threads, Cancellation)
        {
            Report = (done, total) => Progress.Report(stage, done, total),
            Failed = reason => Progress.ReportFailure(stage, reason),
        };
        return CampaignRunner.Run(campaign, Campaigns, crew);
    }
}
