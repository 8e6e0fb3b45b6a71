using Lightkeel.Studies.Archive;

namespace Lightkeel.Studies.Models;

/// <summary>Campaigns whose items follow from one design.</summary>
public static class DesignCampaign
{
    /// <summary>The question of a campaign: the design by its SHA-256, with all changes and the files that it uses.</summary>
    /// <param name="design">The design.</param>
    /// <param name="study">Name of the study.</param>
    /// <param name="resultVersion">Number of the study's way of computing.</param>
    /// <param name="settings">Settings by name.</param>
    /// <param name="accuracy">Requested relative accuracy.</param>
    /// <param name="layout">How an item is written down.</param>
    public static CampaignQuestion QuestionOf(
        OpenedDesign design,
        string study,
        int resultVersion,
        IReadOnlyList<(string Name, string Value)> settings,
        double accuracy,
        RowLayout layout
    )
    {
        ArgumentNullException.ThrowIfNull(design);
        return new()
        {
            Study = study,
            ResultVersion = resultVersion,
            DesignSha256 = design.Sha256,
            SideFiles = [.. design.Document.SideFiles.Select(f => (f.Name, f.Sha256))],
            Settings = settings,
            Seed = 0,
            Accuracy = accuracy,
            Layout = layout,
        };
    }

    /// <summary>A plan, with what people want to know of the design beside it.</summary>
    /// <param name="design">The design.</param>
    /// <param name="question">The question.</param>
    /// <param name="items">How many items.</param>
    public static CampaignPlan PlanOf(OpenedDesign design, CampaignQuestion question, long items)
    {
        ArgumentNullException.ThrowIfNull(design);
        return new(question, items, CampaignPlan.UsualBlock(items))
        {
            Title = design.Title ?? "",
            DesignText = design.Document.Text,
            DesignFile = File.Exists(design.Document.Source) ? design.Document.Source : null,
        };
    }
}
