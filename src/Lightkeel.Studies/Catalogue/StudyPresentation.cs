using Lightkeel.Studies.Figures;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Catalogue;

/// <summary>How a run ended.</summary>
public enum StudyEnding
{
    /// <summary>All was done.</summary>
    Done,

    /// <summary>A number could not be obtained to the requested accuracy.</summary>
    AccuracyNotReached,

    /// <summary>It was asked to stop; the results hold what was finished.</summary>
    Interrupted,
}

/// <summary>Everything about a result that is for people: summary, warnings, figures, tables.</summary>
public sealed record StudyPresentation
{
    /// <summary>What a terminal or page shows.</summary>
    public StudySummary Summary { get; init; } = StudySummary.Empty;

    /// <summary>Warnings, in the order they arose.</summary>
    public IReadOnlyList<ResultWarning> Warnings { get; init; } = [];

    /// <summary>Makes the figures; called only when somebody wants them.</summary>
    public Func<IReadOnlyList<Figure>> MakeFigures { get; init; } = static () => [];

    /// <summary>Makes the tables; called only when somebody wants them.</summary>
    public Func<IReadOnlyList<ResultTable>> MakeTables { get; init; } = static () => [];

    /// <summary>Makes further files, such as designs; called only when somebody wants them.</summary>
    public Func<IReadOnlyList<ResultFile>> MakeFiles { get; init; } = static () => [];

    /// <summary>How the run ended.</summary>
    public StudyEnding Ending { get; init; } = StudyEnding.Done;

    /// <summary>Why it did not end with everything done, one sentence; null when it did.</summary>
    public string? EndingReason { get; init; }
}
