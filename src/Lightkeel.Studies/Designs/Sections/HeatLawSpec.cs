using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Specification;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>How absorption and emission of a surface change with temperature.</summary>
/// <param name="AbsorptionGrowthPerKelvin">b in A = A0 exp(b (T − T0)), 1/K.</param>
/// <param name="EmissivityExponent">p in ε = ε0 (T/T0)^p.</param>
/// <param name="ReferenceKelvin">T0, K.</param>
public sealed record HeatLawDesign(double AbsorptionGrowthPerKelvin, double EmissivityExponent, double ReferenceKelvin);

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

    /// <summary>The table.</summary>
    public static TableField<HeatLawDesign> Section { get; } =
        new(
            "heat",
            new TableSpec<HeatLawDesign>(
                "How absorption and emission change with temperature; without it they do not.",
                [Growth, Exponent, Reference],
                t => new(t.Get(Growth), t.Get(Exponent), t.Get(Reference))
            ),
            TablePresence.Optional
        );
}
