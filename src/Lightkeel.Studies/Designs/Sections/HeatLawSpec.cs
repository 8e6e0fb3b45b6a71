using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Specification;
using Lightkeel.Studies.Designs.Tables;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>How absorption and emission of a surface change with temperature.</summary>
/// <param name="AbsorptionGrowthPerKelvin">b in A = A0 exp(b (T − T0)), 1/K.</param>
/// <param name="EmissivityExponent">p in ε = ε0 (T/T0)^p.</param>
/// <param name="ReferenceKelvin">T0, K.</param>
public sealed record HeatLawDesign(double AbsorptionGrowthPerKelvin, double EmissivityExponent, double ReferenceKelvin)
{
    /// <summary>Absorbed share against temperature, K; null for none.</summary>
    public SharesDesign? Absorption { get; init; }

    /// <summary>Emissivity of the lit side against temperature, K; null for none.</summary>
    public SharesDesign? EmissivityLit { get; init; }

    /// <summary>Emissivity of the other side against temperature, K; null for none.</summary>
    public SharesDesign? EmissivityBack { get; init; }

    /// <summary>Absorbed share against wavelength, m; null for none.</summary>
    public SharesDesign? Wavelength { get; init; }
}

/// <summary>Shares at rising places.</summary>
/// <param name="Places">Temperatures, K, or wavelengths, m.</param>
/// <param name="Shares">The share at each.</param>
public sealed record SharesDesign(IReadOnlyList<double> Places, IReadOnlyList<double> Shares);

/// <summary>The keys of <c>[surface.NAME.heat]</c>.</summary>
internal static class HeatLawSpec
{
    private static readonly NumberField Growth = new(
        "absorption_growth",
        NumberKind.Of(new(Temperature: -1), Interval.Closed(0, 1), "1e-3 1/K", "1/K"),
        "Growth b of the absorbed share, A = A0 exp(b (T - T0)).",
        0
    );

    private static readonly NumberField Exponent = new(
        "emissivity_exponent",
        NumberKind.Pure(Interval.Closed(-3, 4), "1"),
        "Exponent p of the emissivities, e = e0 (T/T0)^p.",
        0
    );

    private static readonly NumberField Reference = new(
        "reference_temperature",
        NumberKind.Of(Dimension.OfTemperature, Interval.Positive, "300 K"),
        "Temperature T0 at which the stated shares hold.",
        300
    );

    private const int FewestPoints = 2;

    private static readonly ColumnSpec Temperature = new(
        "temperature",
        NumberKind.Of(Dimension.OfTemperature, Interval.Positive, "300 K"),
        "Temperature of the film.",
        "temperature_K"
    );

    private static readonly ColumnSpec Absorbed = Share("absorbed", "Absorbed share there.");
    private static readonly ColumnSpec Lit = Share("emissivity_lit", "Emissivity of the lit side there.");
    private static readonly ColumnSpec Back = Share("emissivity_back", "Emissivity of the other side there.");

    private static readonly ColumnSpec Wavelength = new(
        "wavelength",
        NumberKind.Of(Dimension.OfLength, Interval.Positive, "1.064 um"),
        "Wavelength in the frame of the sail.",
        "wavelength_m"
    );

    private const string Between = "straight in the logarithm between points, the end values carried on";

    private static readonly (FileField InFile, RowsField Here) Absorption = Pair(
        "absorption",
        [Temperature, Absorbed],
        $"absorbed share against temperature, {Between}; what counts is its ratio to that at reference_temperature."
    );

    private static readonly (FileField InFile, RowsField Here) Emissivity = Pair(
        "emissivity",
        [Temperature, Lit, Back],
        $"emissivities of both sides against temperature, {Between}; what counts is their ratio to those at reference_temperature."
    );

    private static readonly (FileField InFile, RowsField Here) Colour = Pair(
        "wavelength",
        [Wavelength, Absorbed],
        $"absorbed share against the wavelength that the moving sail meets, {Between}; what counts is its ratio to that at the wavelength of the beam."
    );

    private static ColumnSpec Share(string name, string description) =>
        new(name, NumberKind.Pure(Interval.Fraction, "0.05"), description, name);

    private static (FileField, RowsField) Pair(string name, ColumnSpec[] columns, string what) =>
        (
            new($"{name}_table", columns, $"CSV file with the {what}", FewestPoints),
            new($"{name}_points", columns, $"Points of the {what}", FewestPoints)
        );

    /// <summary>The table.</summary>
    public static TableField<HeatLawDesign> Section { get; } =
        new(
            "heat",
            new TableSpec<HeatLawDesign>(
                "How absorption and emission change with temperature and wavelength; without it they do not.",
                [
                    Growth,
                    Exponent,
                    Reference,
                    Absorption.InFile,
                    Absorption.Here,
                    Emissivity.InFile,
                    Emissivity.Here,
                    Colour.InFile,
                    Colour.Here,
                ],
                Read,
                new AtMostOneOf([Growth], [Absorption.InFile], [Absorption.Here]),
                new AtMostOneOf([Exponent], [Emissivity.InFile], [Emissivity.Here]),
                new AtMostOneOf([Colour.InFile], [Colour.Here])
            ),
            TablePresence.Optional
        );

    private static HeatLawDesign Read(TableReading t)
    {
        double reference = t.Get(Reference);
        ColumnData? absorption = Rising(t, Absorption, Temperature);
        ColumnData? emissivity = Rising(t, Emissivity, Temperature);
        ColumnData? colour = Rising(t, Colour, Wavelength);
        HeatLawDesign law = new(t.Get(Growth), t.Get(Exponent), reference)
        {
            Absorption = Shares(absorption, Temperature, Absorbed),
            EmissivityLit = Shares(emissivity, Temperature, Lit),
            EmissivityBack = Shares(emissivity, Temperature, Back),
            Wavelength = Shares(colour, Wavelength, Absorbed),
        };
        AllAbove(t, Absorption, absorption, Absorbed);
        AllAbove(t, Colour, colour, Absorbed);
        return law;
    }

    private static SharesDesign? Shares(ColumnData? data, ColumnSpec place, ColumnSpec share) =>
        data is null ? null : new(data[place.Name], data[share.Name]);

    private static ColumnData? Rising(TableReading t, (FileField InFile, RowsField Here) pair, ColumnSpec place)
    {
        ColumnData? inFile = t.Get(pair.InFile);
        ColumnData? here = t.Get(pair.Here);
        if (!t.IsSound || (inFile ?? here) is not { } data)
        {
            return null;
        }
        IReadOnlyList<double> places = data[place.Name];
        for (int i = 1; i < places.Count; i++)
        {
            if (!(places[i] > places[i - 1]))
            {
                t.Context.Faults.Add(
                    data.PositionOf(i),
                    $"{t.PathOf(inFile is null ? pair.Here.Key : pair.InFile.Key)}: {place.Name} {i} (counted from 0) does not lie above the one before",
                    $"expected a {place.Name} that rises from row to row"
                );
                return null;
            }
        }
        return data;
    }

    // A share of nothing has no ratio to the others.
    private static void AllAbove(
        TableReading t,
        (FileField InFile, RowsField Here) pair,
        ColumnData? data,
        ColumnSpec share
    )
    {
        int row = data is null ? -1 : data[share.Name].ToList().FindIndex(v => v == 0);
        if (row >= 0)
        {
            t.Context.Faults.Add(
                data!.PositionOf(row),
                $"{t.PathOf(t.Get(pair.InFile) is null ? pair.Here.Key : pair.InFile.Key)}: {share.Name} {row} (counted from 0) is zero",
                "expected shares above 0, since their ratios count"
            );
        }
    }
}
