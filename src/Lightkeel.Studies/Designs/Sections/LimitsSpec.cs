using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Specification;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>The keys of <c>[limits]</c>, <c>[budget]</c> and <c>[mission]</c>.</summary>
internal static class LimitsSpec
{
    private static readonly NumberKind Factor = NumberKind.Pure(Interval.Closed(1, 100), "1.5");

    private static readonly NumberField FilmTemperature = Safety(
        "film_temperature_factor",
        1.1,
        "temperature limit of films"
    );
    private static readonly NumberField FilmStrength = Safety("film_strength_factor", 2, "strength of films");
    private static readonly NumberField FilmBuckling = Safety("film_buckling_factor", 1.5, "buckling stress of films");
    private static readonly NumberField Runaway = Safety("runaway_factor", 1.5, "power at the runaway point");
    private static readonly NumberField BoomStrength = Safety("boom_strength_factor", 1.5, "strength of booms");
    private static readonly NumberField BoomBuckling = Safety("boom_buckling_factor", 2, "buckling load of booms");
    private static readonly NumberField BodyTemperature = Safety(
        "body_temperature_factor",
        1.1,
        "temperature limit of payload and booms"
    );

    private static readonly NumberField BoomFrequency = new(
        "boom_frequency_factor",
        Factor,
        "How often a boom's first bending frequency must exceed the fastest rigid-body mode (common practice, no source).",
        3
    );

    private static readonly NumberField Knockdown = new(
        "shell_knockdown",
        NumberKind.Pure(new(0, 1, false, true), "0.2"),
        "Share of the classical buckling stress that a thin shell with its dents reaches (common practice, no source).",
        0.2
    );

    private static readonly NumberField Bandwidth = new(
        "mode_bandwidth",
        NumberKind.Pure(new(0, 1, false, false), "0.1"),
        "Relative distance within which two frequencies are told to coincide (common practice, no source).",
        0.1
    );

    private static readonly OptionalNumberField MountRadius = new(
        "mount_radius",
        NumberKind.Of(Dimension.OfLength, Interval.Positive, "2 cm", "cm"),
        "Radius of the patch through which a film hands over its load at its inner end."
    );

    private static readonly OptionalNumberField Sag = new(
        "max_sag",
        NumberKind.Of(Dimension.OfLength, Interval.Positive, "1 cm", "cm"),
        "Largest sag allowed of a flat film."
    );

    private static readonly OptionalNumberField PayloadTemperature = new(
        "payload_temperature",
        NumberKind.Of(Dimension.OfTemperature, Interval.Positive, "400 K"),
        "Highest temperature of payloads and booms that name no material."
    );

    private static readonly NumberField Joints = new(
        "joints",
        NumberKind.Of(Dimension.OfMass, Interval.NotNegative, "10 mg"),
        "Joints, seams and glue that are in no part; counted in the budget, not in the flight.",
        0
    );

    private static readonly NumberField Growth = new(
        "growth_allowance",
        NumberKind.Pure(Interval.Closed(0, 10), "0.2"),
        "Growth allowance over all parts; counted in the budget, not in the flight.",
        0
    );

    private static readonly OptionalNumberField Speed = new(
        "target_speed",
        NumberKind.Of(Dimension.OfSpeed, Interval.Open(0, 299792458), "0.01 c", "km/s"),
        "Axial speed at which the boost has done its work."
    );

    private static readonly OptionalNumberField Distance = new(
        "target_distance",
        NumberKind.Of(Dimension.OfLength, Interval.Positive, "1 AU", "km"),
        "Distance from the start at which the boost has done its work."
    );

    private static readonly OptionalNumberField PerJoule = new(
        "price_per_joule",
        NumberKind.Pure(Interval.NotNegative, "1e-7"),
        "Price of a joule that leaves the source, in the currency."
    );

    private static readonly OptionalNumberField PerWatt = new(
        "price_per_watt",
        NumberKind.Pure(Interval.NotNegative, "5"),
        "Price of a watt of installed beam, in the currency."
    );

    private static readonly TextField Currency = TextField.Free(
        "currency",
        "Name of the currency of the prices.",
        "units of money"
    );

    /// <summary>The section of safety factors.</summary>
    public static TableField<LimitsDesign> Limits { get; } =
        new(
            "limits",
            new TableSpec<LimitsDesign>(
                "Safety factors and settings of the limits of heat and strength.",
                [
                    FilmTemperature,
                    FilmStrength,
                    FilmBuckling,
                    Runaway,
                    BoomStrength,
                    BoomBuckling,
                    BodyTemperature,
                    BoomFrequency,
                    Knockdown,
                    Bandwidth,
                    MountRadius,
                    Sag,
                    PayloadTemperature,
                ],
                t =>
                    new()
                    {
                        FilmTemperatureFactor = t.Get(FilmTemperature),
                        FilmStrengthFactor = t.Get(FilmStrength),
                        FilmBucklingFactor = t.Get(FilmBuckling),
                        RunawayFactor = t.Get(Runaway),
                        BoomStrengthFactor = t.Get(BoomStrength),
                        BoomBucklingFactor = t.Get(BoomBuckling),
                        BodyTemperatureFactor = t.Get(BodyTemperature),
                        BoomFrequencyFactor = t.Get(BoomFrequency),
                        ShellKnockdown = t.Get(Knockdown),
                        ModeBandwidth = t.Get(Bandwidth),
                        MountRadiusMetres = t.Get(MountRadius),
                        SagMetres = t.Get(Sag),
                        PayloadTemperatureKelvin = t.Get(PayloadTemperature),
                    }
            ),
            TablePresence.Defaulted
        );

    /// <summary>The section of the mass budget.</summary>
    public static TableField<BudgetDesign> Budget { get; } =
        new(
            "budget",
            new TableSpec<BudgetDesign>(
                "What the mass budget adds to the parts.",
                [Joints, Growth],
                t => new() { JointsKilograms = t.Get(Joints), GrowthFraction = t.Get(Growth) }
            ),
            TablePresence.Defaulted
        );

    /// <summary>The section of the mission.</summary>
    public static TableField<MissionDesign> Mission { get; } =
        new(
            "mission",
            new TableSpec<MissionDesign>(
                "What the mission wants, and what light costs.",
                [Speed, Distance, PerJoule, PerWatt, Currency],
                t =>
                    new()
                    {
                        TargetSpeedMetresPerSecond = t.Get(Speed),
                        TargetDistanceMetres = t.Get(Distance),
                        PricePerJoule = t.Get(PerJoule),
                        PricePerWatt = t.Get(PerWatt),
                        Currency = t.Get(Currency)!,
                    }
            ),
            TablePresence.Defaulted
        );

    private static NumberField Safety(string key, double value, string what) =>
        new(key, Factor, $"Safety factor on the {what} (common practice, no source).", value);
}
