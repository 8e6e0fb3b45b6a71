using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Lightkeel.Physics.Materials;
using Lightkeel.Physics.Units;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Materials;

/// <summary>Input of <see cref="MaterialsStudy"/>.</summary>
/// <param name="Name">The one material to show; null for all.</param>
public sealed record MaterialsInput(string? Name = null);

/// <summary>The built-in table of materials.</summary>
/// <param name="Materials">The materials.</param>
public sealed record MaterialsResult([property: JsonPropertyName("materials")] IReadOnlyList<ListedMaterial> Materials);

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

    /// <inheritdoc/>
    public override StudyInfo Info { get; } =
        new("materials", "Known materials", "the material table, each value with its source")
        {
            Help =
                "Materials that a sail or a mass may name by `material = \"NAME\"`. Values hold near room temperature and serve first estimates: strength of a film depends on how it was made. A design states its own in [material.NAME], with `like` for the rest.\n\n"
                + "Every value says where it is printed, and whether it was read there or written from memory.",
            Examples =
            [
                new("materials", "the table"),
                new("materials --name silicon-nitride", "one material with the sources of its values"),
            ],
        };

    /// <inheritdoc/>
    public override IReadOnlyList<StudyOption> Options { get; } = [Name];

    /// <inheritdoc/>
    protected override JsonTypeInfo<MaterialsResult> ResultJson => MaterialsJson.Default.MaterialsResult;

    /// <inheritdoc/>
    protected override MaterialsInput ReadInput(StudyRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        string name = request.ValueOr(Name, "");
        if (name.Length > 0 && MaterialTable.Find(name) is null)
        {
            throw new InputRefusedException(
                Name.Written,
                $"there is no material \"{name}\"",
                NearestName.Suggestion(name, MaterialTable.Names)
            );
        }
        return new(name.Length > 0 ? name : null);
    }

    /// <inheritdoc/>
    public override MaterialsResult Run(MaterialsInput input, StudyContext context)
    {
        ArgumentNullException.ThrowIfNull(input);
        return new([.. MaterialTable.All.Where(m => input.Name is null || m.Name == input.Name).Select(Listed)]);
    }

    /// <inheritdoc/>
    protected override StudyPresentation Present(MaterialsInput input, MaterialsResult result)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(result);
        return new()
        {
            Summary = new([.. result.Materials.Select(m => Section(m, input.Name is not null))]),
            MakeTables = () => [Table(result)],
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
