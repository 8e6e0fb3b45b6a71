using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Sections;

namespace Lightkeel.Studies.Search;

/// <summary>What a study file says, as it says it: nothing is looked up in the design yet.</summary>
internal sealed record SearchFile
{
    public required string Title { get; init; }

    public required string Design { get; init; }

    public SourcePosition DesignPosition { get; init; }

    public required IReadOnlyList<VaryDesign> Varies { get; init; }

    public required IReadOnlyList<AimDesign> Aims { get; init; }

    public required IReadOnlyList<LimitDesign> Limits { get; init; }

    public required IReadOnlyList<ScatterDesign> Scatters { get; init; }

    public required MethodDesign Method { get; init; }
}

/// <summary>Something that a search may change.</summary>
internal sealed record VaryDesign
{
    public string? Name { get; init; }

    public string? Path { get; init; }

    public string? From { get; init; }

    public string? To { get; init; }

    public bool IsLogarithmic { get; init; }

    /// <summary>Free points of a profile; null for a number.</summary>
    public int? Points { get; init; }

    /// <summary>Where a profile ends, with its unit.</summary>
    public string? Radius { get; init; }

    /// <summary>The choice under which it exists, as NAME=CHOICE; null for always.</summary>
    public string? When { get; init; }

    public IReadOnlyList<ChoiceDesign> Choices { get; init; } = [];

    public SourcePosition Position { get; init; }

    public SourcePosition PathPosition { get; init; }

    public SourcePosition FromPosition { get; init; }

    public SourcePosition ToPosition { get; init; }

    public SourcePosition RadiusPosition { get; init; }

    public SourcePosition WhenPosition { get; init; }

    /// <summary>The name that it is shown by.</summary>
    public string Label => Name ?? Path ?? "?";
}

/// <summary>One of several variants of a design.</summary>
internal sealed record ChoiceDesign(string Name, IReadOnlyList<string> Changes, SourcePosition Position);

/// <summary>How a quantity of a scattered design becomes one number.</summary>
internal enum SearchStatistic
{
    /// <summary>Its value at the design itself.</summary>
    Nominal,

    /// <summary>The mean over the scatter.</summary>
    Mean,

    /// <summary>A quantile over the scatter.</summary>
    Quantile,

    /// <summary>The worst of the scatter.</summary>
    Worst,
}

/// <summary>What a search is to make large or small.</summary>
internal sealed record AimDesign(
    string? Minimise,
    string? Maximise,
    SearchStatistic Statistic,
    double? Quantile,
    SourcePosition Position
)
{
    public string Quantity => Minimise ?? Maximise ?? "";
}

/// <summary>What must hold.</summary>
internal sealed record LimitDesign(
    string Quantity,
    string? AtLeast,
    string? AtMost,
    SearchStatistic Statistic,
    double? Quantile,
    SourcePosition Position,
    SourcePosition AtLeastPosition,
    SourcePosition AtMostPosition
);

/// <summary>How a search works.</summary>
internal enum SearchMethodKind
{
    NsgaII,
    NsgaIII,
    CmaEs,
    Gradient,
    Hybrid,
}

/// <summary>How a search works, in numbers.</summary>
internal sealed record MethodDesign
{
    public SearchMethodKind Kind { get; init; }

    public int Population { get; init; }

    public int Evaluations { get; init; }

    public int Stall { get; init; }

    public int Samples { get; init; }

    public int PolishMembers { get; init; }

    public int PolishSteps { get; init; }

    public double ExploreAccuracy { get; init; }

    public required string Engine { get; init; }

    public bool WithRide { get; init; }
}
