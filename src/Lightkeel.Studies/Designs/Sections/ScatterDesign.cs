using Lightkeel.Studies.Designs.Documents;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>How a number of the design is distributed over rides.</summary>
public enum ScatterShape
{
    /// <summary>Normal about the design's value; the spread is the standard deviation.</summary>
    Normal,

    /// <summary>Even within the spread on either side of the design's value.</summary>
    Uniform,

    /// <summary>Triangular within the spread on either side of the design's value, likeliest there.</summary>
    Triangular,

    /// <summary>Normal about the design's value, cut at three standard deviations on either side.</summary>
    TruncatedNormal,
}

/// <summary>A number of the design that differs from ride to ride.</summary>
public sealed record ScatterDesign
{
    /// <summary>Dotted path of the number.</summary>
    public required string Path { get; init; }

    /// <summary>How it is distributed.</summary>
    public required ScatterShape Shape { get; init; }

    /// <summary>The spread as written, with the unit of the number.</summary>
    public required string Spread { get; init; }

    /// <summary>Where the path was given.</summary>
    public SourcePosition PathPosition { get; init; }

    /// <summary>Where the spread was given.</summary>
    public SourcePosition SpreadPosition { get; init; }
}
