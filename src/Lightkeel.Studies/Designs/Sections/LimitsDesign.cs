namespace Lightkeel.Studies.Designs.Sections;

/// <summary>Safety factors and settings of the limits of heat and strength.</summary>
public sealed record LimitsDesign
{
    /// <summary>Temperature limit over what is allowed of it, for films.</summary>
    public double FilmTemperatureFactor { get; init; }

    /// <summary>Tensile strength over what is allowed of it, for films.</summary>
    public double FilmStrengthFactor { get; init; }

    /// <summary>Buckling stress over what is allowed of it, for films.</summary>
    public double FilmBucklingFactor { get; init; }

    /// <summary>Power at the runaway point over what is allowed of it.</summary>
    public double RunawayFactor { get; init; }

    /// <summary>Strength over what is allowed of it, for booms.</summary>
    public double BoomStrengthFactor { get; init; }

    /// <summary>Buckling load over what is allowed of it, for booms.</summary>
    public double BoomBucklingFactor { get; init; }

    /// <summary>Temperature limit over what is allowed of it, for payload and booms.</summary>
    public double BodyTemperatureFactor { get; init; }

    /// <summary>How often the first bending frequency of a boom must exceed the fastest rigid-body mode.</summary>
    public double BoomFrequencyFactor { get; init; }

    /// <summary>Share of the classical buckling stress that a thin shell reaches.</summary>
    public double ShellKnockdown { get; init; }

    /// <summary>Relative distance within which two frequencies coincide.</summary>
    public double ModeBandwidth { get; init; }

    /// <summary>Radius of the patch through which the film hands over its load at its inner end, m; null when not stated.</summary>
    public double? MountRadiusMetres { get; init; }

    /// <summary>Largest sag of a flat film, m; null when not stated.</summary>
    public double? SagMetres { get; init; }

    /// <summary>Highest temperature of payloads without a material, K; null when not stated.</summary>
    public double? PayloadTemperatureKelvin { get; init; }
}

/// <summary>What the mass budget adds to the parts.</summary>
public sealed record BudgetDesign
{
    /// <summary>Joints, seams and glue that are in no part, kg.</summary>
    public double JointsKilograms { get; init; }

    /// <summary>Growth allowance over all parts.</summary>
    public double GrowthFraction { get; init; }
}

/// <summary>What the mission wants and what things cost.</summary>
public sealed record MissionDesign
{
    /// <summary>Axial speed at which the boost has done its work, m/s; null for none.</summary>
    public double? TargetSpeedMetresPerSecond { get; init; }

    /// <summary>Distance from the start at which it has, m; null for none.</summary>
    public double? TargetDistanceMetres { get; init; }

    /// <summary>Price of a joule that leaves the source, in the user's currency; null when not stated.</summary>
    public double? PricePerJoule { get; init; }

    /// <summary>Price of a watt of installed beam, in the user's currency; null when not stated.</summary>
    public double? PricePerWatt { get; init; }

    /// <summary>Name of the currency.</summary>
    public string Currency { get; init; } = "";
}
