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

    /// <summary>When the pieces go into an archive that nobody named.</summary>
    public CampaignKeeping Keeping { get; init; } = CampaignKeeping.Always;

    /// <summary>
    /// True when nothing that follows is worth splitting: a task of a cluster is done with this campaign. Else further campaigns
    /// of the study may follow, which depend on the results of this one.
    /// </summary>
    public bool IsLast { get; init; }

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

    /// <summary>True when there is more than one item: a single one is computed by whoever needs it.</summary>
    public bool CanBeSplit => Items > 1;

    /// <summary>Into how many shares the work is split when so many are asked for: none without a piece of its own.</summary>
    /// <param name="asked">How many are asked for, at least 1.</param>
    public int Shares(int asked) => (int)Math.Clamp((Items + Block - 1) / Block, 1, asked);

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
