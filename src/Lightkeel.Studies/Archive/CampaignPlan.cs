namespace Lightkeel.Studies.Archive;

/// <summary>A question, and how much of it is asked.</summary>
/// <param name="Question">What the items depend on.</param>
/// <param name="Items">How many items, numbered from 0.</param>
/// <param name="Block">Most items of a piece.</param>
public sealed record CampaignPlan(CampaignQuestion Question, long Items, int Block)
{
    /// <summary>Title of the design, for people.</summary>
    public string Title { get; init; } = "";

    /// <summary>Text of the design, kept beside the pieces.</summary>
    public string DesignText { get; init; } = "";

    /// <summary>Name of the design's file as the user gave it; null when it is in no file.</summary>
    public string? DesignFile { get; init; }

    /// <summary>What the items are called in progress, such as "rides".</summary>
    public string Stage { get; init; } = "items";

    /// <summary>The plan as it is stored.</summary>
    public CampaignRecord Record() =>
        new()
        {
            Key = Question.Key,
            Study = Question.Study,
            Title = Title,
            Items = Items,
            Block = Block,
            Stage = Stage,
            Layout = Question.Layout.ToText(),
            Question = Question.ToJson(),
            Design = DesignText,
        };

    /// <summary>Items of a share when the work is split: consecutive whole blocks, as equal as they can be.</summary>
    /// <param name="share">Number of the share, from 0.</param>
    /// <param name="shares">How many there are.</param>
    public (long First, long End) Share(int share, int shares) => Share(Items, Block, share, shares);

    internal static (long First, long End) Share(long items, int block, int share, int shares)
    {
        long blocks = (items + block - 1) / block;
        return (
            Math.Min(items, blocks * share / shares * block),
            Math.Min(items, blocks * (share + 1) / shares * block)
        );
    }

    /// <summary>A block that gives every thread work to the end: a power of two up to 64.</summary>
    /// <param name="items">How many items there are.</param>
    public static int UsualBlock(long items)
    {
        int block = 1;
        while (block < 64 && items / (2 * block) >= 64)
        {
            block *= 2;
        }
        return block;
    }
}
