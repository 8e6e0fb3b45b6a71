using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Specification;
using Lightkeel.Studies.Designs.Tables;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>The keys of the noise spectra.</summary>
internal static class SpectrumSpec
{
    private static readonly NumberKind DensityKind = NumberKind.OneOf(
        [Dimension.OfLengthSpectralDensity, Dimension.OfAngleSpectralDensity, Dimension.OfRelativeSpectralDensity],
        Interval.NotNegative,
        "1e-8 m^2/Hz"
    );

    // Straight lines on double-logarithmic paper have no zero.
    private static readonly NumberKind TabulatedKind = NumberKind.OneOf(
        DensityKind.Dimensions,
        Interval.Positive,
        "1e-8 m^2/Hz"
    );

    private static readonly NumberKind RmsKind = NumberKind.OneOf(
        [Dimension.OfLength, Dimension.OfAngle, Dimension.None],
        Interval.NotNegative,
        "2 mm"
    );

    private static readonly NumberKind PositiveFrequency = NumberKind.Of(Dimension.OfFrequency, Interval.Positive);

    private static readonly QuantityField Density = new(
        "density",
        DensityKind,
        "One-sided spectral density: m^2/Hz at the sail or rad^2/Hz at the director for pointing, 1/Hz for the relative sources."
    );

    private static readonly QuantityField Rms = new(
        "rms",
        RmsKind,
        "Root mean square over all frequencies: a length at the sail or an angle at the director for pointing, a pure number otherwise."
    );

    private static readonly NumberField Corner = new(
        "corner",
        PositiveFrequency,
        "Frequency above which there is no noise."
    );

    private static readonly NumberField Reference = new(
        "reference",
        PositiveFrequency,
        "Frequency at which the density holds."
    );

    private static readonly NumberField Exponent = new(
        "exponent",
        NumberKind.Pure(Interval.Closed(-8, 8), "-2"),
        "Exponent e of density (f/reference)^e; negative for noise that falls with frequency."
    );

    private static readonly NumberField Low = new("low", PositiveFrequency, "Frequency below which there is no noise.");

    private static readonly NumberField High = new(
        "high",
        PositiveFrequency,
        "Frequency above which there is no noise."
    );

    private static readonly NumberField OuterScale = new(
        "outer_scale",
        NumberKind.Of(Dimension.OfLength, Interval.Positive, "20 m"),
        "Outer scale of the turbulence."
    );

    private static readonly NumberField Wind = new(
        "wind",
        NumberKind.Of(Dimension.OfSpeed, Interval.Positive, "10 m/s"),
        "Speed of the air across the beam."
    );

    private static readonly OptionalNumberField Aperture = new(
        "aperture",
        NumberKind.Of(Dimension.OfLength, Interval.Positive, "4 m"),
        "Diameter over which the tilt is averaged; without it that of the director."
    );

    private static readonly NumberField Frequency = new("frequency", PositiveFrequency, "Centre of the line.");

    private static readonly NumberField Width = new(
        "width",
        PositiveFrequency,
        "Full width of the line at half its maximum."
    );

    private static readonly ColumnSpec FrequencyColumn = new(
        "frequency",
        PositiveFrequency,
        "Frequency.",
        "frequency_Hz"
    );

    private static readonly ColumnSpec DensityColumn = new(
        "density",
        TabulatedKind,
        "One-sided spectral density there.",
        "density_m2_Hz"
    );

    private static readonly FileField TableFile = new(
        "file",
        [FrequencyColumn, DensityColumn],
        "CSV file with the spectrum, frequencies strictly increasing.",
        fewest: 2
    );

    private static readonly RowsField Points = new(
        "points",
        [FrequencyColumn, DensityColumn],
        "Points [frequency, density], frequencies strictly increasing.",
        fewest: 2
    );

    /// <summary>Spectra that a noise may have.</summary>
    public static ChoiceField<SpectrumDesign> Choice { get; } =
        Tabulated(Analytic(ChoiceField<SpectrumDesign>.Of("spectrum", "How the noise is spread over frequency.")));

    private static ChoiceField<SpectrumDesign> Analytic(ChoiceField<SpectrumDesign> choice) =>
        choice
            .Or(
                "white",
                new TableSpec<WhiteSpectrumDesign>("Constant density up to a corner.", [Density, Corner], BuildWhite)
            )
            .Or(
                "power-law",
                new TableSpec<PowerLawSpectrumDesign>(
                    "A power of the frequency between two ends.",
                    [Density, Reference, Exponent, Low, High],
                    BuildPowerLaw
                )
            )
            .Or(
                "von-karman",
                new TableSpec<VonKarmanSpectrumDesign>(
                    "Tilt by air that moves across the beam.",
                    [Rms, OuterScale, Wind, Aperture],
                    BuildVonKarman
                )
            );

    private static ChoiceField<SpectrumDesign> Tabulated(ChoiceField<SpectrumDesign> choice) =>
        choice
            .Or("line", new TableSpec<LineSpectrumDesign>("A narrow line.", [Frequency, Width, Rms], BuildLine))
            .Or(
                "table",
                new TableSpec<TableSpectrumDesign>(
                    "A measured spectrum, from a file or written here.",
                    [TableFile, Points],
                    BuildTable,
                    new OneGroupOf([TableFile], [Points])
                )
            );

    private static WhiteSpectrumDesign BuildWhite(TableReading table)
    {
        Quantity density = table.Get(Density);
        return new()
        {
            Measure = MeasureOf(density.Dimension),
            DensityPerHertz = density.SiValue,
            CornerHertz = table.Get(Corner),
        };
    }

    private static PowerLawSpectrumDesign BuildPowerLaw(TableReading table)
    {
        Quantity density = table.Get(Density);
        PowerLawSpectrumDesign made = new()
        {
            Measure = MeasureOf(density.Dimension),
            DensityPerHertz = density.SiValue,
            ReferenceHertz = table.Get(Reference),
            Exponent = table.Get(Exponent),
            LowHertz = table.Get(Low),
            HighHertz = table.Get(High),
        };
        if (table.IsSound && made.HighHertz <= made.LowHertz)
        {
            table.Fault(
                High,
                $"{table.PathOf(High.Key)} is not above low",
                $"expected more than {Quantity.Format(made.LowHertz, "Hz")}"
            );
        }
        return made;
    }

    private static VonKarmanSpectrumDesign BuildVonKarman(TableReading table)
    {
        Quantity rms = table.Get(Rms);
        VonKarmanSpectrumDesign made = new()
        {
            Measure = MeasureOf(rms.Dimension),
            Rms = rms.SiValue,
            OuterScaleMetres = table.Get(OuterScale),
            WindMetresPerSecond = table.Get(Wind),
            ApertureMetres = table.Get(Aperture),
        };
        if (table.IsSound && made.ApertureMetres is null && !HasDirector(table))
        {
            table.Fault(
                Aperture,
                $"{table.PathOf(Aperture.Key)} is missing and there is no [beam.director]",
                Aperture.Accepted
            );
        }
        return made;
    }

    private static LineSpectrumDesign BuildLine(TableReading table)
    {
        Quantity rms = table.Get(Rms);
        LineSpectrumDesign made = new()
        {
            Measure = MeasureOf(rms.Dimension),
            Rms = rms.SiValue,
            FrequencyHertz = table.Get(Frequency),
            WidthHertz = table.Get(Width),
        };
        if (table.IsSound && made.WidthHertz > 2 * made.FrequencyHertz)
        {
            table.Fault(
                Width,
                $"{table.PathOf(Width.Key)} is more than twice the frequency, which is no line",
                $"expected {Quantity.Format(2 * made.FrequencyHertz, "Hz")} or less, or spectrum = \"white\""
            );
        }
        return made;
    }

    private static TableSpectrumDesign BuildTable(TableReading table)
    {
        Field source = table.Has(TableFile) ? TableFile : Points;
        ColumnData? file = table.Get(TableFile);
        ColumnData? points = table.Get(Points);
        ColumnData? data = file ?? points;
        IReadOnlyList<double> frequencies = data?[FrequencyColumn.Name] ?? [];
        int row = Sequence.FirstNotIncreasing(frequencies);
        if (table.IsSound && row >= 0)
        {
            string frequency = Quantity.Format(frequencies[row], "Hz");
            string what =
                $"{table.PathOf(source.Key)}: frequency {row} ({frequency}, counted from 0) is not above the one before";
            table.Context.Faults.Add(data!.PositionOf(row), what, "expected frequencies that strictly increase");
        }
        if (table.IsSound && table.Node?.Find(Points.Key) is ArrayNode rows && HasMixedDensities(rows))
        {
            table.Fault(
                Points,
                $"{table.PathOf(Points.Key)} mixes densities of several kinds",
                "expected one unit of density for all points"
            );
        }
        return new()
        {
            Measure = MeasureOf(data?.DimensionOf(DensityColumn.Name) ?? default),
            FrequenciesHertz = frequencies,
            DensitiesPerHertz = data?[DensityColumn.Name] ?? [],
        };
    }

    /// <summary>True when the rows, already found sound, do not agree on the dimension of their densities.</summary>
    private static bool HasMixedDensities(ArrayNode rows) =>
        rows.Items.OfType<ArrayNode>()
            .Select(r => DensityKind.TryRead(r.Items[1], out Quantity density, out _) ? density.Dimension : default)
            .Distinct()
            .Count() > 1;

    /// <summary>True when the design has a director, which noise given at the director needs.</summary>
    internal static bool HasDirector(TableReading table) =>
        (table.Context.Root.Find("beam") as TableNode)?.Find("director") is TableNode;

    private static NoiseMeasure MeasureOf(Dimension dimension) =>
        dimension == Dimension.OfLength || dimension == Dimension.OfLengthSpectralDensity ? NoiseMeasure.Length
        : dimension == Dimension.OfAngle || dimension == Dimension.OfAngleSpectralDensity ? NoiseMeasure.Angle
        : NoiseMeasure.Relative;
}
