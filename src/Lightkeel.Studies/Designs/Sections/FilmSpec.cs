using Lightkeel.Physics.Materials;
using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Specification;
using Lightkeel.Studies.Designs.Tables;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>The keys of a surface of kind film: layers and their order.</summary>
internal static class FilmSpec
{
    private static readonly NumberField Thickness = new(
        "thickness",
        NumberKind.Of(Dimension.OfLength, Interval.Positive, "194 nm", "nm"),
        "Thickness of the layer."
    );

    private static readonly MaterialField Material = new(
        "material",
        "Its material, whose published refractive index and density are used where none is stated."
    );

    private static readonly OptionalNumberField Index = new(
        "index",
        NumberKind.Pure(Interval.Positive, "2.0"),
        "Refractive index at every wavelength, in place of that of the material."
    );

    private static readonly OptionalNumberField Extinction = new(
        "extinction",
        NumberKind.Pure(Interval.NotNegative, "1e-6"),
        "Extinction coefficient k at every wavelength, in place of that of the material."
    );

    private static readonly OptionalNumberField Density = new(
        "density",
        NumberKind.Of(Dimension.OfDensity, Interval.Positive),
        "Density, in place of that of the material; the mass per area of the sail follows from it where none is stated."
    );

    private static readonly ColumnSpec WavelengthColumn = new(
        "wavelength",
        NumberKind.Of(Dimension.OfLength, Interval.Positive),
        "Wavelength in vacuum, ascending.",
        "wavelength_m"
    );

    private static readonly ColumnSpec IndexColumn = new(
        "n",
        NumberKind.Pure(Interval.Positive, "2.0"),
        "Refractive index.",
        "n"
    );

    private static readonly ColumnSpec ExtinctionColumn = new(
        "k",
        NumberKind.Pure(Interval.NotNegative, "0"),
        "Extinction coefficient.",
        "k"
    );

    private static readonly FileField File = new(
        "file",
        [WavelengthColumn, IndexColumn, ExtinctionColumn],
        "CSV file with the measured index of the layer, joined by straight lines in wavelength.",
        fewest: 2
    );

    private static readonly NamedTablesField<FilmLayerDesign> Layers = new(
        "layer",
        new TableSpec<FilmLayerDesign>(
            "A layer of the film.",
            [Thickness, Material, Index, Extinction, Density, File],
            BuildLayer
        )
    );

    private static readonly TextField Order = TextField.Free(
        "sequence",
        "Layers from the lit side, by name, with repeats: \"(H L)^8 H\". Without it each layer once, in the order of the file.",
        ""
    );

    /// <summary>The keys.</summary>
    public static Field[] Fields { get; } = [Order, Layers];

    /// <summary>Builds the surface.</summary>
    public static FilmSurfaceDesign Build(TableReading table)
    {
        IReadOnlyList<FilmLayerDesign> layers = table.Get(Layers);
        if (layers.Count == 0 && table.IsSound && table.Has(Layers))
        {
            table.Fault(Layers, $"{table.Path} has no layer", "expected one table [surface.NAME.layer.NAME] or more");
        }
        string written = table.Get(Order) ?? "";
        string[] names = [.. layers.Select(l => l.Name)];
        IReadOnlyList<string> order = names;
        if (written.Length > 0 && table.IsSound)
        {
            (order, string? fault) = LayerSequence.Read(written, names);
            if (fault is not null)
            {
                table.Fault(
                    Order,
                    $"{table.PathOf("sequence")}: {fault}",
                    $"expected names of layers with repeats such as \"(H L)^8 H\"; layers are {string.Join(", ", names)}"
                );
            }
        }
        return new()
        {
            Name = table.Segment,
            Layers = layers,
            Sequence = order,
        };
    }

    private static FilmLayerDesign BuildLayer(TableReading table)
    {
        double? index = table.Get(Index);
        ColumnData? data = table.Get(File);
        string? material = table.Get(Material);
        if (table.IsSound && index is not null && data is not null)
        {
            table.Fault(Index, $"{table.Path} has both index and file", "give at most one of: index; file");
        }
        if (
            table.IsSound
            && data is not null
            && Sequence.FirstNotIncreasing(data[WavelengthColumn.Name]) is >= 0 and var row
        )
        {
            table.Context.Faults.Add(
                data.PositionOf(row),
                $"{table.Path}: the wavelength is not larger than the one before",
                "expected wavelengths that increase strictly"
            );
        }
        if (table.IsSound && index is null && data is null && IndexOf(table, material) is null)
        {
            string what = material is null
                ? $"{table.Path} has no refractive index"
                : $"{table.Path}: no refractive index of {material} is known";
            table.Fault(
                material is null ? Thickness : Material,
                what,
                $"expected index, file, or a material out of {string.Join(", ", IndexTable.Names)}, or one that is like it"
            );
        }
        return new()
        {
            Name = table.Segment,
            ThicknessMetres = table.Get(Thickness),
            MaterialName = material,
            IndexMaterialName = IndexOf(table, material),
            Index = index,
            Extinction = table.Get(Extinction),
            DensityKilogramsPerCubicMetre = table.Get(Density),
            Rows = data is null ? [] : [.. Enumerable.Range(0, data.RowCount).Select(i => RowOf(data, i))],
        };
    }

    private static (double Wavelength, double N, double K) RowOf(ColumnData data, int row) =>
        (data[WavelengthColumn.Name][row], data[IndexColumn.Name][row], data[ExtinctionColumn.Name][row]);

    // The index of a material of the design's own is that of the one it is like.
    private static string? IndexOf(TableReading table, string? material)
    {
        if (material is null || IndexTable.Find(material) is not null)
        {
            return material;
        }
        string? like = (
            (table.Context.Root.Find("material") as Documents.TableNode)?.Find(material) as Documents.TableNode
        )?.Find("like")
            is Documents.TextNode text
            ? text.Text
            : null;
        return like is not null && IndexTable.Find(like) is not null ? like : null;
    }
}
