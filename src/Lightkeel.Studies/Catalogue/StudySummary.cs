namespace Lightkeel.Studies.Catalogue;

/// <summary>A result for reading: what a terminal or a page shows.</summary>
/// <param name="Sections">Sections in reading order.</param>
public sealed record StudySummary(params IReadOnlyList<SummarySection> Sections)
{
    /// <summary>A summary without content.</summary>
    public static StudySummary Empty { get; } = new();
}

/// <summary>A part of a summary: rows first, then paragraphs.</summary>
/// <param name="Heading">Its heading; empty for none.</param>
public sealed record SummarySection(string Heading)
{
    /// <summary>Rows of label, value and unit.</summary>
    public IReadOnlyList<SummaryRow> Rows { get; init; } = [];

    /// <summary>Paragraphs.</summary>
    public IReadOnlyList<string> Paragraphs { get; init; } = [];
}
