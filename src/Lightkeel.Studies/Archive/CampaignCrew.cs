namespace Lightkeel.Studies.Archive;

/// <summary>Who works on a campaign, and whom they tell.</summary>
/// <param name="Threads">Threads that compute, at least 1.</param>
/// <param name="Cancellation">Asks to stop: items that were begun are finished and kept.</param>
public sealed record CampaignCrew(int Threads, CancellationToken Cancellation)
{
    /// <summary>Told how many items exist, and how many are wanted. Called from any thread.</summary>
    public Action<long, long> Report { get; init; } = static (_, _) => { };

    /// <summary>Told why an item has no usable result. Called from any thread.</summary>
    public Action<string> Failed { get; init; } = static _ => { };
}
