namespace Lightkeel.Studies.Designs.Documents;

/// <summary>Sizes beyond which a file is taken for a mistake.</summary>
public static class DesignLimits
{
    /// <summary>Largest design file, in bytes.</summary>
    public const int LargestDesignBytes = 1 << 20;

    /// <summary>Largest table beside a design, in bytes.</summary>
    public const int LargestTableBytes = 8 << 20;

    /// <summary>Most rows of a table.</summary>
    public const int MostTableRows = 100_000;

    /// <summary>Deepest nesting of tables.</summary>
    public const int DeepestNesting = 12;
}
