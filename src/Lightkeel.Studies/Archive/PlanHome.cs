namespace Lightkeel.Studies.Archive;

/// <summary>Computes nothing: hands the plan of the first campaign over by <see cref="CampaignHandedOverException"/>.</summary>
public class PlanHome : SplitHome
{
    /// <inheritdoc/>
    public override IPieceStore Open(CampaignPlan plan)
    {
        CanBeSplit(plan);
        throw new CampaignHandedOverException(plan);
    }
}
