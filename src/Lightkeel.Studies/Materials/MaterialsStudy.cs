using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Lightkeel.Physics.Materials;
using Lightkeel.Physics.Units;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Materials;

/// <summary>Input of <see cref="MaterialsStudy"/>.</summary>
/// <param name="Name">The one material to show; null for all.</param>
/// <param name="WavelengthMetres">Wavelength at which refractive indices are given, m.</param>
public sealed record MaterialsInput(string? Name = null, double WavelengthMetres = 1.064e-6);

/// <summary>The built-in table of materials.</summary>
/// <param name="Materials">The materials.</param>
/// <param name="Indices">Their refractive indices, where one is known.</param>
public sealed record MaterialsResult(
    [property: JsonPropertyName("materials")] IReadOnlyList<ListedMaterial> Materials,
    [property: JsonPropertyName("indices")] IReadOnlyList<ListedIndex> Indices
);

/// <summary>The refractive index n + i k of a material.</summary>
/// <param name="Name">Its name in design files.</param>
/// <param name="WavelengthMetres">Wavelength in vacuum, m.</param>
/// <param name="RefractiveIndexValue">n; null outside the known wavelengths.</param>
/// <param name="ExtinctionCoefficientValue">k; null outside the known wavelengths.</param>
/// <param name="Reason">Why they are missing.</param>
/// <param name="ShortestMetres">Shortest known wavelength, m.</param>
/// <param name="LongestMetres">Longest known wavelength, m.</param>
/// <param name="Source">Where it is printed.</param>
/// <param name="Provenance">read or memory.</param>
/// <param name="Remark">What must be known to use it.</param>
public sealed record ListedIndex(
    [property: JsonPropertyName("name")] string Name,
    [property: JsonPropertyName("wavelength_m")] double WavelengthMetres,
    [property: JsonPropertyName("refractive_index")] double? RefractiveIndexValue,
    [property: JsonPropertyName("extinction_coefficient")] double? ExtinctionCoefficientValue,
    [property: JsonPropertyName("refractive_index_reason")] string? Reason,
    [property: JsonPropertyName("shortest_wavelength_m")] double ShortestMetres,
    [property: JsonPropertyName("longest_wavelength_m")] double LongestMetres,
    [property: JsonPropertyName("source")] string Source,
    [property: JsonPropertyName("provenance")] string Provenance,
    [property: JsonPropertyName("remark")] string Remark
)
{
    /// <summary>Why k is missing: as n.</summary>
    [JsonPropertyName("extinction_coefficient_reason")]
    public string? ExtinctionReason => Reason;
}

/// <summary>One material.</summary>
/// <param name="Name">Its name in design files.</param>
/// <param name="Description">What it is.</param>
/// <param name="Properties">What is known of it.</param>
public sealed record ListedMaterial(
    [property: JsonPropertyName("name")] string Name,
    [property: JsonPropertyName("description")] string Description,
    [property: JsonPropertyName("properties")] IReadOnlyList<ListedProperty> Properties
);

/// <summary>One property.</summary>
/// <param name="Name">Its key in design files.</param>
/// <param name="ValueSi">Its value, SI.</param>
/// <param name="Unit">SI unit of the value; empty for a pure number.</param>
/// <param name="Source">Where it is printed.</param>
/// <param name="Provenance">read or memory: whether it was looked up there or written from memory.</param>
public sealed record ListedProperty(
    [property: JsonPropertyName("name")] string Name,
    [property: JsonPropertyName("value")] double ValueSi,
    [property: JsonPropertyName("unit")] string Unit,
    [property: JsonPropertyName("source")] string Source,
    [property: JsonPropertyName("provenance")] string Provenance
);

/// <summary>Lists the materials that designs may name, each value with its source.</summary>
public sealed class MaterialsStudy : Study<MaterialsInput, MaterialsResult>
{
    private static readonly StudyOption<string> Name = Option.Text("name", "Shows one material alone.", "NAME");

    private static readonly StudyOption<double> Wavelength = Option.Quantity(
        "wavelength",
        "Wavelength in vacuum at which refractive indices are given (default 1.064 um).",
        "um"
    );

    /// <inheritdoc/>
    public override StudyInfo Info { get; } =
        new("materials", "Known materials", "the material table, each value with its source")
        {
            Help =
                "Materials that a sail or a mass may name by `material = \"NAME\"`. Values hold near room temperature and serve first estimates: strength of a film depends on how it was made. A design states its own in [material.NAME], with `like` for the rest. Layers of films (`kind = \"film\"`) take the published refractive index, n + i k.\n\n"
                + "Every value says where it is printed, and whether it was read there or written from memory.",
            Examples =
            [
                new("materials", "the table"),
                new("materials --name silicon-nitride", "one material with the sources of its values"),
                new("materials --wavelength \"1.55 um\"", "refractive indices at another wavelength"),
            ],
        };

    /// <inheritdoc/>
    public override IReadOnlyList<StudyOption> Options { get; } = [Name, Wavelength];

    /// <inheritdoc/>
    protected override JsonTypeInfo<MaterialsResult> ResultJson => MaterialsJson.Default.MaterialsResult;

    /// <inheritdoc/>
    protected override MaterialsInput ReadInput(StudyRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        string name = request.ValueOr(Name, "");
        if (name.Length > 0 && !Known.Contains(name))
        {
            throw new InputRefusedException(
                Name.Written,
                $"there is no material \"{name}\"",
                NearestName.Suggestion(name, Known)
            );
        }
        return new(name.Length > 0 ? name : null, WavelengthOf(request));
    }

    /// <inheritdoc/>
    public override MaterialsResult Run(MaterialsInput input, StudyContext context)
    {
        ArgumentNullException.ThrowIfNull(input);
        return new(
            [.. MaterialTable.All.Where(m => input.Name is null || m.Name == input.Name).Select(Listed)],
            [
                .. IndexTable
                    .Names.Where(n => input.Name is null || n == input.Name)
                    .Select(n => IndexOf(n, input.WavelengthMetres)),
            ]
        );
    }

    private static string[] Known => [.. MaterialTable.Names.Union(IndexTable.Names)];

    private static double WavelengthOf(StudyRequest request)
    {
        double metres = request.ValueOr(Wavelength, 1.064e-6);
        return metres > 0
            ? metres
            : throw new InputRefusedException(
                Wavelength.Written,
                "a wavelength is above zero",
                "give one such as \"1.55 um\""
            );
    }

    private static ListedIndex IndexOf(string name, double wavelengthMetres)
    {
        SourcedIndex known = IndexTable.Find(name)!;
        bool covers = known.Index.Covers(wavelengthMetres);
        System.Numerics.Complex n = covers ? known.Index.At(wavelengthMetres) : default;
        return new(
            name,
            wavelengthMetres,
            covers ? n.Real : null,
            covers ? n.Imaginary : null,
            covers ? null : $"known from {known.Index.RangeText}",
            known.Index.ShortestMetres,
            known.Index.LongestMetres,
            known.Source,
            known.Provenance == Provenance.Memory ? "memory" : "read",
            known.Remark
        );
    }

    /// <inheritdoc/>
    protected override StudyPresentation Present(MaterialsInput input, MaterialsResult result)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(result);
        return new()
        {
            Summary = new([
                .. result.Materials.Select(m => Section(m, input.Name is not null)),
                .. result.Indices.Count > 0
                    ? [IndexSection(result, input.Name is not null)]
                    : Array.Empty<SummarySection>(),
            ]),
            MakeTables = () => [Table(result), IndexTableOf(result)],
        };
    }

    private static ListedMaterial Listed(Material material) =>
        new(
            material.Name,
            material.Description,
            [
                .. MaterialProperties
                    .All.Where(p => material.Find(p) is not null)
                    .Select(p =>
                    {
                        SourcedValue value = material.Find(p)!;
                        string unit = p.Dimension() == Dimension.None ? "" : UnitOf(p);
                        return new ListedProperty(
                            p.Key(),
                            value.Value,
                            unit,
                            value.Source,
                            value.Provenance == Provenance.Memory ? "memory" : "read"
                        );
                    }),
            ]
        );

    private static string UnitOf(MaterialProperty property) =>
        property is MaterialProperty.YoungsModulus or MaterialProperty.TensileStrength ? "Pa"
        : property is MaterialProperty.HeatCapacity ? "J/(kg K)"
        : property is MaterialProperty.Conductivity ? "W/(m K)"
        : property.Dimension().ToString();

    private static SummarySection Section(ListedMaterial material, bool withSources) =>
        new($"{material.Name}: {material.Description}")
        {
            Rows =
            [
                .. material.Properties.Select(p =>
                    SummaryRow.Of(
                        p.Name,
                        p.ValueSi,
                        p.Unit,
                        withSources ? $"{p.Source} ({p.Provenance})" : p.Provenance
                    )
                ),
            ],
        };

    private static SummarySection IndexSection(MaterialsResult result, bool withSources) =>
        new($"refractive indices n + i k at {Quantity.Format(result.Indices[0].WavelengthMetres, "um")}")
        {
            Rows =
            [
                .. result.Indices.Select(i =>
                    SummaryRow.OfPossible(i.Name, i.RefractiveIndexValue, "", i.Reason) with
                    {
                        Note = i.ExtinctionCoefficientValue is not { } k
                            ? i.Reason!
                            : FormattableString.Invariant($"k {k:G6}; ")
                                + (withSources ? $"{i.Source} ({i.Provenance}); {i.Remark}" : i.Provenance),
                    }
                ),
            ],
        };

    private static ResultTable IndexTableOf(MaterialsResult result) =>
        new(
            "indices",
            "Refractive indices with sources",
            [
                TableColumn.Texts("material", [.. result.Indices.Select(i => i.Name)]),
                TableColumn.Numbers("wavelength_m", [.. result.Indices.Select(i => i.WavelengthMetres)]),
                TableColumn.Numbers("n", [.. result.Indices.Select(i => i.RefractiveIndexValue)]),
                TableColumn.Numbers("k", [.. result.Indices.Select(i => i.ExtinctionCoefficientValue)]),
                TableColumn.Texts("source", [.. result.Indices.Select(i => i.Source)]),
                TableColumn.Texts("remark", [.. result.Indices.Select(i => i.Remark)]),
            ]
        );

    private static ResultTable Table(MaterialsResult result)
    {
        (ListedMaterial Material, ListedProperty Property)[] rows =
        [
            .. result.Materials.SelectMany(m => m.Properties.Select(p => (m, p))),
        ];
        return new(
            "materials",
            "Known materials with sources",
            [
                TableColumn.Texts("material", [.. rows.Select(r => r.Material.Name)]),
                TableColumn.Texts("property", [.. rows.Select(r => r.Property.Name)]),
                TableColumn.Numbers("value", [.. rows.Select(r => r.Property.ValueSi)]),
                TableColumn.Texts("unit", [.. rows.Select(r => r.Property.Unit)]),
                TableColumn.Texts("source", [.. rows.Select(r => r.Property.Source)]),
                TableColumn.Texts("provenance", [.. rows.Select(r => r.Property.Provenance)]),
            ]
        );
    }
}

/// <summary>How the result is written as JSON.</summary>
[JsonSerializable(typeof(MaterialsResult))]
internal sealed partial class MaterialsJson : JsonSerializerContext;
