namespace Lightkeel.Studies.Archive;

/// <summary>A home of work that is split over many processes: it hands over instead of ending with a result.</summary>
public abstract class SplitHome : CampaignHome
{
    /// <summary>True when the study had a campaign that can be split, whether or not anything is left of it.</summary>
    public bool HasCampaign { get; private set; }

    /// <summary>Takes note of a campaign.</summary>
    /// <returns>True when it can be split; a single item is computed by whoever needs it.</returns>
    protected bool CanBeSplit(CampaignPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        HasCampaign |= plan.CanBeSplit;
        return plan.CanBeSplit;
    }
}
