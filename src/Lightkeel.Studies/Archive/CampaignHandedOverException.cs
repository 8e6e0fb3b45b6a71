namespace Lightkeel.Studies.Archive;

/// <summary>Not a fault: the host asked for the plan or a share of a campaign alone, and has it; there is no result to present.</summary>
public sealed class CampaignHandedOverException : Exception
{
    /// <summary>Creates the exception without a plan.</summary>
    public CampaignHandedOverException()
        : this("The campaign was handed over.") { }

    /// <summary>Creates the exception with a message.</summary>
    public CampaignHandedOverException(string message)
        : base(message) { }

    /// <summary>Creates the exception with a message and cause.</summary>
    public CampaignHandedOverException(string message, Exception innerException)
        : base(message, innerException) { }

    /// <summary>Creates the exception.</summary>
    /// <param name="plan">The campaign.</param>
    public CampaignHandedOverException(CampaignPlan plan)
        : this() => Plan = plan;

    /// <summary>The campaign.</summary>
    public CampaignPlan? Plan { get; }
}
