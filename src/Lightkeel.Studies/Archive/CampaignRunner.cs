using System.Runtime.ExceptionServices;

namespace Lightkeel.Studies.Archive;

/// <summary>Completes a campaign: recalls the items that exist, computes those that are missing, stores them as they come.</summary>
/// <remarks>
/// Whoever computes an item, and when, its bits are the same; results are read in the order of the items. So a run that was
/// killed and started again ends with the result of one that was not.
/// </remarks>
public static class CampaignRunner
{
    private const int PiecesPerCommit = 256;

    /// <summary>Runs a campaign.</summary>
    /// <param name="campaign">What is computed.</param>
    /// <param name="home">Where it is kept.</param>
    /// <param name="crew">Who works.</param>
    /// <returns>What exists now: everything, unless the run was asked to stop.</returns>
    /// <exception cref="ArchiveException">The archive cannot be used; what was stored before is kept.</exception>
    /// <exception cref="CampaignHandedOverException">The host wanted the plan or a share alone.</exception>
    public static CampaignResults Run(Campaign campaign, CampaignHome home, CampaignCrew crew)
    {
        ArgumentNullException.ThrowIfNull(campaign);
        ArgumentNullException.ThrowIfNull(home);
        ArgumentNullException.ThrowIfNull(crew);
        CampaignPlan plan = campaign.Plan;
        IPieceStore store = home.Open(plan);
        (long first, long end) = home.ItemsOf(plan);
        ItemCoverage before = new(store.Stored(), plan.Items);
        ItemRange[] missing = [.. before.Missing(first, end, plan.Block)];
        long recalled = end - first - missing.Sum(m => (long)m.Count);
        crew.Report(recalled, end - first);
        ItemCoverage after = before;
        if (missing.Length > 0 && !crew.Cancellation.IsCancellationRequested)
        {
            Complete(campaign, crew, store, missing, recalled, end - first);
            after = new(store.Stored(), plan.Items);
        }
        home.Computed(plan, store, after, recalled);
        return new(plan, store, after, recalled);
    }

    private static void Complete(
        Campaign campaign,
        CampaignCrew crew,
        IPieceStore store,
        ItemRange[] missing,
        long recalled,
        long wanted
    )
    {
        store.BeginRun();
        if (store.PrefersReverse)
        {
            Array.Reverse(missing);
        }
        using PieceWorkers workers = new(campaign, crew, missing, recalled, wanted);
        IReadOnlyList<Thread> threads = workers.Start();
        try
        {
            StoreAll(workers, store);
        }
        catch
        {
            workers.Abandon();
            throw;
        }
        finally
        {
            foreach (Thread thread in threads)
            {
                thread.Join();
            }
        }
        if (workers.Fault is { } fault)
        {
            ExceptionDispatchInfo.Throw(fault);
        }
    }

    // While one batch is on its way to the disk the next one gathers: a slow disk makes batches longer, not the run.
    private static void StoreAll(PieceWorkers workers, IPieceStore store)
    {
        List<Piece> batch = [];
        while (workers.Finished.TryTake(out Piece? piece, Timeout.Infinite))
        {
            batch.Add(piece);
            while (batch.Count < PiecesPerCommit && workers.Finished.TryTake(out piece))
            {
                batch.Add(piece);
            }
            store.Put(batch);
            workers.LeaveOut(store.News());
            batch.Clear();
        }
    }
}
