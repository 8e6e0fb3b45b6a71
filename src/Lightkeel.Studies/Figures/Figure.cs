namespace Lightkeel.Studies.Figures;

/// <summary>A figure, described without any drawing library: panels with axes and things in them.</summary>
/// <remarks>
/// Values are in SI units; a renderer chooses prefixes for the axes. Colours are named by <see cref="Tone"/>, so every renderer
/// gives the same look. Immutable as long as its maker leaves the lists alone.
/// </remarks>
public sealed record Figure
{
    /// <summary>File name without ending: lower case, digits, hyphens.</summary>
    public required string Name { get; init; }

    /// <summary>Title, one line.</summary>
    public required string Title { get; init; }

    /// <summary>A remark under the figure, such as conditions or a source; null for none.</summary>
    public string? Note { get; init; }

    /// <summary>The panels, row by row.</summary>
    public required IReadOnlyList<Panel> Panels { get; init; }

    /// <summary>Panels side by side in a row.</summary>
    public int Columns { get; init; } = 1;
}

/// <summary>A pair of axes and what is drawn in them, first item undermost.</summary>
public sealed record Panel
{
    /// <summary>Title; null for none.</summary>
    public string? Title { get; init; }

    /// <summary>Horizontal axis.</summary>
    public required PlotAxis X { get; init; }

    /// <summary>Vertical axis.</summary>
    public required PlotAxis Y { get; init; }

    /// <summary>What is drawn.</summary>
    public required IReadOnlyList<PlotItem> Items { get; init; }

    /// <summary>True when one metre must be as long on both axes.</summary>
    public bool EqualAspect { get; init; }

    /// <summary>Where the legend stands.</summary>
    public LegendPlace Legend { get; init; } = LegendPlace.Automatic;
}

/// <summary>An axis.</summary>
/// <param name="Label">What it measures, without unit.</param>
/// <param name="Unit">SI unit of the values; empty for a pure number.</param>
public sealed record PlotAxis(string Label, string Unit = "")
{
    /// <summary>Even or logarithmic.</summary>
    public AxisScale Scale { get; init; } = AxisScale.Linear;

    /// <summary>Lower end; null to follow the data.</summary>
    public double? Minimum { get; init; }

    /// <summary>Upper end; null to follow the data.</summary>
    public double? Maximum { get; init; }

    /// <summary>Names that stand at 1, 2, 3 … in place of numbers, on a linear axis; null for numbers.</summary>
    public IReadOnlyList<string>? Names { get; init; }
}

/// <summary>Scale of an axis.</summary>
public enum AxisScale
{
    /// <summary>Equal steps.</summary>
    Linear,

    /// <summary>Equal ratios; all values positive.</summary>
    Logarithmic,
}

/// <summary>Where a legend stands.</summary>
public enum LegendPlace
{
    /// <summary>In the emptiest corner; beside the panel for maps.</summary>
    Automatic,

    /// <summary>Top left.</summary>
    UpperLeft,

    /// <summary>Top right.</summary>
    UpperRight,

    /// <summary>Bottom left.</summary>
    LowerLeft,

    /// <summary>Bottom right.</summary>
    LowerRight,

    /// <summary>Beside the panel, on the right.</summary>
    Outside,

    /// <summary>Nowhere.</summary>
    None,
}
