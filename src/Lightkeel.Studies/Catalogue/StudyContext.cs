namespace Lightkeel.Studies.Catalogue;

/// <summary>Everything a run may need from outside beside its input: no console, no files, no clock.</summary>
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
}
