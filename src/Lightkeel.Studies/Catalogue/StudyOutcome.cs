using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Catalogue;

/// <summary>What a study gives back: results for programs, and their presentation for people.</summary>
/// <param name="Results">The results.</param>
/// <param name="Presentation">Summary, warnings, figures, tables and how the run ended.</param>
public sealed record StudyOutcome(ResultDocument Results, StudyPresentation Presentation)
{
    /// <summary>The warnings, and one more when the run did not end with everything done.</summary>
    public IReadOnlyList<ResultWarning> AllWarnings =>
        Presentation.Ending switch
        {
            StudyEnding.AccuracyNotReached =>
            [
                .. Presentation.Warnings,
                new("accuracy-not-reached", Presentation.EndingReason ?? "The requested accuracy was not reached."),
            ],
            StudyEnding.Interrupted =>
            [
                .. Presentation.Warnings,
                new("interrupted", Presentation.EndingReason ?? "Stopped before the end; the results are partial."),
            ],
            _ => Presentation.Warnings,
        };
}
