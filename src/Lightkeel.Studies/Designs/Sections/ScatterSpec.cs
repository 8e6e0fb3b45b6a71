using Lightkeel.Studies.Designs.Specification;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>The keys of <c>[[scatter]]</c>.</summary>
internal static class ScatterSpec
{
    private static readonly TextField Path = TextField.Needed(
        "path",
        "Dotted path of the number that differs from ride to ride, such as \"start.offset.x\".",
        "start.offset.x"
    );

    private static readonly WordField<ScatterShape> Shape = new(
        "distribution",
        "How it is distributed over rides.",
        ("normal", ScatterShape.Normal, "Normal about the design's value; the spread is the standard deviation."),
        ("uniform", ScatterShape.Uniform, "Even within the spread on either side of the design's value."),
        (
            "triangular",
            ScatterShape.Triangular,
            "Triangular within the spread on either side of the design's value, likeliest there."
        ),
        (
            "truncated-normal",
            ScatterShape.TruncatedNormal,
            "Normal about the design's value with the spread as standard deviation, cut at three of them."
        )
    );

    private static readonly TextField Spread = TextField.Needed(
        "spread",
        "Standard deviation or half-width, with the unit of the number, such as \"5 mm\".",
        "5 mm"
    );

    /// <summary>The section.</summary>
    public static TablesField<ScatterDesign> Section { get; } =
        new(
            "scatter",
            new TableSpec<ScatterDesign>(
                "A number of the design that differs from ride to ride of an ensemble.",
                [Path, Shape, Spread],
                Build
            ),
            fewest: 0,
            most: 64
        );

    private static ScatterDesign Build(TableReading table) =>
        new()
        {
            Path = table.Get(Path)!,
            Shape = table.Get(Shape),
            Spread = table.Get(Spread)!,
            PathPosition = table.Node?.Find(Path.Key)?.Position ?? table.Position,
            SpreadPosition = table.Node?.Find(Spread.Key)?.Position ?? table.Position,
        };
}
