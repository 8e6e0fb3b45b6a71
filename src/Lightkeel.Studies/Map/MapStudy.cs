using System.Text.Json.Serialization.Metadata;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Map;

/// <summary>Input of <see cref="MapStudy"/>.</summary>
/// <param name="Design">The opened design.</param>
/// <param name="X">Columns of the map.</param>
/// <param name="Y">Rows of the map, of another number.</param>
/// <param name="Z">Optional: a map for each of these values of a third number.</param>
/// <param name="Engine">auto, quadrature, rays or reference.</param>
public sealed record MapInput(
    OpenedDesign Design,
    DesignAxis X,
    DesignAxis Y,
    DesignAxis? Z = null,
    string Engine = "auto"
);

/// <summary>Verdict and growth rate over any two numbers of a design, with the traced boundary between riding and not.</summary>
public sealed class MapStudy : Study<MapInput, MapResult>
{
    private static readonly StudyOption<IOpenDesign> DesignOption = Option.Design();
    private static readonly StudyOption<string> XOption = Axis("x", "Number along x and its values", true);
    private static readonly StudyOption<string> YOption = Axis("y", "Number along y and its values", true);
    private static readonly StudyOption<string> ZOption = Axis("z", "A third number: one map for each value", false);

    /// <inheritdoc/>
    public override StudyInfo Info { get; } =
        new("map", "Map of stability", "verdict and growth rate over any two numbers of the design")
        {
            Help =
                "Assesses the design, as check does, at every cell of a grid over two of its numbers: verdict, growth rate, frequency of the first mode, and the clearance to the change of verdict. An axis is written PATH=A..B:N, both ends with units; :log behind it gives equal ratios.\n\n"
                + "The boundary between riding and not riding is then traced on the model itself: every point of its lines is searched to 1e-10 of its value, not read off the cells. A pocket smaller than a cell is not seen; take more cells.\n\n"
                + "Where light meets the craft more than once, auto follows it by rays, a hundred times slower than quadrature: cell_engine and an outline in the figures say which engine gave which cell. Cells whose light pressure cannot be computed carry the reason; they are never guessed.",
            Examples =
            [
                new(
                    "map tern-c.toml --x \"sail.canopy.half_angle=60 deg..85 deg:64\" --y \"mass.bus.at.z=-4 m..0 m:64\" --out figures",
                    "half-angle of a cone against the place of its bus"
                ),
                new(
                    "map tern.toml --x \"beam.radius=0.5 m..2 m:40\" --y \"beam.width=0.1 m..1 m:40:log\" --json",
                    "ring radius against width, the width in equal ratios"
                ),
            ],
            CitationKeys = ["solar-sailing-1999", "nonconservative-stability-2013"],
        };

    /// <inheritdoc/>
    public override IReadOnlyList<StudyOption> Options { get; } =
    [DesignOption, XOption, YOption, ZOption, EngineChoice.Option, .. CampaignOptions.All];

    /// <inheritdoc/>
    protected override JsonTypeInfo<MapResult> ResultJson => MapJson.Default.MapResult;

    /// <inheritdoc/>
    protected override MapInput ReadInput(StudyRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        OpenedDesign design = (OpenedDesign)request.Value(DesignOption);
        List<InputFault> faults = [];
        DesignAxis? Read(StudyOption<string> option)
        {
            try
            {
                return request.Has(option)
                    ? DesignAxis.Read(design.Document, option.Written, request.Value(option))
                    : null;
            }
            catch (InputRefusedException e)
            {
                faults.AddRange(e.Faults);
                return null;
            }
        }
        (DesignAxis? x, DesignAxis? y, DesignAxis? z) = (Read(XOption), Read(YOption), Read(ZOption));
        if (x is null || y is null || faults.Count > 0)
        {
            throw new InputRefusedException(faults);
        }
        string[] paths = [x.Path, y.Path, .. z is null ? Array.Empty<string>() : [z.Path]];
        return paths.Distinct().Count() == paths.Length
            ? new(design, x, y, z, request.ValueOr(EngineChoice.Option, "auto"))
            : throw new InputRefusedException(
                z is null ? YOption.Written : ZOption.Written,
                "two axes are of the same number",
                "give each axis a path of its own"
            );
    }

    /// <inheritdoc/>
    public override MapResult Run(MapInput input, StudyContext context)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(context);
        return MapRun.Of(input, context);
    }

    /// <inheritdoc/>
    protected override StudyPresentation Present(MapInput input, MapResult result)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(result);
        return new()
        {
            Summary = MapSummary.Of(input, result),
            Warnings = MapSummary.Warnings(result),
            MakeFigures = () => MapFigures.Of(input, result),
            MakeTables = () => MapTables.Of(result),
            Ending = result.IsStopped ? StudyEnding.Interrupted : StudyEnding.Done,
            EndingReason = result.IsStopped
                ? "Stopped before all cells were computed and all boundaries traced; what is missing is marked or left out."
                : null,
        };
    }

    private static StudyOption<string> Axis(string name, string help, bool required) =>
        Option.Text(name, help + ": PATH=A..B:N with units, or :N:log for equal ratios.", "PATH=A..B:N") with
        {
            IsRequired = required,
        };
}
