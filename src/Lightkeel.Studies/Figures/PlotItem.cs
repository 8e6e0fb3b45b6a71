using System.Text.Json.Serialization;

namespace Lightkeel.Studies.Figures;

/// <summary>Something drawn in a panel. Coordinates are in the units of the axes.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(LineSeries), "line")]
[JsonDerivedType(typeof(ScatterSeries), "scatter")]
[JsonDerivedType(typeof(BandSeries), "band")]
[JsonDerivedType(typeof(PolygonArea), "polygon")]
[JsonDerivedType(typeof(HeatMap), "heat-map")]
[JsonDerivedType(typeof(CategoryMap), "category-map")]
[JsonDerivedType(typeof(SurfaceMesh), "surface")]
[JsonDerivedType(typeof(ContourSeries), "contour")]
[JsonDerivedType(typeof(ArrowSeries), "arrows")]
[JsonDerivedType(typeof(TextNote), "text")]
[JsonDerivedType(typeof(MarkerLine), "marker-line")]
public abstract record PlotItem
{
    /// <summary>Name in the legend; null to leave it out.</summary>
    public string? Label { get; init; }

    /// <summary>Its colour.</summary>
    public Tone Tone { get; init; } = Tone.Automatic;
}

/// <summary>A line through points.</summary>
/// <param name="X">Horizontal coordinates.</param>
/// <param name="Y">Vertical coordinates, as many.</param>
public sealed record LineSeries(IReadOnlyList<double> X, IReadOnlyList<double> Y) : PlotItem
{
    /// <summary>Its dash.</summary>
    public LineDash Dash { get; init; } = LineDash.Automatic;

    /// <summary>True to mark the points too.</summary>
    public bool HasMarks { get; init; }
}

/// <summary>Points without a line.</summary>
/// <param name="X">Horizontal coordinates.</param>
/// <param name="Y">Vertical coordinates, as many.</param>
public sealed record ScatterSeries(IReadOnlyList<double> X, IReadOnlyList<double> Y) : PlotItem
{
    /// <summary>True for hollow marks, for points that lie close.</summary>
    public bool IsHollow { get; init; }
}

/// <summary>A band between two curves, such as an interval of confidence.</summary>
/// <param name="X">Horizontal coordinates.</param>
/// <param name="Lower">Lower edge, as many.</param>
/// <param name="Upper">Upper edge, as many.</param>
public sealed record BandSeries(IReadOnlyList<double> X, IReadOnlyList<double> Lower, IReadOnlyList<double> Upper)
    : PlotItem;

/// <summary>A filled area inside a closed line, such as a cross-section of the craft.</summary>
/// <param name="X">Horizontal coordinates of its corners.</param>
/// <param name="Y">Vertical coordinates, as many, three or more.</param>
public sealed record PolygonArea(IReadOnlyList<double> X, IReadOnlyList<double> Y) : PlotItem
{
    /// <summary>0 for clear to 1 for opaque.</summary>
    public double Opacity { get; init; } = 0.35;

    /// <summary>True to draw its outline.</summary>
    public bool HasOutline { get; init; } = true;
}

/// <summary>Values over a grid as colours, with a colour bar.</summary>
/// <param name="X">Centres of the columns, ascending, two or more.</param>
/// <param name="Y">Centres of the rows, ascending, two or more.</param>
/// <param name="Values">A row per entry of Y, a value per entry of X; null where there is none.</param>
public sealed record HeatMap(
    IReadOnlyList<double> X,
    IReadOnlyList<double> Y,
    IReadOnlyList<IReadOnlyList<double?>> Values
) : PlotItem
{
    /// <summary>What the colours mean, without unit.</summary>
    public string ValueLabel { get; init; } = "";

    /// <summary>SI unit of the values; empty for a pure number.</summary>
    public string ValueUnit { get; init; } = "";

    /// <summary>Colours.</summary>
    public HeatColours Colours { get; init; } = HeatColours.Sequential;

    /// <summary>Scale of the colours; logarithmic needs positive values.</summary>
    public AxisScale Scale { get; init; } = AxisScale.Linear;

    /// <summary>Value of the first colour; null to follow the data.</summary>
    public double? Minimum { get; init; }

    /// <summary>Value of the last colour; null to follow the data.</summary>
    public double? Maximum { get; init; }
}

/// <summary>A kind of cell in a map of kinds.</summary>
/// <param name="Name">Its name in the legend.</param>
/// <param name="Tone">Its colour.</param>
public sealed record MapCategory(string Name, Tone Tone);

/// <summary>Kinds over a grid as colours, such as verdicts.</summary>
/// <param name="X">Centres of the columns, ascending, two or more.</param>
/// <param name="Y">Centres of the rows, ascending, two or more.</param>
/// <param name="Values">A row per entry of Y: index of a category, or -1 for none.</param>
/// <param name="Categories">The kinds.</param>
public sealed record CategoryMap(
    IReadOnlyList<double> X,
    IReadOnlyList<double> Y,
    IReadOnlyList<IReadOnlyList<int>> Values,
    IReadOnlyList<MapCategory> Categories
) : PlotItem;

/// <summary>A line of several pieces, such as a contour or boundary.</summary>
/// <param name="Pieces">The pieces.</param>
public sealed record ContourSeries(IReadOnlyList<PlotPolyline> Pieces) : PlotItem
{
    /// <summary>Its dash.</summary>
    public LineDash Dash { get; init; } = LineDash.Solid;

    /// <summary>A text in the middle of the longest piece; null for none.</summary>
    public string? TextOnLine { get; init; }
}

/// <summary>A surface over the plane, drawn in perspective; alone in its panel.</summary>
/// <param name="X">Horizontal coordinates of its points, row by row; two rows and two columns or more.</param>
/// <param name="Y">Coordinates of its points to the back, of the same shape.</param>
/// <param name="Values">Heights of its points, of the same shape.</param>
public sealed record SurfaceMesh(
    IReadOnlyList<IReadOnlyList<double>> X,
    IReadOnlyList<IReadOnlyList<double>> Y,
    IReadOnlyList<IReadOnlyList<double>> Values
) : PlotItem
{
    /// <summary>What the height means, without unit.</summary>
    public string ValueLabel { get; init; } = "";

    /// <summary>SI unit of the height; empty for a pure number.</summary>
    public string ValueUnit { get; init; } = "";

    /// <summary>Every how many rows and columns a line of the mesh is drawn.</summary>
    public int LineEvery { get; init; } = 4;

    /// <summary>Lines drawn on the surface at one height, such as a rim.</summary>
    public IReadOnlyList<PlotPolyline> Lines { get; init; } = [];

    /// <summary>Their height.</summary>
    public double LineValue { get; init; }
}

/// <summary>A piece of line.</summary>
/// <param name="X">Horizontal coordinates.</param>
/// <param name="Y">Vertical coordinates, as many.</param>
public sealed record PlotPolyline(IReadOnlyList<double> X, IReadOnlyList<double> Y);

/// <summary>Arrows from points.</summary>
/// <param name="X">Horizontal coordinates of their tails.</param>
/// <param name="Y">Vertical coordinates of their tails.</param>
/// <param name="DX">Horizontal length, in units of the axis.</param>
/// <param name="DY">Vertical length, in units of the axis.</param>
public sealed record ArrowSeries(
    IReadOnlyList<double> X,
    IReadOnlyList<double> Y,
    IReadOnlyList<double> DX,
    IReadOnlyList<double> DY
) : PlotItem;

/// <summary>Where a text stands as seen from its point.</summary>
public enum TextSide
{
    /// <summary>To the right.</summary>
    Right,

    /// <summary>To the left.</summary>
    Left,

    /// <summary>Above.</summary>
    Above,

    /// <summary>Below.</summary>
    Below,

    /// <summary>On it.</summary>
    Middle,
}

/// <summary>A text at a point.</summary>
/// <param name="X">Horizontal coordinate.</param>
/// <param name="Y">Vertical coordinate.</param>
/// <param name="Text">The text.</param>
public sealed record TextNote(double X, double Y, string Text) : PlotItem
{
    /// <summary>On which side of the point it stands.</summary>
    public TextSide Side { get; init; } = TextSide.Right;
}

/// <summary>A line across the panel at one value, such as a limit.</summary>
/// <param name="Value">Where.</param>
/// <param name="IsVertical">True at a horizontal coordinate, false at a vertical one.</param>
public sealed record MarkerLine(double Value, bool IsVertical) : PlotItem
{
    /// <summary>A text along it; null for none.</summary>
    public string? Text { get; init; }

    /// <summary>Its dash.</summary>
    public LineDash Dash { get; init; } = LineDash.Dashed;
}
