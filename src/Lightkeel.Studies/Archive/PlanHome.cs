namespace Lightkeel.Studies.Archive;

/// <summary>Computes nothing: hands the plan of the first campaign over by <see cref="CampaignHandedOverException"/>.</summary>
public sealed class PlanHome : CampaignHome
{
    /// <inheritdoc/>
    public override IPieceStore Open(CampaignPlan plan) => throw new CampaignHandedOverException(plan);
}
